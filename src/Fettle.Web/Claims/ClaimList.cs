using Fettle.Readiness.Claims;
using Fettle.Readiness.Pickups;
using Fettle.Web.Identity;
using Fettle.Web.Pickups;
using Marten;

namespace Fettle.Web.Claims;

/// <summary>A claim with the pickup that it is about.</summary>
public sealed record ClaimRow(Pickup Pickup, Claim Claim);

/// <summary>The claims that somebody may see.</summary>
public static class ClaimList
{
    /// <summary>Pickups with claims that are looked at, those handed in last; our choice.</summary>
    public const int MostPickups = 200;

    /// <summary>Those that the carrier must do something about soonest come first, then the newest.</summary>
    /// <param name="onlyOpen">Only claims about which the carrier still has something to do.</param>
    public static async Task<IReadOnlyList<ClaimRow>> OfAsync(IQuerySession session, Caller caller, bool onlyOpen, CancellationToken cancel)
    {
        var visible = PickupList.VisibleTo(session.Query<Pickup>(), caller);
        var pickups = await (onlyOpen ? visible.Where(pickup => pickup.HasOpenClaim) : visible.Where(pickup => pickup.HasClaim))
            .OrderByDescending(pickup => pickup.SubmittedAt)
            .Take(MostPickups)
            .ToListAsync(cancel);
        return
        [
            .. pickups.SelectMany(pickup => pickup.Claims, (pickup, claim) => new ClaimRow(pickup, claim))
                .Where(row => !onlyOpen || row.Claim.IsOpen)
                .OrderBy(row => row.Claim.DueOn ?? DateOnly.MaxValue).ThenByDescending(row => row.Claim.Filed.At),
        ];
    }
}
