using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Web.Drawings;
using Fettle.Web.FloorPlans;
using Fettle.Web.Notices.Letters;

namespace Fettle.Web.Papers;

/// <summary>For the driver at the dock: what is taken here, what each piece asks for, what stays, and how it fits the trailer.</summary>
internal static class Manifest
{
    public static byte[] Write(PickupFreight freight, Paper paper)
    {
        var header = freight.Pickup.Header;
        var plan = DeclaredLoad.Plan(freight.Pickup, decks: false);
        using var pages = new PaperPages(paper, T("Manifest {0}", freight.Number), T("Driver's manifest {0}", freight.Number));
        pages.Title(T("Driver's manifest"), freight.Number);
        pages.Facts(
            2,
            (T("Pick up at"), freight.From),
            (T("Bring to"), freight.Terminal),
            (T("When"), Moments.Long(header.Window)),
            (T("Consignee"), freight.To));
        pages.Facts(
            4,
            (T("Handling units"), freight.Count),
            (T("Gross weight"), freight.Weight),
            (T("Linear feet"), plan is null ? T("too many units to be planned") : Words.Feet(plan.LinearFeet)),
            (T("Truck"), FreightWords.Equipment(header.Equipment)));
        if (!freight.Pickup.Declaration.DriverOnDock)
            pages.Notice(T("You are not admitted to the dock: look at what you can see, and sign for shipper's load and count."));
        var held = freight.Lines.Where(line => freight.HoldOf(line) is { IsOpen: true }).ToArray();
        if (held.Length > 0)
            pages.Notice(T("HELD, do not load before the terminal has decided: {0}", string.Join(", ", held.Select(line => $"{line.Quantity} × {line.Reference}"))));
        pages.Table(
            [new(T("Line"), 10), new(T("Handling units"), 16), new(T("Outside, each"), 20), new(T("Each"), 13, Right: true), new(T("All"), 14, Right: true), new(T("Take care"), 46)],
            [
                .. freight.Lines.Select(line => (IReadOnlyList<string>)
                [
                    line.Reference, FreightWords.Count(line), freight.Size(line), freight.Show((Quantity)line.GrossWeight), freight.WeightOf(line), string.Join("\n", Cares(freight, line)),
                ]),
            ],
            [T("Total"), freight.Count, "", "", freight.Weight, ""]);
        if (plan is { Positions.Count: > 0 })
        {
            pages.Heading(T("In the trailer"));
            pages.Text(T("One way to load it, for a look ahead: {0} of the floor. You decide, weigh and secure.", Words.Feet(plan.LinearFeet)), 8);
            pages.Picture(TrailerDrawing.Svg(plan, [.. freight.Lines.Select(line => line.Reference)], freight.Units, DrawingOptions.ForMail), 190);
        }

        pages.Signatures(
            (T("Counted and taken over, except as noted:"), [T("Driver: signature"), T("Name"), T("Date and time")]),
            (T("Handed over:"), [T("Dock: signature"), T("Name"), T("Trailer and seal")]));
        pages.Text(T("Made from what the shipper declared; weights and sizes are the shipper's. Do not stand under or beside a load that can fall, and follow your carrier's rules for forklifts, straps and top loads."), 7.5);
        return pages.Save();
    }

    private static IEnumerable<string> Cares(PickupFreight freight, HandlingUnit line)
    {
        if (freight.HoldOf(line) is { } hold)
        {
            yield return hold.Decided is { } decided
                ? T("Hold {0}: {1}", hold.Placed.Number, FreightWords.Decided(decided.Decision))
                : T("HELD {0}: do not load", hold.Placed.Number);
        }

        yield return line switch
        {
            { Requests.Decking: true } => T("nothing on top; on or under decking"),
            _ => TopLoad.MayCarry(line) ? T("may carry a top load") : T("nothing on top"),
        };
        if (PickupFreight.Fragile(line) is { } fragile)
            yield return fragile;
        if (PickupFreight.Regulated(line) is { } regulated)
            yield return regulated;
        if (line.Requests.Airbags)
            yield return T("airbags beside it");
        if (line.Requests.Strap)
            yield return T("a strap to the wall");
        if (line.Requests.Bulkhead)
            yield return T("a bulkhead panel or load bar against it");
    }
}
