using Fettle.Engineering.Identification;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.HandlingUnits;

public class UnitNumberTests
{
    private static readonly Declaration Two = Declared(Freight.Sound with { Quantity = 3 }, Freight.Sound with { Reference = "B1" });

    [Fact]
    public void Every_physical_unit_has_one_line_after_line()
    {
        var numbers = UnitNumber.For(Two, place => Sscc.OfNumber("9521101", place));
        Assert.Equal([("A1", 1), ("A1", 2), ("A1", 3), ("B1", 1)], numbers.Select(number => (number.Reference, number.Index)));
        Assert.Equal([0, 1, 2, 3], numbers.Select(number => int.Parse(number.Sscc!.Value[8..17], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.Equal(["P-4K7Q2M/A1-1", "P-4K7Q2M/A1-2", "P-4K7Q2M/A1-3", "P-4K7Q2M/B1-1"], numbers.Select(number => number.Own("P-4K7Q2M")));
    }

    [Fact]
    public void They_fit_the_declaration_they_were_made_for_and_no_other()
    {
        var numbers = UnitNumber.For(Two, _ => null);
        Assert.True(UnitNumber.Fit(numbers, Two));
        Assert.False(UnitNumber.Fit([.. numbers.SkipLast(1)], Two));
        Assert.False(UnitNumber.Fit([.. numbers.Reverse()], Two));
        Assert.False(UnitNumber.Fit(numbers, Declared(Freight.Sound with { Quantity = 4 })));
    }

    [Fact]
    public void Given_nothing_when_a_pickup_is_submitted_then_its_units_keep_the_numbers_they_were_given()
    {
        var command = Evening.Submit(Freight.Sound with { Quantity = 2 });
        var submitted = Assert.IsType<PickupSubmitted>(Assert.Single(Pickup.Decide(null, command).Events));
        Assert.Equal(command.Numbers, submitted.Numbers);
        Assert.Equal(command.Numbers, Pickup.Evolve(null, submitted)!.Numbers);
    }

    [Fact]
    public void Given_nothing_when_more_units_are_declared_than_a_pickup_numbers_then_it_is_refused()
    {
        HandlingUnit[] lines = [.. Enumerable.Range(1, 3).Select(i => Freight.Sound with { Reference = $"A{i}", Quantity = 667 })];
        var refused = Pickup.Decide(null, Evening.Submit(lines) with { Numbers = [] });
        Assert.Empty(refused.Events);
        Assert.Equal(new TooManyUnits(), refused.Refusal);
        Assert.Equal("A pickup has at most 2000 handling units, each with a number and a label. Submit the rest as another pickup.", refused.Refusal!.Message.ToString());
        lines[2] = lines[2] with { Quantity = 666 };
        Assert.Null(Pickup.Decide(null, Evening.Submit(lines)).Refusal);
    }

    [Fact]
    public void Numbers_of_other_units_are_a_mistake_of_the_program() =>
        Assert.Throws<ArgumentException>(() => Pickup.Decide(null, Evening.Submit(Freight.Sound) with { Numbers = [] }));

    private static Declaration Declared(params IReadOnlyList<HandlingUnit> lines) => new(Freight.Near, DriverOnDock: true, UnitSystem.Imperial, lines);
}
