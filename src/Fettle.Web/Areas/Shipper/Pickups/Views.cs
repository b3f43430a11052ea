namespace Fettle.Web.Areas.Shipper.Pickups;

public sealed record LineView(EditorPage Page, LinePage Line);

public static class EditorFields
{
    /// <summary>Fields of the head that can have a message beside them.</summary>
    public static readonly IReadOnlyList<string> OfHead =
        ["site", "terminal", "destination", "window.date", "window.from", "window.to", "equipment", "lane.miles", "lane.transfers", "units", "driverOnDock", "lane.crossBorder", "handlingUnits"];
}
