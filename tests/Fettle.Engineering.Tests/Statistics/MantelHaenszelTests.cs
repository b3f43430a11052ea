using CsCheck;
using Fettle.Engineering.Statistics;

namespace Fettle.Engineering.Tests.Statistics;

public class MantelHaenszelTests
{
    /// <summary>
    /// Deaths under tolbutamide and placebo in two age groups, University Group Diabetes Program; Rothman and Greenland,
    /// Modern Epidemiology, chapter on stratified analysis (counts and results from memory; the arithmetic agrees).
    /// </summary>
    private static readonly Stratum[] Tolbutamide = [new(8, 106, 5, 120), new(22, 98, 16, 85)];

    /// <summary>
    /// Admissions to six departments at Berkeley in 1973, men against women: R's data set UCBAdmissions (Bickel and others,
    /// Science 187, 1975).
    /// </summary>
    private static readonly Stratum[] Berkeley =
    [
        new(512, 825, 89, 108), new(353, 560, 17, 25), new(120, 325, 202, 593), new(138, 417, 131, 375), new(53, 191, 94, 393), new(22, 373, 24, 341),
    ];

    /// <summary>
    /// Smoking and lung cancer in eight Chinese cities (Liu, 1992; Agresti, An Introduction to Categorical Data Analysis,
    /// table 3.3), cases and controls as Stanford University's course ED 257 gives them with the output of SAS.
    /// </summary>
    private static readonly Stratum[] ChineseCities =
    [
        new(126, 226, 35, 96), new(908, 1596, 497, 1304), new(913, 1660, 336, 934), new(235, 407, 58, 179),
        new(402, 710, 121, 336), new(182, 338, 72, 170), new(60, 159, 11, 54), new(104, 193, 21, 57),
    ];

    private static readonly Gen<Stratum> AnyStratum =
        from with in Gen.Int[0, 60]
        from without in Gen.Int[0, 60]
        from cases in Gen.Int[0, with]
        from others in Gen.Int[0, without]
        select new Stratum(cases, with, others, without);

    [Fact]
    public void Risk_ratio_agrees_with_the_textbook()
    {
        Assert.Equal(1.33, MantelHaenszel.RiskRatio(Tolbutamide)!.Value.Value, 2);

        // Each by hand: 8·120/226 + 22·85/183 over 5·106/226 + 16·98/183.
        Close.To((960 / 226d + 1870 / 183d) / (530 / 226d + 1568 / 183d), MantelHaenszel.RiskRatio(Tolbutamide)!.Value.Value, Close.Arithmetic);
    }

    [Fact]
    public void Odds_ratio_agrees_with_the_textbook() => Assert.Equal(1.40, MantelHaenszel.OddsRatio(Tolbutamide)!.Value.Value, 2);

    [Fact]
    public void Both_ratios_agree_with_the_published_output_of_SAS()
    {
        Assert.Equal(2.174, MantelHaenszel.OddsRatio(ChineseCities)!.Value.Value, 3);
        Assert.Equal(1.519, MantelHaenszel.RiskRatio(ChineseCities)!.Value.Value, 3);

        // Those who are not cases, for whom the same output has 0.700. Its bounds are made otherwise, from a test.
        Stratum[] controls = [.. ChineseCities.Select(s => new Stratum(s.With - s.CasesWith, s.With, s.Without - s.CasesWithout, s.Without))];
        Assert.Equal(.700, MantelHaenszel.RiskRatio(controls)!.Value.Value, 3);
    }

    [Fact]
    public void Odds_ratio_and_interval_agree_with_R()
    {
        // What mantelhaen.test(UCBAdmissions) prints (from memory; the arithmetic agrees to every digit).
        var common = MantelHaenszel.OddsRatio(Berkeley)!.Value;
        Assert.Equal(.9046968, common.Value, 7);
        Assert.Equal(.7719074, common.Interval().Low, 7);
        Assert.Equal(1.0603298, common.Interval().High, 7);
    }

    [Fact]
    public void Strata_undo_what_throwing_them_together_makes_up()
    {
        // Simpson's paradox: the crude ratio says that men were admitted far oftener, the departments say that they were not.
        Assert.Equal(1.84, MantelHaenszel.OddsRatio([Stratum.Crude(Berkeley)])!.Value.Value, 2);
        Assert.True(MantelHaenszel.OddsRatio(Berkeley)!.Value.Value < 1);
    }

    [Theory]
    [InlineData(8, 106, 5, 120)]
    [InlineData(1, 2, 1, 300)]
    [InlineData(40, 40, 39, 40)]
    public void One_stratum_gives_the_ratio_of_risks_with_Katzs_interval(int a, int n1, int c, int n0)
    {
        var common = MantelHaenszel.RiskRatio([new(a, n1, c, n0)])!.Value;
        Close.To((double)a / n1 / ((double)c / n0), common.Value, 1e-12);

        // Katz and others, Biometrics 34, 1978.
        Close.To(Math.Sqrt((1d / a) - (1d / n1) + (1d / c) - (1d / n0)), common.LogDeviation, 1e-12);
    }

