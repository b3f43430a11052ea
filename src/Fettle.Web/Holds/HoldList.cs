using Fettle.Readiness.Holds;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;

namespace Fettle.Web.Holds;

/// <summary>Which holds somebody may see; the database's side of <see cref="Caller.MaySee"/>.</summary>
public static class HoldList
{
    public static IQueryable<Hold> VisibleTo(IQueryable<Hold> holds, Caller caller)
    {
        var rights = caller.Rights;
        Guid[] sites = [.. rights.SiteIds];
        Guid[] terminals = [.. rights.TerminalIds];
        Guid[] accounts = [.. rights.AccountShipperIds];
        return caller.Role switch
        {
            Role.ShipperClerk => holds.Where(hold => hold.Placed.Pickup.ShipperId == rights.ShipperId && sites.Contains(hold.Placed.Pickup.SiteId)),
            Role.TerminalReviewer => holds.Where(hold => hold.Placed.Pickup.CarrierId == rights.CarrierId && terminals.Contains(hold.Placed.Pickup.TerminalId)),
            Role.AccountManager => holds.Where(hold => hold.Placed.Pickup.CarrierId == rights.CarrierId && accounts.Contains(hold.Placed.Pickup.ShipperId)),
            Role.Administrator => holds.Where(hold => rights.CarrierId == null || hold.Placed.Pickup.CarrierId == rights.CarrierId),
        };
    }
}

/// <summary>What a decision must say, on the page and in the API.</summary>
public static class DecisionForm
{
    public const int ShortestReason = 5;
    public const int LongestReason = 2000;

    public static Dictionary<string, string> Errors(string? decision, string? reason)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        if (Wording.Parse<HoldDecision>(decision) is null)
            errors["decision"] = T("Choose one of: {0}.", string.Join(", ", Wording.All<HoldDecision>()));
        var length = reason?.Trim().Length ?? 0;
        if (length < ShortestReason)
            errors["reason"] = T("Say why, in a few words: the shipper reads it.");
        else if (length > LongestReason || !UnitFormValidator.ReadableText(reason!.ReplaceLineEndings(" ")))
            errors["reason"] = T("At most {0} readable characters.", LongestReason);
        return errors;
    }
}
