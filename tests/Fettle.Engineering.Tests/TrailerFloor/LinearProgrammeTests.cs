using Fettle.Engineering.TrailerFloor;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class LinearProgrammeTests
{
    private static void Solves(double[] expected, double[][] rows, double[] limits, double[] gain)
    {
        var x = LinearProgramme.Maximise(rows, limits, gain);
        Assert.Equal(expected.Length, x.Length);
        for (var j = 0; j < x.Length; j++)
            Assert.Equal(expected[j], x[j], 1e-9);
    }

    // Textbook example: 3x + 5y with x ≤ 4, 2y ≤ 12, 3x + 2y ≤ 18 is greatest, 36, at 2 and 6.
    [Fact]
    public void A_corner_between_two_limits_is_found() =>
        Solves([2, 6], [[1, 0], [0, 2], [3, 2]], [4, 12, 18], [3, 5]);

    [Fact]
    public void What_gains_nothing_stays_at_zero()
    {
        Solves([0, 0], [[1, 1]], [5], [0, -1]);
        Solves([5, 0], [[1, 1]], [5], [2, 1]);
        Solves([0, 5], [[1, 1]], [5], [1, 2]);
        Solves([], [], [], []);
    }

    [Fact]
    public void Where_nothing_limits_the_gain_what_was_reached_is_returned()
    {
        Solves([0], [[-1]], [1], [1]);
        // y is limited by 3; x then is not by anything.
        Solves([0, 3], [[0, 1]], [3], [1, 2]);
    }

    [Fact]
    public void Limits_of_zero_hold() =>
        // x ≤ y, y ≤ 1.
        Solves([1, 1], [[1, -1], [0, 1]], [0, 1], [1, 0]);

    // Beale 1955: steepest gain with the first of equal rows goes round in circles here; the greatest is 1/20.
    [Fact]
    public void An_example_that_can_go_round_in_circles_ends()
    {
        double[] gain = [0.75, -150, 0.02, -6];
        var x = LinearProgramme.Maximise([[0.25, -60, -1 / 25.0, 9], [0.5, -90, -1 / 50.0, 3], [0, 0, 1, 0]], [0, 0, 1], gain);
        Assert.Equal(0.05, x.Zip(gain, (a, b) => a * b).Sum(), 1e-9);
    }

    // Chvátal 1983: this one does so whichever of equal rows leaves first by its number; the greatest is 1, at 1 and 0, 1 and 0.
    [Fact]
    public void Where_the_steepest_gain_goes_round_in_circles_the_lowest_number_ends_it() =>
        Solves([1, 0, 1, 0], [[0.5, -5.5, -2.5, 9], [0.5, -1.5, -0.5, 1], [1, 0, 0, 0]], [0, 0, 1], [10, -57, -9, -24]);

    // From a fixed seed: whole numbers, so that ties and limits of zero are met often. The greatest lies at a corner where two
    // of the limits (or axes) cross.
    [Fact]
    public void In_two_dimensions_no_corner_is_better()
    {
        var random = new Random(2);
        for (var i = 0; i < 300; i++)
        {
            double[][] rows = [.. Enumerable.Range(0, 4).Select(_ => (double[])[random.Next(-3, 9), random.Next(-3, 9)]), [1, 1]];
            double[] limits = [.. Enumerable.Range(0, 4).Select(_ => (double)random.Next(0, 12)), 20];
            double[] gain = [random.Next(-2, 9), random.Next(-2, 9)];
            var x = LinearProgramme.Maximise(rows, limits, gain);
            Assert.True(Keeps(x[0], x[1]), $"({x[0]}, {x[1]})");
            Assert.Equal(Best(), gain[0] * x[0] + gain[1] * x[1], 1e-6);

            bool Keeps(double a, double b) => a >= 0 && b >= 0 && rows.Zip(limits).All(r => r.First[0] * a + r.First[1] * b <= r.Second + 1e-9);

            double Best()
            {
                double[][] all = [.. rows, [1, 0], [0, 1]];
                double[] ends = [.. limits, 0, 0];
                var best = 0.0;
                for (var r = 0; r < all.Length; r++)
                {
                    for (var s = 0; s < r; s++)
                    {
                        var determinant = all[r][0] * all[s][1] - all[r][1] * all[s][0];
                        if (determinant == 0)
                            continue;
                        var (a, b) = ((ends[r] * all[s][1] - all[r][1] * ends[s]) / determinant, (all[r][0] * ends[s] - ends[r] * all[s][0]) / determinant);
                        if (Keeps(a, b))
                            best = Math.Max(best, gain[0] * a + gain[1] * b);
                    }
                }

                return best;
            }
        }
    }

    [Fact]
    public void In_many_dimensions_the_best_of_known_mixes_is_found()
    {
        // Each variable is limited alone and all together: the dearest are taken whole, the next in part.
        var random = new Random(5);
        for (var i = 0; i < 100; i++)
        {
            var n = random.Next(2, 9);
            double[] most = [.. Enumerable.Range(0, n).Select(_ => (double)random.Next(1, 6))];
            double[] gain = [.. Enumerable.Range(0, n).Select(_ => (double)random.Next(1, 30))];
            var all = random.Next(1, 15);
            double[][] rows = [.. Enumerable.Range(0, n).Select(j => Enumerable.Range(0, n).Select(k => k == j ? 1.0 : 0).ToArray()), [.. Enumerable.Repeat(1.0, n)]];
            var left = (double)all;
            var best = 0.0;
            foreach (var j in Enumerable.Range(0, n).OrderByDescending(j => gain[j]))
            {
                best += gain[j] * Math.Min(left, most[j]);
                left -= Math.Min(left, most[j]);
            }

            var x = LinearProgramme.Maximise(rows, [.. most, all], gain);
            Assert.Equal(best, x.Zip(gain, (a, b) => a * b).Sum(), 1e-9);
            Assert.True(x.Sum() <= all + 1e-9 && x.Zip(most).All(p => p.First >= 0 && p.First <= p.Second + 1e-9));
        }
    }
}
