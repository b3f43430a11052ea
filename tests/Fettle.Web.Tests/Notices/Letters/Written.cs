using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Notices.Letters;
using Fettle.Web.Tests.Drawings;

namespace Fettle.Web.Tests.Notices.Letters;

/// <summary>Pickups to write about, submitted through the real check, and letters read back.</summary>
internal static partial class Written
{
    public static readonly PickupNames Names = new("Bramblewick Glassware", "North dock", "14 Kiln Lane, Millbrook", "Larkspur Motor Freight", "Millbrook");

    public static readonly Uri Link = new("https://fettle.example/pickups/P-4K7Q2M?tab=a&x=1");

    public static readonly Guid PickupId = Guid.Parse("0198c0de-0000-7000-8000-000000000001");

    /// <summary>Monday 23 November 2026, 09:05 in Chicago, where it is winter time: six hours behind UTC.</summary>
    public static readonly DateTimeOffset Submitted = new(2026, 11, 23, 15, 5, 0, TimeSpan.Zero);

    /// <summary>Tuesday from 14:00 to 16:00 in Chicago.</summary>
    public static readonly PickupWindow Window = new(new(2026, 11, 24, 20, 0, 0, TimeSpan.Zero), new(2026, 11, 24, 22, 0, 0, TimeSpan.Zero), "America/Chicago");

    /// <summary>Two inches of bare deck all round, boards, three turns of film over the pallet: nothing to be found.</summary>
    public static readonly HandlingUnit Ready = Freight.Pallet("A1", (11, 9, 10), perLayer: 16, layers: 4) with { Quantity = 3 };

    public static readonly HandlingUnit Held = Freight.Overhanging with { Stackable = true, Contents = (CartonContents)Freight.Overhanging.Contents with { Carton = WithBoard((CartonContents)Freight.Overhanging.Contents) } };

    public static Carton WithBoard(CartonContents cartons) => cartons.Carton with { Board = new Board(Flute.C, 32) };

    public static Pickup Pickup(
        IReadOnlyList<HandlingUnit> lines, string? exception = null, PickupWindow? window = null, UnitSystem units = UnitSystem.Imperial, string number = "P-4K7Q2M", string destination = "Copper Fork", string by = "Maya Ortiz", bool driverOnDock = true)
    {
        var header = new PickupHeader(number, Guid.Empty, Guid.Empty, Guid.Empty, Guid.Empty, destination, window ?? Window, Equipment.Van53);
        var declaration = new Declaration(new Lane(640, 2, false), driverOnDock, units, lines);
        var decision = Readiness.Pickups.Pickup.Decide(null, new SubmitPickup(PickupId, header, declaration, UnitNumber.For(declaration, _ => null), RuleSet.BuiltIn, exception, new Actor(Guid.Empty, by), Submitted));
        return Readiness.Pickups.Pickup.Evolve(null, decision.Events.Single())!;
    }

    public static HoldPlaced Placed(Pickup pickup) => Hold.Place(pickup, _ => Guid.Empty, RuleSet.BuiltIn.Hold, Submitted.AddMinutes(1))[0];

    public static Hold Decided(HoldDecision decision, string reason = "Looked at on the floor.", string by = "Tom Reyes") => new(
        Guid.Empty,
        Placed(Pickup([Ready, Held])),
        new HoldDecided(Guid.Empty, Guid.Empty, decision, reason, new Actor(Guid.Empty, by), new(2026, 11, 24, 21, 10, 0, TimeSpan.Zero)));

    /// <summary>Every letter there is, about these lines.</summary>
    public static IEnumerable<Letter> All(IReadOnlyList<HandlingUnit> lines, string? exception, PickupNames names)
    {
        var pickup = Pickup(lines, exception);
        yield return PickupLetter.ForTerminal(pickup, names, Link);
        yield return PickupLetter.ForShipper(pickup, names, Link);
        foreach (var placed in Hold.Place(pickup, _ => Guid.Empty, RuleSet.BuiltIn.Hold, Submitted))
        {
            yield return HoldLetter.Placed(placed, names, Link, HoldReader.Shipper);
            yield return HoldLetter.Placed(placed, names, Link, HoldReader.Terminal);
            foreach (var decision in Enum.GetValues<HoldDecision>())
                yield return HoldLetter.Decided(new(placed.HoldId, placed, new(Guid.Empty, Guid.Empty, decision, "As seen.", new(Guid.Empty, "Tom Reyes"), Submitted)), names, Link);
        }
    }

    public static IHtmlDocument Html(Letter letter) => new HtmlParser().ParseDocument(letter.Html);

    /// <summary>What the HTML says to a reader, one piece for each run of text; pictures say their words.</summary>
    public static IEnumerable<string> Said(IHtmlDocument html) => html.Body!.Descendants()
        .Select(node => node switch
        {
            IText text when text.ParentElement is not IHtmlStyleElement => text.Data,
            IHtmlImageElement image => image.AlternativeText ?? "",
            _ => "",
        })
        .Select(Flat)
        .Where(text => text.Length > 0);

    /// <summary>Without line breaks, indents and quote marks.</summary>
    public static string Flat(string text) => Space().Replace(text.Replace("\n> ", "\n", StringComparison.Ordinal), " ").Trim();

    [GeneratedRegex("[ \n]+")]
    private static partial Regex Space();
}
