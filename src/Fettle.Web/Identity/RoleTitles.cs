namespace Fettle.Web.Identity;

public static class RoleTitles
{
    /// <summary>As people read it: "Shipper clerk".</summary>
    public static string Title(this Role role) => role switch
    {
        Role.ShipperClerk => T("Shipper clerk"),
        Role.TerminalReviewer => T("Terminal reviewer"),
        Role.AccountManager => T("Account manager"),
        Role.Administrator => T("Administrator"),
    };

    /// <summary>What someone in this role does, in a few words.</summary>
    public static string Task(this Role role) => role switch
    {
        Role.ShipperClerk => T("declares freight at a dock"),
        Role.TerminalReviewer => T("inspects held freight and decides"),
        Role.AccountManager => T("reads shippers' scorecards"),
        Role.Administrator => T("looks after people, keys and rules"),
    };
}
