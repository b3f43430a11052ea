using Fettle.Web.Catalogue;
using Fettle.Web.Declarations;

namespace Fettle.Web.Areas.Shipper.Pickups;

public sealed record LineView(EditorPage Page, LinePage Line);

/// <summary>A select of cartons or platforms that fills a line's fields.</summary>
public sealed record CatalogueChoice(EditorPage Page, CatalogueKind Kind, int Line);

public static class EditorFields
{
    private static readonly Dictionary<string, string> HeadNames = new(StringComparer.Ordinal)
    {
        ["site"] = "your site",
        ["terminal"] = "origin terminal",
        ["destination"] = "consignee and town",
        ["consigneeAddress"] = "consignee's address",
        ["window.date"] = "pickup day",
        ["window.from"] = "window opens",
        ["window.to"] = "window closes",
        ["lane.miles"] = "miles to the consignee",
        ["lane.transfers"] = "changes of trailer",
        ["units"] = "numbers are in",
        ["driverOnDock"] = "driver on the dock",
        ["lane.crossBorder"] = "crosses a border",
        ["lane.liftgate"] = "liftgate",
        ["lane.noDock"] = "no dock",
    };

    /// <summary>A field by the words of the page: "handlingUnits[0].outer.length" of a line named A1 is "A1, outer length".</summary>
    public static string NameOf(string path, PickupForm form) => LinePage.Split(path) is var (index, field)
        ? $"{(index < form.HandlingUnits.Count && form.HandlingUnits[index].Reference is { Length: > 0 } name ? name : T("unit {0}", index + 1))}, {LinePage.NameOf(field)}"
        : T(HeadNames.GetValueOrDefault(path, path));

    /// <summary>Fields of the head that can have a message beside them.</summary>
    public static readonly IReadOnlyList<string> OfHead =
        ["site", "terminal", "destination", "consigneeAddress", "window.date", "window.from", "window.to", "equipment", "lane.miles", "lane.transfers", "units", "driverOnDock", "lane.crossBorder", "lane.liftgate", "lane.noDock", "handlingUnits"];
}
