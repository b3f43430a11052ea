using Fettle.Engineering.Identification;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Papers;
using Fettle.Web.Parties;
using Fettle.Web.Tests.Drawings;

namespace Fettle.Web.Tests.Papers;

/// <summary>A submitted pickup to make papers of.</summary>
internal static class Shipment
{
    public static readonly DateTimeOffset Submitted = new(2026, 11, 24, 15, 5, 0, TimeSpan.Zero);

    public static readonly HandlingUnit Ready = Freight.Pallet("A1", (11, 9, 10), perLayer: 16, layers: 4) with { Quantity = 3, Stackable = true, DeclaredClass = 70 };

    public static readonly HandlingUnit Held = Freight.Overhanging with { Reference = "B1", Fragile = Fragility.Glass, Requests = new(NoTopLoad: true, Strap: true) };

    public static readonly HandlingUnit Regulated = Freight.Tidy with { Reference = "C1", Quantity = 1, Hazardous = true, ConfirmedBy = "Dana Hale" };

    private static readonly Site Site = new(Guid.Empty, "Kiln Road dock", "4 Kiln Road, Bramblewick, OH 43000", "America/Chicago");
    private static readonly Terminal Terminal = new(Guid.Empty, "Millbrook", "1 Mill Lane, Millbrook", "millbrook@larkspur.example", "America/Chicago");

    public static PickupFreight Of(
        IReadOnlyList<HandlingUnit> lines,
        string? prefix = "9521101",
        bool driverOnDock = true,
        string? address = "77 Harbour Street, Saltgrass, TX 77001",
        string destination = "Harbour Stores, Saltgrass",
        UnitSystem units = UnitSystem.Imperial,
        HoldDecision? decision = null,
        string? exception = null)
    {
        var header = new PickupHeader("P-4K7Q2M", Guid.Empty, Guid.Empty, Guid.Empty, Guid.Empty, destination, new(Submitted.AddHours(5), Submitted.AddHours(7), "America/Chicago"), Equipment.Van53)
        {
            ConsigneeAddress = address,
        };
        var declaration = new Declaration(new Lane(640, 2, false), driverOnDock, units, lines);
        var numbers = UnitNumber.For(declaration, place => prefix is null ? null : Sscc.OfNumber(prefix, 1000 + place));
        var submitted = Readiness.Pickups.Pickup.Decide(null, new SubmitPickup(Guid.Empty, header, declaration, numbers, RuleSet.BuiltIn, exception, new Actor(Guid.Empty, "Maya Ortiz"), Submitted)).Events.Single();
        var pickup = Readiness.Pickups.Pickup.Evolve(null, submitted)!;
        return new(
            pickup,
            new(
                new() { Id = Guid.Empty, Name = "Bramblewick Glassware", Email = "dock@bramblewick.example", CompanyPrefix = prefix, Sites = [Site] },
                Site,
                new() { Id = Guid.Empty, Name = "Larkspur Motor Freight", Terminals = [Terminal] },
                Terminal),
            [.. Hold.Place(pickup, _ => Guid.Empty, RuleSet.BuiltIn.Hold, Submitted.AddMinutes(1)).Select(placed => Decided(placed, decision))],
            []);
    }

    private static readonly ExceptionTerms Terms = new("X-P-4K7Q2M/B1", "Harbour Stores, Ann Low", "Edges rub through on the way.", Submitted.AddDays(6), "Nothing beside it on the left.");

    private static Hold Decided(HoldPlaced placed, HoldDecision? decision)
    {
        var hold = Hold.Evolve(null, placed)!;
        return decision is { } what
            ? Hold.Evolve(hold, new HoldDecided(Guid.Empty, Guid.Empty, what, "Two straps and a panel, seen on the floor.", new Actor(Guid.Empty, "Tom Reyes"), Submitted.AddHours(2), null, what == HoldDecision.ReleaseAsException ? Terms : null))!
            : hold;
    }
}
