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
