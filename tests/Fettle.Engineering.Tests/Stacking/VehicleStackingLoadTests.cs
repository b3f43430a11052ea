using CsCheck;
using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stacking;

/// <summary>ASTM D4169 as a test laboratory prints it: density 10 lb/ft³ for edition -16, 12 for the current one.</summary>
public class VehicleStackingLoadTests
{
    private static readonly Density Current = Density.FromPoundsPerCubicFoot(12);

    [Theory]
    [InlineData(48, 40, 50, 10, 108, 7, 4511.11)]
    [InlineData(48, 40, 50, 12, 108, 7, 5413.33)]
    [InlineData(20, 16, 12, 10, 108, 10, 1777.78)]
    [InlineData(20, 16, 12, 10, 108, 7, 1244.44)]
    [InlineData(20, 16, 12, 10, 108, 5, 888.89)]
    [InlineData(20, 16, 12, 10, 54, 7, 544.44)]
    [InlineData(20, 16, 12, 12, 54, 7, 653.33)]
    public void Mixed_freight_gives_the_worked_values(double l, double w, double h, double density, double stack, double factor, double pounds)
    {
        var load = VehicleStackingLoad.MixedFreight(
            Length.FromInches(l), Length.FromInches(w), Length.FromInches(h), Density.FromPoundsPerCubicFoot(density), Length.FromInches(stack), factor);
        Close.To(pounds, load.PoundsForce, 1e-5);
    }

    [Fact]
    public void Mixed_freight_gives_the_worked_value_in_metric() =>
        // 0.5 × 0.4 × 0.3 m, 160 kg/m³, 2.7 m, F 7: 5268.48 N with the standard's 9.8 N/kg, where we take 9.80665.
        Close.To(5268.48, VehicleStackingLoad.MixedFreight(
            Length.FromMetres(.5), Length.FromMetres(.4), Length.FromMetres(.3), Density.FromKilogramsPerCubicMetre(160), Length.FromMetres(2.7), 7).Newtons, Close.Strength);

    [Fact]
    public void A_unit_as_tall_as_the_stack_bears_nothing()
    {
        var side = Length.FromInches(48);
        foreach (var height in new[] { 108.0, 109, 200 })
        {
            var tall = Length.FromInches(height);
            Assert.Equal(Force.Zero, VehicleStackingLoad.MixedFreight(side, side, tall, Current, VehicleStackingLoad.TrailerStackHeight, 7));
        }
    }

    [Fact]
    public void Factor_one_is_the_plain_weight_of_the_freight_above()
    {
        // 4 × 3 ft of floor, 5 ft of 10 lb/ft³ freight above: 600 lb.
        var load = VehicleStackingLoad.MixedFreight(
            Length.FromFeet(4), Length.FromFeet(3), Length.FromFeet(4), Density.FromPoundsPerCubicFoot(10), Length.FromFeet(9), 1);
        Close.To(600, load.PoundsForce, Close.Arithmetic);
    }

    [Fact]
    public void The_heights_are_the_standards() =>
        // A test laboratory's pages: 108 in, or 54 in for small packages.
        Assert.Equal((Length.FromInches(108), Length.FromInches(54)), (VehicleStackingLoad.TrailerStackHeight, VehicleStackingLoad.SmallPackageStackHeight));

    [Fact]
    public void A_package_that_cannot_be_is_refused()
    {
        var (side, density) = (Length.FromInches(20), Current);
        Force Load(Length l, Length w, Length h, double factor) => VehicleStackingLoad.MixedFreight(l, w, h, density, VehicleStackingLoad.TrailerStackHeight, factor);
        Assert.Throws<ArgumentOutOfRangeException>(() => Load(Length.Zero, side, side, 7));
        Assert.Throws<ArgumentOutOfRangeException>(() => Load(side, Length.Zero, side, 7));
        Assert.Throws<ArgumentOutOfRangeException>(() => Load(side, side, Length.Zero, 7));
        Assert.Throws<ArgumentOutOfRangeException>(() => Load(side, side, side, -1));
    }

    [Fact]
    public void A_taller_unit_never_bears_more_mixed_freight() =>
        Gen.Select(Gen.Double[10, 60], Gen.Double[10, 60], Gen.Double[5, 130], Gen.Double[0, 60]).Sample((l, w, h, more) =>
        {
            Force Load(double height) => VehicleStackingLoad.MixedFreight(
                Length.FromInches(l), Length.FromInches(w), Length.FromInches(height), Current, VehicleStackingLoad.TrailerStackHeight, 7);
            Assert.True(Load(h + more) <= Load(h));
        });

    [Fact]
    public void A_change_of_units_leaves_the_load_unchanged() =>
        Gen.Select(Gen.Double[10, 60], Gen.Double[10, 60], Gen.Double[5, 100], Gen.Double[1, 20]).Sample((l, w, h, density) =>
        {
            var imperial = VehicleStackingLoad.MixedFreight(
                Length.FromInches(l), Length.FromInches(w), Length.FromInches(h), Density.FromPoundsPerCubicFoot(density), Length.FromInches(108), 7);
            var metric = VehicleStackingLoad.MixedFreight(
                Length.FromCentimetres(l * 2.54), Length.FromCentimetres(w * 2.54), Length.FromCentimetres(h * 2.54),
                Density.FromKilogramsPerCubicMetre(density * 0.45359237 / 0.028316846592), Length.FromMetres(2.7432), 7);
            Close.To(imperial.Newtons, metric.Newtons, 1e-7);
            // The published form in inches and pounds: Mf · (l · w · h / 1728) · ((H − h) / h) · F.
            Close.To(density * (l * w * h / 1728) * ((108 - h) / h) * 7, imperial.PoundsForce, 1e-7);
        });
}
