using Fettle.Web.Identity;

namespace Fettle.Web.Areas.Shared;

/// <summary>An entry of the page header.</summary>
public sealed record Place(string Name, string Path)
{
    public string Title => T(Name);

    /// <summary>Whether a page of this path belongs to this entry.</summary>
    public bool Holds(PathString path) => path.StartsWithSegments(Path, StringComparison.OrdinalIgnoreCase);
}

public static class Navigation
{
    private static readonly Place Pickups = new("Pickups", "/pickups");
    private static readonly Place Catalogue = new("Catalogue", "/catalogue");
    private static readonly Place Holds = new("Held freight", "/holds");
    private static readonly Place Scan = new("Scan", "/scan");
    private static readonly Place DockVisits = new("Dock visits", "/dock-visits");
    private static readonly Place Claims = new("Claims", "/claims");
    private static readonly Place Score = new("Your score", "/score");
    private static readonly Place Messages = new("Messages", "/messages");

    /// <summary>Where a role works, first things first.</summary>
    public static IReadOnlyList<Place> Of(Role role) => role switch
    {
        Role.ShipperClerk => [Pickups, Catalogue, Holds, Claims, DockVisits, Score, Messages],
        Role.TerminalReviewer => [new("Dock board", "/board"), Scan, Holds, Pickups, Claims, DockVisits, Messages],
        Role.AccountManager => [new("Shippers", "/accounts"), Pickups, Holds, Claims, Messages],
        Role.Administrator => [new("People", "/admin/people"), new("Rules", "/admin/rules"), new("API keys", "/admin/api-keys"), Pickups, Holds, Messages],
    };
}
