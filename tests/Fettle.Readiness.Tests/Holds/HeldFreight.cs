using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Holds;

/// <summary>Four pallets past the deck's edge without film, held from the declaration; and what shipper and terminal do about them.</summary>
internal static class HeldFreight
{
    public static readonly Guid HoldId = new("0198a1c0-0000-7000-8000-0000000000d1");

    public static readonly HandlingUnit Over = Freight.Sound.Reaching(length: Length.FromInches(50)) with { Reference = "A2", Quantity = 4, Protection = Protection.None, Stackable = false };

    public static readonly HandlingUnit Cured = Freight.Sound with { Reference = "A2", Quantity = 4 };

    public static readonly HoldLimits Limits = RuleSet.BuiltIn.Hold;

    /// <summary>A window so late that only the hours count.</summary>
    public static readonly PickupHeader NextWeek = Evening.Header with { Window = Evening.Header.Window with { From = Evening.At.AddDays(7), To = Evening.At.AddDays(7).AddHours(2) } };

    public static HoldPlaced Placed { get; } = Assert.Single(Hold.Place(Submitted(null), _ => HoldId, Limits, Evening.At));

    public static HoldPlaced PlacedWithRequest { get; } = Assert.Single(Hold.Place(Submitted("Rides alone."), _ => HoldId, Limits, Evening.At));

    public static ExceptionTerms Terms { get; } = new("", "Larkspur Motor Freight", "Crushed corners.", Evening.At.AddDays(3), "Nothing on top.");

    public static Guid Id(int number) => new(number, 0, 0, [0, 0, 0, 0, 0, 0, 0, 0]);

    public static DateTimeOffset After(double hours) => Evening.At.AddHours(hours);

    public static Pickup Submitted(string? request) =>
        Pickup.Decide(null, Evening.Submit([Over]) with { Header = NextWeek, ExceptionRequest = request }).Events.Aggregate((Pickup?)null, Pickup.Evolve)!;

    public static Hold? Given(params IReadOnlyList<HoldEvent> events) => events.Aggregate((Hold?)null, Hold.Evolve);

    public static HoldMessageSent Wrote(HoldSide from, double hours, int id = 1) => new(HoldId, Id(id), from, "Good morning.", By(from), After(hours));

    public static ReworkOffered Offered(double hours, int id = 2, decimal dollars = 85) =>
        new(HoldId, Id(id), "Film, three turns.", Money.Dollars(dollars), After(hours + 12), null, Evening.Reviewer, After(hours));

    public static HoldDecided Decided(HoldDecision decision, double hours, int id = 9) => new(HoldId, Id(id), decision, "Measured on the floor.", Evening.Reviewer, After(hours));

    public static Actor By(HoldSide side) => side == HoldSide.Shipper ? Evening.Clerk : Evening.Reviewer;

    public static Verdict VerdictOf(HandlingUnit unit) => ReadinessCheck.Run(unit, Freight.Near, RuleSet.BuiltIn).Verdict;
}
