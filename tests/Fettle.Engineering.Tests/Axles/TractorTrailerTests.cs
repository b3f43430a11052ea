using CsCheck;
using Fettle.Engineering.Axles;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Axles;

/// <summary>
/// A worked example of ours: empty weights and geometry are illustrative, from memory; the statics are those of the published
/// ROADEF 2022 rules. 26 pallets of 1,700 lb from 3 in behind the nose.
/// </summary>
public class TractorTrailerTests
{
    private static readonly Mass Cargo = Mass.FromPounds(44_200);

    [Fact]
    public void Straight_rows_ride_within_every_limit()
    {
        var centre = Rows(13, 40);
        Assert.Equal(Length.FromInches(263), centre);
        var loads = TractorTrailer.Illustration.Carrying(Cargo, centre);
        Near(26_573, TractorTrailer.Illustration.OnFifthWheel(Cargo, centre));
        Near(11_886, loads.Steer);
        Near(32_686, loads.Drive);
        Near(31_627, loads.Trailer);
        Near(76_200, loads.Gross);
        Assert.True(AxleLimits.Interstate.Allow(loads));
        Assert.Equal(default, AxleLimits.Interstate.Excess(loads));
    }

    [Fact]
    public void Turned_rows_overload_the_trailer_tandem()
    {
        var centre = Rows(13, 48);
        Assert.Equal(Length.FromInches(315), centre);
        var loads = TractorTrailer.Illustration.Carrying(Cargo, centre);
        Near(21_527, TractorTrailer.Illustration.OnFifthWheel(Cargo, centre));
        Near(11_623, loads.Steer);
        Near(27_904, loads.Drive);
        Near(36_673, loads.Trailer);
        Assert.False(AxleLimits.Interstate.Allow(loads));
        var (groups, gross) = AxleLimits.Interstate.Excess(loads);
        Near(2_673, groups.Trailer);
        Assert.Equal((Mass.Zero, Mass.Zero, Mass.Zero), (groups.Steer, groups.Drive, gross));
    }

    [Fact]
    public void Sliding_the_tandem_back_cures_it_and_past_what_California_allows()
    {
        var centre = Length.FromInches(315);
        var least = TractorTrailer.Illustration.LeastKingpinToTandem(Cargo, centre, AxleLimits.Tandem);
        Assert.NotNull(least);
        Assert.InRange(least.Value.Inches, 505.3, 505.5);
        Assert.True(least.Value > TractorTrailer.Illustration.KingpinToTandem);
        Near(34_000, TractorTrailer.Illustration.WithTandemAt(least.Value).Carrying(Cargo, centre).Trailer);
        Assert.Null(TractorTrailer.Illustration.LeastKingpinToTandem(Cargo, centre, Mass.FromPounds(9_000)));
    }

    [Fact]
    public void Nothing_is_lost_between_the_axles() =>
        Gen.Select(Gen.Double[0, 46_000], Gen.Double[0, 630]).Sample((pounds, inches) =>
        {
            var vehicle = TractorTrailer.Illustration;
            var cargo = Mass.FromPounds(pounds);
            var gross = vehicle.Carrying(cargo, Length.FromInches(inches)).Gross;
            Assert.Equal(vehicle.SteerEmpty + vehicle.DriveEmpty + vehicle.KingpinEmpty + vehicle.TrailerEmpty + cargo, gross);
        });

    [Fact]
    public void Moving_cargo_back_loads_the_trailer_tandem() =>
        Gen.Select(Gen.Double[0, 46_000], Gen.Double[0, 500], Gen.Double[0, 130]).Sample((pounds, inches, more) =>
        {
            AxleLoads At(double x) => TractorTrailer.Illustration.Carrying(Mass.FromPounds(pounds), Length.FromInches(x));
            Assert.True(At(inches + more).Trailer >= At(inches).Trailer);
            Assert.True(At(inches + more).Drive <= At(inches).Drive);
            Assert.True(At(inches + more).Steer <= At(inches).Steer);
        });

    [Fact]
    public void A_cargo_over_the_tandem_leaves_the_tractor_as_it_was()
    {
        var vehicle = TractorTrailer.Illustration;
        Assert.Equal(vehicle.Carrying(Mass.Zero, Length.Zero).Drive, vehicle.Carrying(Cargo, vehicle.Tandem).Drive);
        Assert.Equal(vehicle.KingpinEmpty, vehicle.OnFifthWheel(Cargo, vehicle.Tandem));
    }

    [Fact]
    public void A_vehicle_that_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => TractorTrailer.Illustration.WithTandemAt(Length.Zero).Carrying(Cargo, Length.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => (TractorTrailer.Illustration with { Wheelbase = Length.Zero }).Carrying(Cargo, Length.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => TractorTrailer.Illustration.Carrying(Mass.FromPounds(-1), Length.Zero));
    }

    private static Length Rows(int rows, double inchesDeep) => TractorTrailer.CentreOf(
        Enumerable.Range(0, rows).Select(row => (Mass.FromPounds(3_400), Length.FromInches(3 + (inchesDeep * (row + 0.5))))));

    private static void Near(double pounds, Mass mass) => Assert.InRange(mass.Pounds, pounds - 1, pounds + 1);
}