    [Theory]
    [InlineData(8, 106, 5, 120)]
    [InlineData(1, 2, 1, 300)]
    public void One_stratum_gives_the_ratio_of_odds_with_Woolfs_interval(int a, int n1, int c, int n0)
    {
        double b = n1 - a, d = n0 - c;
        var common = MantelHaenszel.OddsRatio([new(a, n1, c, n0)])!.Value;
        Close.To(a * d / (b * c), common.Value, 1e-12);
        Close.To(Math.Sqrt((1d / a) + (1 / b) + (1d / c) + (1 / d)), common.LogDeviation, 1e-12);
    }

    [Fact]
    public void Matched_pairs_give_McNemars_ratio()
    {
        // 14 pairs in which only the one with the feature is a case, 5 in which only the other is; pairs alike say nothing.
        Stratum[] pairs = [.. Repeat(14, new(1, 1, 0, 1)), .. Repeat(5, new(0, 1, 1, 1)), .. Repeat(30, new(0, 1, 0, 1)), .. Repeat(7, new(1, 1, 1, 1))];
        var common = MantelHaenszel.OddsRatio(pairs)!.Value;
        Close.To(14 / 5d, common.Value, 1e-12);
        Close.To(Math.Sqrt((1 / 14d) + (1 / 5d)), common.LogDeviation, 1e-12);

        static IEnumerable<Stratum> Repeat(int times, Stratum pair) => Enumerable.Repeat(pair, times);
    }

    [Fact]
    public void Like_strata_are_as_one_with_all_of_them() => AnyStratum.Select(Gen.Int[1, 20]).Sample((stratum, times) =>
    {
        var one = MantelHaenszel.RiskRatio([new(stratum.CasesWith * times, stratum.With * times, stratum.CasesWithout * times, stratum.Without * times)]);
        var many = MantelHaenszel.RiskRatio(Enumerable.Repeat(stratum, times));
        Assert.Equal(one is null, many is null);
        if (one is null)
            return;
        Close.To(one.Value.Value, many!.Value.Value, Close.Arithmetic);
        Assert.Equal(one.Value.LogDeviation, many.Value.LogDeviation, 1e-9);
    });

    [Fact]
    public void Turned_round_the_ratio_is_its_reciprocal() => AnyStratum.Array[1, 8].Sample(strata =>
    {
        Stratum[] turned = [.. strata.Select(s => new Stratum(s.CasesWithout, s.Without, s.CasesWith, s.With))];
        foreach (var ratio in (Func<IEnumerable<Stratum>, CommonRatio?>[])[MantelHaenszel.RiskRatio, MantelHaenszel.OddsRatio])
        {
            var (there, back) = (ratio(strata), ratio(turned));
            Assert.Equal(there is null, back is null);
            if (there is null)
                continue;
            Close.To(1 / there.Value.Value, back!.Value.Value, Close.Arithmetic);
            Assert.Equal(there.Value.LogDeviation, back.Value.LogDeviation, 1e-9);
            Assert.True(there.Value.Interval().Contains(there.Value.Value));
        }
    });

    [Fact]
    public void A_common_ratio_lies_between_those_of_its_strata() => AnyStratum.Where(s => s is { CasesWith: > 0, CasesWithout: > 0 }).Array[1, 8].Sample(strata =>
    {
        var each = strata.Select(s => (double)s.CasesWith / s.With / ((double)s.CasesWithout / s.Without)).ToArray();
        Assert.InRange(MantelHaenszel.RiskRatio(strata)!.Value.Value, each.Min() - 1e-9, each.Max() + 1e-9);
    });

    [Fact]
    public void The_interval_holds_the_true_ratio_about_as_often_as_it_says()
    {
        // Three strata of very unlike risks, all with a true ratio of 2, drawn 4,000 times from a fixed start.
        var random = new Random(20261129);
        var held = 0;
        for (var i = 0; i < 4000; i++)
        {
            Stratum[] drawn = [Draw(.02, 300, 100), Draw(.1, 100, 300), Draw(.3, 150, 150)];
            held += MantelHaenszel.RiskRatio(drawn)!.Value.Interval().Contains(2) ? 1 : 0;
        }

        Assert.InRange(held / 4000d, .94, .965);

        Stratum Draw(double risk, int with, int without) => new(Cases(2 * risk, with), with, Cases(risk, without), without);
        int Cases(double risk, int of) => Enumerable.Range(0, of).Count(_ => random.NextDouble() < risk);
    }

    [Fact]
    public void Strata_that_cannot_tell_give_nothing()
    {
        Assert.Null(MantelHaenszel.RiskRatio([]));
        Assert.Null(MantelHaenszel.OddsRatio([]));
        Assert.Null(MantelHaenszel.RiskRatio([default]));
        Assert.Null(MantelHaenszel.RiskRatio([new(0, 10, 3, 10)]));
        Assert.Null(MantelHaenszel.RiskRatio([new(3, 10, 0, 10)]));
        Assert.Null(MantelHaenszel.RiskRatio([new(3, 10, 0, 0), new(0, 0, 4, 10)]));
        Assert.Null(MantelHaenszel.OddsRatio([new(10, 10, 3, 10)]));
    }

    [Theory]
    [InlineData(-1, 10, 0, 10)]
    [InlineData(11, 10, 0, 10)]
    [InlineData(0, 10, 11, 10)]
    [InlineData(0, -1, 0, 10)]
    public void Counts_out_of_their_range_are_refused(int a, int n1, int c, int n0)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => MantelHaenszel.RiskRatio([new(a, n1, c, n0)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => MantelHaenszel.OddsRatio([new(a, n1, c, n0)]));
    }
}
