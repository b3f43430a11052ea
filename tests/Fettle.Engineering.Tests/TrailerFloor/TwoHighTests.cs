using System.Numerics;
using CsCheck;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class TwoHighTests
{
    private static readonly Length limit = Length.FromInches(105);

    private static StackUnit Unit(double length, double width, double height, double weight, double mayBear) =>
        new(Length.FromInches(length), Length.FromInches(width), Length.FromInches(height), Mass.FromPounds(weight), Mass.FromPounds(mayBear));

    private static readonly Gen<StackUnit[]> someUnits = Gen.Select(Gen.Int[36, 60], Gen.Int[36, 60], Gen.Int[30, 80], Gen.Int[200, 2_000], Gen.Int[0, 2_000])
        .Select((l, w, h, weight, bear) => Unit(l, w, h, weight, bear)).Array[0, 9];

    [Fact]
    public void As_many_units_leave_the_floor_as_trying_all_pairs_finds() =>
        someUnits.Sample(units => Assert.Equal(MostPairs(units), TwoHigh.Stack(units, limit).Count(s => s.Upper is not null)), iter: 2_000);

    // Of all who bear something, so that what was paired first is more often undone.
    [Fact]
    public void As_many_of_twelve_to_fifteen_leave_the_floor_as_all_pairings_allow() =>
        Gen.Select(Gen.Int[36, 60], Gen.Int[36, 60], Gen.Int[35, 70], Gen.Int[200, 2_000], Gen.Int[200, 2_000])
            .Select((l, w, h, weight, bear) => Unit(l, w, h, weight, bear)).Array[12, 15].Sample(units =>
                Assert.Equal(MostPairs(units), TwoHigh.Stack(units, limit).Count(s => s.Upper is not null)), iter: 2_000);

    [Fact]
    public void Every_unit_is_in_one_stack_and_every_stack_is_allowed() =>
        someUnits.Sample(units =>
        {
            var stacks = TwoHigh.Stack(units, limit);
            Assert.Equal(Enumerable.Range(0, units.Length), stacks.SelectMany(s => s.Upper is { } upper ? (int[])[s.Lower, upper] : [s.Lower]).Order());
            foreach (var stack in stacks)
            {
                if (stack.Upper is not { } upper)
                    continue;
                var (top, bottom) = (units[upper], units[stack.Lower]);
                Assert.True(top.Weight <= bottom.MayBear && top.Height + bottom.Height <= limit);
                Assert.True((top.Length <= bottom.Length && top.Width <= bottom.Width) || (top.Length <= bottom.Width && top.Width <= bottom.Length));
            }

            Assert.Equal(stacks.Count, TwoHigh.Footprints(units, stacks).Sum(f => f.Count));
        }, iter: 500);

    [Fact]
    public void Twenty_six_alike_that_bear_each_other_stand_in_thirteen_places()
    {
        var units = Enumerable.Repeat(Unit(48, 40, 50, 1_000, 1_000), 26).ToArray();
        var stacks = TwoHigh.Stack(units, limit);
        Assert.Equal(13, stacks.Count);
        var footprint = Assert.Single(TwoHigh.Footprints(units, stacks));
        Assert.Equal(new FloorUnits(Length.FromInches(48), Length.FromInches(40), 13), footprint);
    }

    [Fact]
    public void Limits_are_inclusive_and_each_one_forbids_alone()
    {
        var bottom = Unit(48, 40, 55, 1_200, 1_000);
        Assert.Single(TwoHigh.Stack([bottom, Unit(40, 48, 50, 1_000, 0)], limit));
        Assert.Equal(2, TwoHigh.Stack([bottom, Unit(48, 40, 50, 1_000.1, 0)], limit).Count);
        Assert.Equal(2, TwoHigh.Stack([bottom, Unit(48, 40, 50.1, 1_000, 0)], limit).Count);
        Assert.Equal(2, TwoHigh.Stack([bottom, Unit(48, 41, 50, 1_000, 0)], limit).Count);
    }

    [Fact]
    public void The_heavier_of_two_that_bear_each_other_is_below() =>
        Assert.Equal([new FloorStack(1, 0)], TwoHigh.Stack([Unit(48, 40, 50, 500, 2_000), Unit(48, 40, 50, 900, 2_000)], limit));

    [Fact]
    public void A_thousand_units_are_stacked_and_one_more_is_refused()
    {
        var one = Unit(48, 40, 50, 1_000, 0);
        Assert.Equal(TwoHigh.MostUnits, TwoHigh.Stack([.. Enumerable.Repeat(one, TwoHigh.MostUnits)], limit).Count);
        Assert.Throws<ArgumentOutOfRangeException>(() => TwoHigh.Stack([.. Enumerable.Repeat(one, TwoHigh.MostUnits + 1)], limit));
    }

    [Fact]
    public void Of_two_equally_heavy_the_first_named_is_below() =>
        Assert.Equal([new FloorStack(0, 1)], TwoHigh.Stack([Unit(48, 40, 50, 900, 900), Unit(48, 40, 50, 900, 900)], limit));

    [Fact]
    public void The_lighter_is_below_when_it_alone_bears_the_other() =>
        Assert.Equal([new FloorStack(0, 1)], TwoHigh.Stack([Unit(48, 40, 50, 500, 2_000), Unit(48, 40, 50, 900, 0)], limit));

    [Fact]
    public void The_larger_is_below_whatever_the_weights_and_wherever_it_is_named()
    {
        Assert.Equal([new FloorStack(1, 0)], TwoHigh.Stack([Unit(40, 40, 50, 900, 2_000), Unit(48, 40, 50, 500, 2_000)], limit));
        Assert.Equal([new FloorStack(0, 1)], TwoHigh.Stack([Unit(48, 40, 50, 500, 2_000), Unit(40, 40, 50, 900, 2_000)], limit));
    }

    [Fact]
    public void What_bears_nothing_does_not_bear_what_weighs_nothing()
    {
        Assert.False(Unit(48, 40, 50, 0, 0).MayStandOn(Unit(48, 40, 50, 0, 0), limit));
        Assert.True(Unit(48, 40, 50, 0, 0).MayStandOn(Unit(48, 40, 50, 0, 0.1), limit));
    }

    [Fact]
    public void What_may_not_ride_is_only_ever_below()
    {
        var (grounded, other) = (Unit(48, 40, 50, 500, 2_000) with { MayRide = false }, Unit(48, 40, 50, 900, 2_000));
        Assert.False(grounded.MayStandOn(other, limit));
        Assert.Equal([new FloorStack(0, 1)], TwoHigh.Stack([grounded, other], limit));
        Assert.Equal([new FloorStack(0, null), new FloorStack(1, null)], TwoHigh.Stack([grounded, other with { MayRide = false }], limit));
    }

    [Fact]
    public void A_footprint_lies_within_the_other_as_it_is_or_turned_if_it_may_be()
    {
        var below = Unit(48, 40, 50, 500, 2_000);
        Assert.True(Unit(48, 40, 50, 100, 0).MayStandOn(below, limit));
        Assert.True(Unit(40, 48, 50, 100, 0).MayStandOn(below, limit));
        Assert.False((Unit(40, 48, 50, 100, 0) with { MayTurn = false }).MayStandOn(below, limit));
        Assert.True((Unit(48, 40, 50, 100, 0) with { MayTurn = false }).MayStandOn(below, limit));
        Assert.False(Unit(48.1, 30, 50, 100, 0).MayStandOn(below, limit));
        Assert.False(Unit(30, 48.1, 50, 100, 0).MayStandOn(below, limit));
        Assert.False(Unit(41, 41, 50, 100, 0).MayStandOn(below, limit));
    }

    [Fact]
    public void Stacks_of_equal_footprint_are_one_kind_of_floor_units()
    {
        StackUnit[] units = [Unit(48, 40, 50, 1, 0), Unit(40, 48, 50, 1, 0), Unit(48, 40, 30, 2, 0), Unit(48, 48, 30, 2, 0)];
        FloorUnits Floor(double length, double width, int count, bool turns) => new(Length.FromInches(length), Length.FromInches(width), count, turns);
        Assert.Equal([Floor(48, 40, 2, true), Floor(40, 48, 1, true), Floor(48, 48, 1, true)], TwoHigh.Footprints(units, TwoHigh.Stack(units, limit)));
        Assert.Equal([Floor(48, 40, 1, false)], TwoHigh.Footprints(units, [new(2, 0)], mayTurn: false));
    }

    /// <summary>Of every subset: its first unit is left alone or paired with another of it.</summary>
    private static int MostPairs(StackUnit[] units)
    {
        var partners = units.Select(a => Enumerable.Range(0, units.Length)
            .Where(b => a.MayStandOn(units[b], limit) || units[b].MayStandOn(a, limit)).Sum(b => 1 << b)).ToArray();
        var most = new int[1 << units.Length];
        for (var set = 1; set < most.Length; set++)
        {
            var (first, rest) = (BitOperations.TrailingZeroCount(set), set & (set - 1));
            most[set] = most[rest];
            for (var others = rest & partners[first]; others != 0; others &= others - 1)
                most[set] = Math.Max(most[set], 1 + most[rest & ~(others & -others)]);
        }

        return most[^1];
    }
}
