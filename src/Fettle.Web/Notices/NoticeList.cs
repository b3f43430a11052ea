using Fettle.Web.Identity;

namespace Fettle.Web.Notices;

/// <summary>Which notices somebody may see: those about freight that they may see.</summary>
public static class NoticeList
{
    public static IQueryable<Notice> VisibleTo(IQueryable<Notice> notices, Caller caller)
    {
        var rights = caller.Rights;
        Guid? person = caller.Id;
        Guid[] sites = [.. rights.SiteIds];
        Guid[] terminals = [.. rights.TerminalIds];
        Guid[] accounts = [.. rights.AccountShipperIds];
        return caller.Role switch
        {
            Role.ShipperClerk => notices.Where(notice => notice.ShipperId == rights.ShipperId && sites.Contains(notice.SiteId)),
            Role.TerminalReviewer => notices.Where(notice => notice.CarrierId == rights.CarrierId && terminals.Contains(notice.TerminalId)),
            Role.AccountManager => notices.Where(notice => notice.CarrierId == rights.CarrierId && (accounts.Contains(notice.ShipperId) || notice.PersonId == person)),
            Role.Administrator => notices.Where(notice => rights.CarrierId == null || notice.CarrierId == rights.CarrierId),
        };
    }

    /// <summary>The same for one notice that has been loaded.</summary>
    public static bool MaySee(Notice notice, Caller caller) => VisibleTo(new[] { notice }.AsQueryable(), caller).Any();
}
