using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Inspections;

public class ComparisonTests
{
    private static readonly InspectionLimits Allowed = new();

    // 48 × 40 × 45.5 in and 1,320 lb.
    private static readonly HandlingUnit Declared = Freight.Sound with { Outer = new(Length.FromInches(48), Length.FromInches(40), Length.FromInches(45.5)) };

    [Theory]
    [InlineData(0.49, false)]
    [InlineData(0.5, false)]
    [InlineData(0.51, true)]
    [InlineData(-0.5, false)]
    [InlineData(-0.51, true)]
    public void A_size_differs_only_past_half_an_inch(double apart, bool differs)
    {
        var measured = new Measurement { Height = Length.FromInches(45.5 + apart) };

        var compared = Assert.Single(Comparison.Of(Declared, measured, Allowed));

        Assert.Equal(("outer.height", differs), (compared.Difference.Subject, compared.IsBeyond));
        Assert.Equal(differs ? measured.Height : Declared.Outer.Height, Comparison.Found(Declared, measured, Allowed).Outer.Height);
    }

    [Theory]
    [InlineData(1.26, false)]
    [InlineData(1.27, false)]
    [InlineData(1.28, true)]
    public void In_centimetres_the_same_half_inch_counts(double apart, bool differs)
    {
        var measured = new Measurement { Length = Declared.Outer.Length + Length.FromCentimetres(apart) };

        Assert.Equal(differs, Assert.Single(Comparison.Of(Declared, measured, Allowed)).IsBeyond);
    }

    [Theory]
    [InlineData(1320, 26.39, false)] // 2 % of 1,320 lb is 26.4 lb.
    [InlineData(1320, 26.4, false)]
    [InlineData(1320, 26.41, true)]
    [InlineData(1320, -26.41, true)]
    [InlineData(500, 19.9, false)] // 2 % would be 10 lb: the 20 lb are more.
    [InlineData(500, 20, false)]
    [InlineData(500, 20.1, true)]
    public void A_weight_differs_past_20_lb_or_2_percent_whichever_is_more(double declared, double apart, bool differs)
    {
        var unit = Declared with { GrossWeight = Mass.FromPounds(declared) };
        var measured = new Measurement { GrossWeight = Mass.FromPounds(declared + apart) };

        Assert.Equal(differs, Assert.Single(Comparison.Of(unit, measured, Allowed)).IsBeyond);
        Assert.Equal(differs ? measured.GrossWeight : unit.GrossWeight, Comparison.Found(unit, measured, Allowed).GrossWeight);
    }

    [Fact]
    public void In_kilograms_the_same_weight_counts()
    {
        var measured = new Measurement { GrossWeight = Mass.FromKilograms(Mass.FromPounds(1320).Kilograms + 12) };
        // 26.4 lb are 11.97 kg.
        Assert.True(Assert.Single(Comparison.Of(Declared, measured, Allowed)).IsBeyond);
        Assert.False(Assert.Single(Comparison.Of(Declared, new() { GrossWeight = Mass.FromKilograms(Mass.FromPounds(1320).Kilograms + 11.9) }, Allowed)).IsBeyond);
    }

    [Fact]
    public void A_carriers_own_tolerances_are_the_ones_that_count()
    {
        var strict = new InspectionLimits { Length = Length.FromInches(0.125), Weight = Mass.Zero, WeightPercent = 0 };
        var measured = new Measurement { Height = Length.FromInches(45.75), GrossWeight = Mass.FromPounds(1320.1) };

        Assert.All(Comparison.Of(Declared, measured, strict), compared => Assert.True(compared.IsBeyond));
        Assert.All(Comparison.Of(Declared, measured, Allowed), compared => Assert.False(compared.IsBeyond));
    }

    [Fact]
    public void What_was_not_measured_is_compared_with_nothing_and_stays_as_declared()
    {
        Assert.Empty(Comparison.Of(Declared, new(), Allowed));
        Assert.Equal(Declared, Comparison.Found(Declared, new(), Allowed));
    }

    [Fact]
    public void Film_and_boards_differ_as_soon_as_they_are_not_the_same()
    {
        var measured = new Measurement { WrapTurns = 1, WrapOverPlatform = false, CornerBoards = CornerBoards.Partial };

        var compared = Comparison.Of(Declared, measured, Allowed);
        var found = Comparison.Found(Declared, measured, Allowed).Protection;

        Assert.Equal(["protection.wrapTurns", "protection.wrapOverPlatform", "protection.cornerBoards"], compared.Where(each => each.IsBeyond).Select(each => each.Difference.Subject));
        Assert.Equal((1, false, CornerBoards.Partial), (found.WrapTurns, found.WrapOverPlatform, found.CornerBoards));
    }

    [Fact]
    public void Overhang_alone_makes_the_unit_as_long_as_deck_and_overhang()
    {
        var found = Comparison.Found(Declared, new() { OverhangAtEnds = Length.FromInches(3), OverhangAtSides = Length.FromInches(0.5) }, Allowed);

        Assert.Equal((Length.FromInches(51), Length.FromInches(40)), (found.Outer.Length, found.Outer.Width));
    }

    [Fact]
    public void Less_overhang_than_declared_makes_it_shorter()
    {
        var over = Declared with { Outer = Declared.Outer with { Length = Length.FromInches(54) } };

        var found = Comparison.Found(over, new() { OverhangAtEnds = Length.FromInches(1) }, Allowed);

        Assert.Equal(Length.FromInches(50), found.Outer.Length);
    }

    [Fact]
    public void A_measured_length_is_not_cut_down_by_the_overhang()
    {
        var found = Comparison.Found(Declared, new() { Length = Length.FromInches(56), OverhangAtEnds = Length.FromInches(3) }, Allowed);

        Assert.Equal(Length.FromInches(56), found.Outer.Length);
    }
}
