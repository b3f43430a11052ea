using Fettle.Engineering.Identification;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Tests.Declarations;

/// <summary>One evening's pickup: the people, the place, the time. All invented.</summary>
internal static class Evening
{
    public static readonly Guid PickupId = new("0198a1c0-0000-7000-8000-000000000001");

    public static readonly Actor Clerk = new(new("0198a1c0-0000-7000-8000-00000000000a"), "Robin Field");

    public static readonly Actor Reviewer = new(new("0198a1c0-0000-7000-8000-00000000000b"), "Sam Marsh");

    public static readonly DateTimeOffset At = new(2026, 3, 5, 21, 40, 12, 345, TimeSpan.Zero);

    public static readonly PickupHeader Header = new(
        "P-4K7Q2M",
        new("0198a1c0-0000-7000-8000-0000000000c1"),
        new("0198a1c0-0000-7000-8000-0000000000c2"),
        new("0198a1c0-0000-7000-8000-0000000000c3"),
        new("0198a1c0-0000-7000-8000-0000000000c4"),
        "Harbour Stores, Saltgrass",
        new(new(2026, 3, 5, 16, 0, 0, TimeSpan.FromHours(-6)), new(2026, 3, 5, 18, 30, 0, TimeSpan.FromHours(-6)), "America/Chicago"),
        Equipment.Van53);

    public static SubmitPickup Submit(params IReadOnlyList<HandlingUnit> lines)
    {
        var declaration = new Declaration(Freight.Near, DriverOnDock: true, UnitSystem.Imperial, lines);
        return new(PickupId, Header, declaration, UnitNumber.For(declaration, place => Sscc.OfNumber("9521101", 40 + place)), RuleSet.BuiltIn, null, Clerk, At);
    }
}
