using CsCheck;
using Fettle.Engineering.Densities;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Densities;

/// <summary>Rules as seen in published tariffs and trade pages; which one holds is the carrier's to say.</summary>
public class CountedSizeTests
{
    private static readonly CountedSize Always96 = new(NothingOnTop: Length.FromInches(96));
    private static readonly CountedSize Low48 = new(NothingOnTop: Length.FromInches(96), NothingOnTopIfLow: Length.FromInches(48));

    [Theory]
    [InlineData(30, 96, 48)]
    [InlineData(48, 96, 48)]
    [InlineData(49, 96, 96)]
    [InlineData(100, 100, 100)]
    public void Freight_with_nothing_on_top_counts_the_room_above_it(double height, double always, double low)
    {
        Assert.Equal(Length.FromInches(always), Always96.Height(Length.FromInches(height), nothingOnTop: true));
        Assert.Equal(Length.FromInches(low), Low48.Height(Length.FromInches(height), nothingOnTop: true));
        Assert.Equal(Length.FromInches(height), Always96.Height(Length.FromInches(height), nothingOnTop: false));
        Assert.Equal(Length.FromInches(height), CountedSize.AsMeasured.Height(Length.FromInches(height), nothingOnTop: true));
    }

    [Theory]
    [InlineData(69, 69)]
    [InlineData(70, 96)]
    [InlineData(98, 98)]
    public void Wide_freight_counts_as_the_trailers_width(double width, double counted) =>
        Assert.Equal(
            Length.FromInches(counted),
            new CountedSize(WideFrom: Length.FromInches(70), WideAs: Length.FromInches(96)).Width(Length.FromInches(width)));

    [Fact]
    public void The_class_of_a_half_height_pallet_doubles_when_nothing_may_go_on_top()
    {
        // By hand: 48 × 40 × 48 in, 600 lb is 11.25 lb/ft³ (class 92.5); counted 96 in high, 5.625 (class 175).
        var (l, w, h) = (Length.FromInches(48), Length.FromInches(40), Length.FromInches(48));
        var stackable = Always96.Density(Mass.FromPounds(600), l, w, h, nothingOnTop: false);
        var not = Always96.Density(Mass.FromPounds(600), l, w, h, nothingOnTop: true);
        Assert.Equal(92.5m, FreightClassScale.ThirteenTier.ClassOf(stackable));
        Assert.Equal(175m, FreightClassScale.ThirteenTier.ClassOf(not));
        Close.To(2, stackable / not, 1e-12);
    }

    [Fact]
    public void What_counts_is_never_denser_than_what_was_measured() =>
        Gen.Select(Gen.Double[10, 110], Gen.Double[10, 110], Gen.Double[10, 110], Gen.Bool).Sample((l, w, h, nothing) =>
        {
            var rule = Low48 with { WideFrom = Length.FromInches(70), WideAs = Length.FromInches(96) };
            var (length, width, height) = (Length.FromInches(l), Length.FromInches(w), Length.FromInches(h));
            Assert.True(rule.Density(Mass.FromPounds(500), length, width, height, nothing) <= Density.Of(Mass.FromPounds(500), length, width, height));
        });
}
