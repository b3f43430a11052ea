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
}
