namespace Fettle.Web.Identity;

public static class RoleTitles
{
    /// <summary>As people read it: "Shipper clerk".</summary>
    public static string Title(this Role role) => role switch
    {
        Role.ShipperClerk => "Shipper clerk",
        Role.TerminalReviewer => "Terminal reviewer",
        Role.AccountManager => "Account manager",
        Role.Administrator => "Administrator",
    };

    /// <summary>What someone in this role does, in a few words.</summary>
    public static string Task(this Role role) => role switch
    {
        Role.ShipperClerk => "declares freight at a dock",
        Role.TerminalReviewer => "inspects held freight and decides",
        Role.AccountManager => "reads shippers' scorecards",
        Role.Administrator => "looks after people, keys and rules",
    };
}
