using Fettle.Engineering.TrailerFloor;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class WidthMeasureTests
{
    private static double Most(Strip strip) => WidthMeasure.All(strip).Max(m => m.Total);

    // By hand, in half inches: 98.5 in wide. Plain width: 2 × 48 in are the most that stand side by side, so that 26 × 60 × 48 in
    // take 780 in by area already; 5 of 49 in do not go two abreast when there are 97.9.
    [Fact]
    public void Units_two_abreast_take_half_of_the_width_each()
    {
        Assert.Equal(780, Most(Strip(98, (60, 48, 26, true))), 1e-6);
        Assert.Equal(5 * 49 / 2.0, Most(Strip(98, (49, 49, 5, true))), 1e-6);
        Assert.Equal(5 * 49, Most(Strip(97, (49, 49, 5, true))), 1e-6);
    }

    // By hand: across 10, units of 6 stand alone and take it whole, though 4 are left; units of 4 stand beside them or two abreast.
    // With 6 as all of the width, 4 is nothing: 3 × 5 of length. With both at half, 3 × 2.5 + 4 × 2.5.
    [Fact]
    public void Sizes_are_chosen_so_that_the_units_take_most_length()
    {
        Assert.Equal(15, Most(Strip(10, (5, 6, 3, false), (5, 4, 1, false))), 1e-6);
        Assert.Equal((3 * 5 * 0.6) + (3 * 5 * 0.4), Most(Strip(10, (5, 6, 3, false), (5, 4, 3, false))), 1e-6);
        Assert.Equal(17.5, Most(Strip(10, (5, 6, 3, false), (5, 4, 4, false))), 1e-6);
    }

    [Fact]
    public void A_unit_that_may_turn_measures_the_lesser_of_its_stances()
    {
        // Across 7: 5 across alone takes it whole, along 3; 3 across goes twice, along 5: 2.5 of length.
        var measure = WidthMeasure.All(Strip(7, (5, 3, 4, true)))[^1];
        Assert.Equal(2.5, measure.LeastOf(0), 1e-9);
        Assert.Equal(10, measure.Total, 1e-9);
    }

    [Fact]
    public void Kinds_of_which_there_are_none_count_for_nothing()
    {
        var measures = WidthMeasure.All(Strip(7, (5, 3, 4, true), (2, 2, 0, true)));
        Assert.All(measures, m => Assert.InRange(m.Total, 1, 10 + 1e-9));
        Assert.Equal(10, measures[^1].Total, 1e-9);
    }

    [Fact]
    public void Plain_width_is_the_share_of_what_units_side_by_side_can_fill()
    {
        // 3 + 3 of 7 are 6: the seventh can never be filled.
        var plain = WidthMeasure.All(Strip(7, (5, 3, 4, false)))[0];
        Assert.Equal([0, 0, 0.5, 0.5, 1, 1], ((long[])[0, 2, 3, 5, 6, 7]).Select(w => Math.Round(plain.Room(w), 9)));
        Assert.Equal(2.5, plain.LeastOf(0), 1e-9);
    }

    // Without sums, plain width alone is left, and room in proportion.
    [Fact]
    public void With_too_many_sums_there_is_plain_width_alone()
    {
        var measure = Assert.Single(WidthMeasure.All(TooManySums));
        Assert.Equal(0.25, measure.Room(2_500), 1e-12);
        Assert.Equal(4 * 8 / 10_000.0, measure.LeastOf(3), 1e-12);
        Assert.Equal(4 * 8_191 / 10_000.0, measure.Total, 1e-9);
    }

    // Fourteen widths of 1 to 27 stand side by side in thousands of ways across 60: the linear programme is left out.
    [Fact]
    public void With_too_many_ways_to_stand_abreast_there_is_plain_width_alone()
    {
        Assert.Single(WidthMeasure.All(Strip(60, [.. Enumerable.Range(0, 14).Select(k => (5L, 2L * k + 1, 9, false))])));
        Assert.Equal(2, WidthMeasure.All(Strip(60, [.. Enumerable.Range(0, 4).Select(k => (5L, 2L * k + 21, 9, false))])).Count);
    }

    // From a fixed seed, by trying all rows of units side by side: none measures more than the room of its width, none more than
    // 1 in all, and room is no more than some row fills.
    [Fact]
    public void Whatever_fits_side_by_side_measures_at_most_one_and_room_is_what_the_best_row_measures()
    {
        var random = new Random(8);
        for (var i = 0; i < 60; i++)
        {
            (long Length, long Width, int Count, bool MayTurn)[] kinds = [.. Enumerable.Range(0, random.Next(1, 4)).Select(_ =>
                ((long)random.Next(1, 9), (long)random.Next(1, 9), random.Next(1, 4), random.Next(3) > 0))];
            var width = random.Next(8, 14);
            var strip = Strip(width, kinds);
            foreach (var measure in WidthMeasure.All(strip))
            {
                // The size of a stance is not told; a kind's least measure over the stance's length is not above it.
                var sizes = strip.Stances.Select(s => measure.LeastOf(s.Kind) / s.Along).ToArray();
                foreach (var (filled, size) in Rows(strip, sizes, width))
                {
                    Assert.True(size <= 1 + 1e-9, $"{size}");
                    Assert.True(size <= measure.Room(filled) + 1e-9, $"{size} in {filled}, and room is {measure.Room(filled)}");
                }

                Assert.Equal(0, measure.Room(0));
                Assert.InRange(measure.Room(width), 1 - 1e-9, 1);
                for (var w = 1; w <= width; w++)
                    Assert.True(measure.Room(w) >= measure.Room(w - 1));
            }
        }
    }

    // From a fixed seed: what the units take at least, by each measure, is never more than trying everything finds.
    [Fact]
    public void No_measure_takes_more_length_than_the_units_do()
    {
        var random = new Random(9);
        for (var i = 0; i < 60; i++)
        {
            (int Length, int Width, int Count, bool MayTurn)[] kinds = [.. Enumerable.Range(0, random.Next(1, 4)).Select(_ => (random.Next(1, 5), random.Next(1, 4), random.Next(1, 3), random.Next(2) == 0))];
            var least = Most(Strip(5, [.. kinds.Select(k => ((long)k.Length, (long)k.Width, k.Count, k.MayTurn))]));
            Assert.InRange(least, 0, FloorCheck.ShortestByBruteForce(kinds, 5) + 1e-9);
        }
    }

    /// <summary>All rows of different units side by side: the width filled and the size.</summary>
    private static IEnumerable<(long Filled, double Size)> Rows(Strip strip, double[] sizes, long width)
    {
        var left = strip.Counts.ToArray();
        return Add(0, 0, 0);

        IEnumerable<(long, double)> Add(int from, long filled, double size)
        {
            yield return (filled, size);
            for (var s = from; s < sizes.Length; s++)
            {
                if (left[strip.Stances[s].Kind] == 0 || filled + strip.Stances[s].Across > width)
                    continue;
                left[strip.Stances[s].Kind]--;
                foreach (var row in Add(s, filled + strip.Stances[s].Across, size + sizes[s]))
                    yield return row;
                left[strip.Stances[s].Kind]++;
            }
        }
    }
}
