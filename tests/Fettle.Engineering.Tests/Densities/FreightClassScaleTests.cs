using CsCheck;
using Fettle.Engineering.Densities;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Densities;

/// <summary>
/// The 13-tier scale of July 2025 by two trade sources that agree; the 11-tier scale by a commodity item listing; the
/// 18-class guideline by trade pages.
/// </summary>
public class FreightClassScaleTests
{
    // The first two are published examples (printed as 3.54 and, slightly off, 14.95 lb/ft³); the rest is arithmetic.
    [Theory]
    [InlineData(48, 40, 28, 110, 3.5357, 250, 250, 250)]
    [InlineData(21, 20, 22, 80, 14.961, 85, 85, 77.5)]
    [InlineData(48, 40, 50, 1200, 21.600, 70, 70, 70)]
    [InlineData(48, 40, 45, 2500, 50.0, 50, 60, 50)]
    [InlineData(48, 48, 55, 2600, 35.4545, 55, 60, 55)]
    [InlineData(48, 40, 72, 500, 6.25, 125, 125, 150)]
    [InlineData(48, 40, 96, 1200, 11.25, 92.5, 92.5, 92.5)]
    public void A_pallet_falls_in_its_class(double l, double w, double h, double pounds, double density, double thirteen, double eleven, double eighteen)
    {
        var measured = Density.Of(Mass.FromPounds(pounds), Length.FromInches(l), Length.FromInches(w), Length.FromInches(h));
        Close.To(density, measured.PoundsPerCubicFoot, 1e-4);
        Assert.Equal((decimal)thirteen, FreightClassScale.ThirteenTier.ClassOf(measured));
        Assert.Equal((decimal)eleven, FreightClassScale.ElevenTier.ClassOf(measured));
        Assert.Equal((decimal)eighteen, FreightClassScale.EighteenClass.ClassOf(measured));
    }

    [Theory]
    [InlineData(0, 400)]
    [InlineData(0.99, 400)]
    [InlineData(1, 300)]
    [InlineData(2, 250)]
    [InlineData(4, 175)]
    [InlineData(6, 125)]
    [InlineData(8, 100)]
    [InlineData(10, 92.5)]
    [InlineData(12, 85)]
    [InlineData(15, 70)]
    [InlineData(22.5, 65)]
    [InlineData(30, 60)]
    [InlineData(35, 55)]
    [InlineData(50, 50)]
    [InlineData(480, 50)]
    public void The_lower_bound_of_a_tier_belongs_to_it(double density, double expected) =>
        Assert.Equal((decimal)expected, FreightClassScale.ThirteenTier.ClassOf(Density.FromPoundsPerCubicFoot(density)));

    [Fact]
    public void Every_bound_holds_on_the_bound_and_not_just_below_it()
    {
        foreach (var scale in new[] { FreightClassScale.ThirteenTier, FreightClassScale.ElevenTier, FreightClassScale.EighteenClass })
        {
            for (var i = 0; i < scale.Tiers.Count - 1; i++)
            {
                var bound = scale.Tiers[i].From.PoundsPerCubicFoot;
                Assert.Equal(scale.Tiers[i].Class, scale.ClassOf(Density.FromPoundsPerCubicFoot(bound)));
                Assert.Equal(scale.Tiers[i + 1].Class, scale.ClassOf(Density.FromPoundsPerCubicFoot(bound - 0.0001)));
            }
        }
    }

    [Fact]
    public void A_bound_reached_through_any_dimensions_still_holds() =>
        // A pallet of the bound's density exactly: the weight is the volume times the bound, whatever the tape measure said.
        Gen.Select(Gen.Int[10, 96], Gen.Int[10, 96], Gen.Int[10, 96], Gen.OneOf<double>(50, 35, 30, 22.5, 15, 12, 10, 8, 6, 4, 2, 1)).Sample((l, w, h, bound) =>
        {
            var density = Density.Of(Mass.FromPounds(l * w * h / 1728.0 * bound), Length.FromInches(l), Length.FromInches(w), Length.FromInches(h));
            Assert.Equal(
                FreightClassScale.ThirteenTier.ClassOf(Density.FromPoundsPerCubicFoot(bound)),
                FreightClassScale.ThirteenTier.ClassOf(density));
        });

    [Fact]
    public void Denser_freight_never_has_a_higher_class() =>
        Gen.Select(Gen.Double[0, 80], Gen.Double[0, 80]).Sample((density, more) =>
            Assert.True(
                FreightClassScale.EighteenClass.ClassOf(Density.FromPoundsPerCubicFoot(density + more))
                <= FreightClassScale.EighteenClass.ClassOf(Density.FromPoundsPerCubicFoot(density))));

    // Trade pages, the old guideline of eighteen classes.
    [Theory]
    [InlineData(50, 50)]
    [InlineData(35, 55)]
    [InlineData(30, 60)]
    [InlineData(22.5, 65)]
    [InlineData(15, 70)]
    [InlineData(13.5, 77.5)]
    [InlineData(12, 85)]
    [InlineData(10.5, 92.5)]
    [InlineData(9, 100)]
    [InlineData(8, 110)]
    [InlineData(7, 125)]
    [InlineData(6, 150)]
    [InlineData(5, 175)]
    [InlineData(4, 200)]
    [InlineData(3, 250)]
    [InlineData(2, 300)]
    [InlineData(1, 400)]
    [InlineData(0.99, 500)]
    public void The_old_guideline_has_eighteen_classes(double density, double expected) =>
        Assert.Equal((decimal)expected, FreightClassScale.EighteenClass.ClassOf(Density.FromPoundsPerCubicFoot(density)));

    [Fact]
    public void The_eleven_tiers_are_those_below_thirty_and_sixty_above()
    {
        Assert.Equal([60m, .. FreightClassScale.ThirteenTier.Tiers.Skip(3).Select(t => t.Class)], FreightClassScale.ElevenTier.Tiers.Select(t => t.Class));
        Assert.Equal(FreightClassScale.ThirteenTier.Tiers.Skip(2).Select(t => t.From), FreightClassScale.ElevenTier.Tiers.Select(t => t.From));
        Assert.Equal(FreightClassScale.Classes.Order(), FreightClassScale.Classes);
        Assert.Equal(18, FreightClassScale.Classes.Count);
    }

    [Fact]
    public void The_scales_have_the_tiers_in_their_names()
    {
        Assert.Equal(
            ["13-tier density scale, July 2025", "11-tier density scale", "18-class guideline"],
            new[] { FreightClassScale.ThirteenTier, FreightClassScale.ElevenTier, FreightClassScale.EighteenClass }.Select(s => s.ToString()));

        Assert.Equal(13, FreightClassScale.ThirteenTier.Tiers.Count);
        Assert.Equal(11, FreightClassScale.ElevenTier.Tiers.Count);
        Assert.Equal(18, FreightClassScale.EighteenClass.Tiers.Count);
    }
}
