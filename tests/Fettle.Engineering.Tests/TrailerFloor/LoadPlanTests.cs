using Fettle.Engineering.Axles;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class LoadPlanTests
{
    private static readonly Trailer room = Trailer.Measured(In(240), In(100), In(100));

    private static readonly LoadUnits[] units = [One(60, 40, 50, 300), One(40, 30, 20, 100)];

    /// <summary>By hand: one against each wall, and a smaller one on the right one.</summary>
    private static readonly LoadPlan plan = new(room, units,
        [
            new(0, Place(0, 0, 60, 40), Length.Zero, In(50), LoadLevel.Floor, null),
            new(0, Place(60, 60, 60, 40), Length.Zero, In(50), LoadLevel.Floor, null),
            new(1, Place(70, 60, 40, 30), In(50), In(20), LoadLevel.Second, 1),
        ],
        [], In(120), In(110), null);

    [Fact]
    public void A_plan_is_shortest_when_all_is_in_and_it_is_as_short_as_its_bound()
    {
        Assert.False(plan.IsOptimal);
        Assert.True((plan with { LowerBound = In(120) }).IsOptimal);
        Assert.False((plan with { LowerBound = In(120), LeftOut = [new(0, 1, LeftOutReason.NoRoomLeft)] }).IsOptimal);
    }

    [Fact]
    public void Figures_are_those_worked_out_by_hand()
    {
        Assert.Equal(10, plan.LinearFeet, 1e-12);
        Assert.Equal(Lb(700), plan.Weight);
        // Two of 60 × 40 on 120 × 100; what rides does not count.
        Assert.Equal(0.4, plan.FloorUsed, 1e-12);
        Assert.Equal((2 * 60 * 40 * 50 + 40 * 30 * 20) / (240 * 100 * 100.0), plan.CubeUsed, 1e-12);
        var empty = plan with { Positions = [], LengthUsed = Length.Zero };
        Assert.Equal((0, 0, Mass.Zero, null), (empty.FloorUsed, empty.CubeUsed, empty.Weight, empty.Balance));
    }

    [Fact]
    public void Balance_takes_each_weight_at_its_middle_and_shares_what_lies_over_the_middle_line()
    {
        var balance = plan.Balance!;
        Assert.Equal(Lb(700), balance.Weight);
        // 300 × 30 + 300 × 90 + 100 × 90 = 45,000.
        Assert.Equal(45_000 / 700.0, balance.Centre.Inches, 1e-6);
        // 300 of 700 lb left, the rest right.
        Assert.Equal(3 / 7.0, balance.LeftShare, 1e-12);
        // From 40 to 80 in, a quarter lies left of 50.
        var across = plan with { Positions = [new(0, Place(0, 40, 60, 40), Length.Zero, In(50), LoadLevel.Floor, null)] };
        Assert.Equal(0.25, across.Balance!.LeftShare, 1e-12);
        Assert.Equal(balance.Weight + TractorTrailer.Illustration.Carrying(Mass.Zero, balance.Centre).Gross, balance.On(TractorTrailer.Illustration).Gross);
    }

    [Fact]
    public void What_weighs_nothing_has_no_balance() =>
        Assert.Null((plan with { Units = [.. units.Select(u => u with { Weight = Mass.Zero })] }).Balance);

    [Fact]
    public void On_the_deck_is_what_stands_second_on_no_unit()
    {
        Assert.Equal([false, false, false], plan.Positions.Select(p => p.IsOnDeck));
        Assert.True((plan.Positions[2] with { On = null }).IsOnDeck);
        Assert.Equal(In(70), plan.Positions[2].Top);
    }
}
