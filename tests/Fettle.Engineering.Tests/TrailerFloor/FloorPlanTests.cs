using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class FloorPlanTests
{
    /// <summary>Two beside each other, of which one is longer, and one behind.</summary>
    private static readonly FloorPlan plan = new(
        [new(0, Place(0, 0, 48, 40)), new(1, Place(0, 40, 60, 48)), new(0, Place(60, 10, 48, 40))], In(108), In(100));

    [Fact]
    public void A_plan_as_short_as_its_bound_is_proved_shortest()
    {
        Assert.False(plan.IsOptimal);
        Assert.True((plan with { LowerBound = In(108) }).IsOptimal);
        Assert.Equal(9.0, plan.LinearFeet, 1e-12);
    }

    [Fact]
    public void Floor_used_is_the_share_of_the_floor_up_to_the_last_units_end()
    {
        Assert.Equal((2 * 48 * 40 + 60 * 48) / (108 * 100.0), plan.FloorUsed(In(100)), 1e-12);
        Assert.Equal(0, new FloorPlan([], Length.Zero, Length.Zero).FloorUsed(In(100)));
    }

    [Fact]
    public void End_for_end_what_stood_at_the_nose_stands_last()
    {
        var reversed = plan.Reversed();
        Assert.Equal([new(0, Place(0, 10, 48, 40)), new(1, Place(48, 40, 60, 48)), new(0, Place(60, 0, 48, 40))], reversed.Positions);
        Assert.Equal((In(108), In(100)), (reversed.LengthUsed, reversed.LowerBound));
        // Of those that begin at one place, the leftmost first.
        FloorPlan abreast = new([new(0, Place(0, 40, 10, 40)), new(1, Place(0, 0, 10, 40))], In(10), In(10));
        Assert.Equal([1, 0], abreast.Reversed().Positions.Select(p => p.Kind));
    }

    [Fact]
    public void Loads_act_at_the_middle_of_each_unit() =>
        Assert.Equal([(In(24), Lb(100)), (In(30), Lb(200)), (In(84), Lb(100))], plan.Loads(kind => Lb(100 * (kind + 1))));

    [Fact]
    public void Small_things_are_planned_with_little_effort()
    {
        static FloorUnits Floor(double length, double width) => new(In(length), In(width), 1);
        Assert.Equal(FloorEffort.Quick, FloorUnits.EffortFor([Floor(48, 40), Floor(5, 40)], In(60)));
        Assert.Equal(FloorEffort.Sketch, FloorUnits.EffortFor([Floor(48, 40), Floor(4.9, 40)], In(60)));
        Assert.Equal(FloorEffort.Sketch, FloorUnits.EffortFor([Floor(48, 4.9)], In(60)));
        Assert.Equal(FloorEffort.Quick, FloorUnits.EffortFor([], In(60)));
    }
}
