using CsCheck;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Cartons;

/// <summary>Carrier classification, rule 41 and item 222, as two trade tables have it; 44, 55 and 82 lb/in from memory.</summary>
public class GradeLimitTests
{
    [Theory]
    [InlineData(Flute.C, 23, 20)]
    [InlineData(Flute.C, 26, 35)]
    [InlineData(Flute.B, 29, 50)]
    [InlineData(Flute.C, 32, 65)]
    [InlineData(Flute.C, 39.9, 65)]
    [InlineData(Flute.C, 40, 80)]
    [InlineData(Flute.A, 44, 95)]
    [InlineData(Flute.C, 55, 120)]
    [InlineData(Flute.BC, 42, 80)]
    [InlineData(Flute.BC, 48, 100)]
    [InlineData(Flute.EB, 51, 120)]
    [InlineData(Flute.BC, 61, 140)]
    [InlineData(Flute.BC, 71, 160)]
    [InlineData(Flute.BC, 82, 180)]
    [InlineData(Flute.BC, 200, 180)]
    public void A_grade_has_its_greatest_gross_weight(Flute flute, double edgeCrush, double pounds) =>
        Assert.Equal(Mass.FromPounds(pounds), GradeLimit.GreatestGross(new Board(flute, edgeCrush)));

    [Theory]
    [InlineData(Flute.C, 22.9)]
    [InlineData(Flute.BC, 41)]
    [InlineData(Flute.C, double.NaN)]
    public void Below_the_lowest_grade_there_is_none(Flute flute, double edgeCrush) =>
        Assert.Null(GradeLimit.GreatestGross(new Board(flute, edgeCrush)));

    // From memory.
    [Theory]
    [InlineData(67, 240)]
    [InlineData(79.9, 240)]
    [InlineData(80, 260)]
    [InlineData(90, 280)]
    [InlineData(112, 300)]
    public void Triple_wall_has_grades_of_its_own(double edgeCrush, double pounds) =>
        Assert.Equal(Mass.FromPounds(pounds), GradeLimit.GreatestGrossTripleWall(edgeCrush));

    [Fact]
    public void Triple_wall_below_its_lowest_grade_has_none() => Assert.Null(GradeLimit.GreatestGrossTripleWall(66.9));

    [Fact]
    public void A_stronger_board_never_allows_less() =>
        Gen.Select(Gen.Enum<Flute>(), Gen.Double[1, 120], Gen.Double[0, 50]).Sample((flute, edgeCrush, more) =>
            Assert.True(
                (GradeLimit.GreatestGross(new Board(flute, edgeCrush + more)) ?? Mass.Zero)
                >= (GradeLimit.GreatestGross(new Board(flute, edgeCrush)) ?? Mass.Zero)));
}
