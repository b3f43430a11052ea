using CsCheck;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

public class FloorTakenTests
{
    private static readonly Gen<LoadUnits> AnyUnits = Gen.Select(
        Gen.Int[20, 96], Gen.Int[20, 60], Gen.Int[10, 104], Gen.Int[0, 2000], Gen.Int[0, 8], Gen.Int[0, 3000], Gen.Bool,
        (length, width, height, weight, count, bears, rides) => Units(length, width, height, weight, count, bears, rides));

    [Fact]
    public void Stacking_is_never_longer_and_decking_never_longer_than_that() => Gen.Select(AnyUnits.Array[1, 4], Gen.Int[0, Trailer.All.Count - 1].Select(i => Trailer.All[i])).Sample(
        (units, trailer) =>
        {
            if (FloorTaken.Of(units, trailer) is not { } taken)
                return;
            Assert.True(taken.Flat > Length.Zero);
            Assert.True(taken.Stacked <= taken.Flat, $"{taken.Stacked} stacked, {taken.Flat} flat");
            Assert.True(taken.Decked <= taken.Stacked, $"{taken.Decked} decked, {taken.Stacked} stacked");
            Assert.Equal(taken.Flat - taken.Decked, taken.SavedByStacking + taken.SavedByDecking);
            Assert.InRange(taken.FilledOver(taken.Flat), 0, 1);
            Assert.InRange(taken.FilledOver(taken.Decked), taken.FilledOver(taken.Flat), 1);
        },
        iter: 60);

    /// <summary>By hand: 40 in deep two abreast (48 + 48 is 96 of 98.5 in). Four in two rows are 80 in; two on two are one row of 40.</summary>
    [Fact]
    public void Four_pallets_that_stack_take_one_row_in_place_of_two()
    {
        var taken = FloorTaken.Of([Units(48, 40, 50, 800, 4, bears: 2000, rides: true)], Trailer.Van53)!;

        Assert.Equal((Length.FromInches(80), Length.FromInches(40)), (taken.Flat, taken.Stacked));
        Assert.Equal(4 * 48 * 40 * 50 / 1728.0, taken.CubicFeet, 6);
        // 98.5 × 108 in.
        Assert.Equal(98.5 * 108 / 144, taken.SectionSquareFeet, 6);
        Assert.Equal(2 * taken.FilledOver(taken.Flat), taken.FilledOver(taken.Stacked), 9);
    }

    [Fact]
    public void What_bears_nothing_saves_nothing_but_may_stand_on_beams()
    {
        var taken = FloorTaken.Of([Units(48, 40, 46, 600, 4, bears: 0, rides: true)], Trailer.Van53)!;

        Assert.Equal(taken.Flat, taken.Stacked);
        Assert.True(taken.Decked < taken.Stacked);
    }

    /// <summary>By hand: 60 pallets two abreast are 30 rows of 40 in, 1,200 in; a van has 630.</summary>
    [Fact]
    public void More_than_a_trailer_is_measured_end_to_end()
    {
        var taken = FloorTaken.Of([Units(48, 40, 50, 500, 60, bears: 900, rides: true)], Trailer.Van53)!;

        Assert.Equal(Length.FromInches(1200), taken.Flat);
        Assert.Equal(Length.FromInches(600), taken.Stacked);
    }

    [Fact]
    public void What_passes_no_door_and_nothing_at_all_cannot_be_planned()
    {
        Assert.Null(FloorTaken.Of([Units(48, 40, 107, 500, 1, 0, false)], Trailer.Van53));
        Assert.Null(FloorTaken.Of([], Trailer.Van53));
    }

    private static LoadUnits Units(int length, int width, int height, int weight, int count, int bears, bool rides) => new(
        Length.FromInches(length), Length.FromInches(width), Length.FromInches(height), Mass.FromPounds(weight), count, Mass.FromPounds(bears), rides);
}
