using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stacking;

public class PublishedTestLoadTests
{
    [Fact]
    public void Apply_and_hold_counts_the_units_above()
    {
        // Formula from an ISTA staff answer: Wt × (S − 1) × F.
        Close.To(500, PublishedTestLoad.ApplyAndHold(Mass.FromPounds(20), 6, 5).PoundsForce, Close.Arithmetic);
        Assert.Equal(Force.Zero, PublishedTestLoad.ApplyAndHold(Mass.FromPounds(20), 1, 5));
    }

    [Fact]
    public void Weight_and_spreader_rounds_up_to_a_whole_kilogram()
    {
        // ISTA 1C, staff example: 5 kg, 500 × 300 × 300 mm: 183.2, rounded up to 184 kg.
        Assert.Equal(184, PublishedTestLoad.WeightAndSpreader(Mass.FromKilograms(5), Length.FromMillimetres(500), Length.FromMillimetres(300)).Kilograms);
        // Never under 135 kg (which the formula itself keeps) nor over 340 kg.
        Assert.Equal(135, PublishedTestLoad.WeightAndSpreader(Mass.Zero, Length.Zero, Length.Zero).Kilograms);
        Assert.Equal(340, PublishedTestLoad.WeightAndSpreader(Mass.FromKilograms(60), Length.FromMetres(2), Length.FromMetres(2)).Kilograms);
    }

    [Fact]
    public void Solids_in_a_three_metre_stack()
    {
        // 49 CFR 178.606 as mirrored: n 4, m 30 kg.
        Close.To(297.0, PublishedTestLoad.HazmatSolids(4, Mass.FromKilograms(30)).PoundsForce, Close.Arithmetic);
    }

    [Fact]
    public void Liquids_in_a_three_metre_stack()
    {
        // 49 CFR 178.606 as mirrored: n 3, w 10 lb, s 1.2, v 5.28 gal.
        Close.To(184.61, PublishedTestLoad.HazmatLiquids(3, Mass.FromPounds(10), 1.2, 5.28).PoundsForce, 1e-4);
    }

    [Fact]
    public void A_test_that_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PublishedTestLoad.ApplyAndHold(Mass.FromPounds(20), 0, 5));
        Assert.Throws<ArgumentOutOfRangeException>(() => PublishedTestLoad.ApplyAndHold(Mass.FromPounds(20), 2, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => PublishedTestLoad.HazmatSolids(0, Mass.FromKilograms(30)));
        Assert.Throws<ArgumentOutOfRangeException>(() => PublishedTestLoad.HazmatLiquids(0, Mass.FromPounds(10), 1.2, 5.28));
        Assert.Throws<ArgumentOutOfRangeException>(() => PublishedTestLoad.HazmatLiquids(3, Mass.FromPounds(10), -1, 5.28));
        Assert.Throws<ArgumentOutOfRangeException>(() => PublishedTestLoad.HazmatLiquids(3, Mass.FromPounds(10), 1.2, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => PublishedTestLoad.UnitsToThreeMetres(Length.Zero));
    }

    [Theory]
    [InlineData(0.4, 8)]
    [InlineData(0.5, 6)]
    [InlineData(0.3, 10)]
    [InlineData(3, 1)]
    [InlineData(3.5, 1)]
    public void Enough_units_reach_three_metres(double height, int units) =>
        Assert.Equal(units, PublishedTestLoad.UnitsToThreeMetres(Length.FromMetres(height)));
}
