using System.Globalization;
using System.Text.Json;
using CsCheck;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Units;

public class DensityTests
{
    [Fact]
    public void A_pound_per_cubic_foot_is_sixteen_kilograms_per_cubic_metre()
    {
        // 0.45359237 / 0.3048³, by the international yard and pound agreement of 1959.
        Close.To(16.018463373960142, Density.FromPoundsPerCubicFoot(1).KilogramsPerCubicMetre, 1e-14);
        Close.To(1, Density.FromKilogramsPerCubicMetre(16.018463373960142).PoundsPerCubicFoot, 1e-14);
    }

    [Fact]
    public void Density_of_a_box_is_its_mass_over_its_volume()
    {
        // A published example of a class calculation: 48 × 40 × 28 in, 110 lb, printed as 3.54 lb/ft³.
        var density = Density.Of(Mass.FromPounds(110), Length.FromInches(48), Length.FromInches(40), Length.FromInches(28));
        Assert.Equal(3.5357, density.PoundsPerCubicFoot, 4);
    }

    [Fact]
    public void The_units_it_was_measured_in_do_not_matter() =>
        Gen.Select(Gen.Double[1, 2000], Gen.Double[4, 120], Gen.Double[4, 120], Gen.Double[4, 120]).Sample((lb, l, w, h) =>
        {
            var imperial = Density.Of(Mass.FromPounds(lb), Length.FromInches(l), Length.FromInches(w), Length.FromInches(h));
            var metric = Density.Of(Mass.FromKilograms(lb * 0.45359237), Length.FromCentimetres(l * 2.54), Length.FromCentimetres(w * 2.54), Length.FromCentimetres(h * 2.54));
            Close.To(imperial.KilogramsPerCubicMetre, metric.KilogramsPerCubicMetre, 1e-8);
        });

    [Fact]
    public void A_box_without_room_and_a_negative_density_are_refused()
    {
        var foot = Length.FromFeet(1);
        Assert.Throws<ArgumentOutOfRangeException>(() => Density.Of(Mass.FromPounds(1), foot, foot, Length.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => Density.Of(Mass.FromPounds(1), foot, -foot, -foot));
        Assert.Throws<ArgumentOutOfRangeException>(() => Density.Of(Mass.FromPounds(1), -foot, foot, -foot));
        Assert.Throws<ArgumentOutOfRangeException>(() => Density.Of(Mass.FromPounds(1), -foot, -foot, foot));
        Assert.Throws<ArgumentOutOfRangeException>(() => Density.Of(Mass.FromPounds(-1), foot, foot, foot));
        Assert.Throws<ArgumentOutOfRangeException>(() => Density.FromPoundsPerCubicFoot(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Density.FromKilogramsPerCubicMetre(double.PositiveInfinity));
    }

    [Fact]
    public void A_density_shows_in_the_units_of_its_reader()
    {
        Assert.Equal("11.25 lb/ft³", Density.FromPoundsPerCubicFoot(11.25).ToString());
        Close.To(1.5, Density.FromPoundsPerCubicFoot(12) / Density.FromPoundsPerCubicFoot(8), 1e-14);
        Quantity shown = Density.FromPoundsPerCubicFoot(11.25);
        Assert.Equal("11.3 lb/ft³".Replace(' ', '\u00a0'), shown.Show(UnitSystem.Imperial, CultureInfo.InvariantCulture));
        Assert.Equal("180.2 kg/m³".Replace(' ', '\u00a0'), shown.Show(UnitSystem.Metric, CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Json_reads_both_units_and_refuses_others()
    {
        var density = JsonSerializer.Deserialize<Density>("""{"value":11.25,"unit":"87"}""");
        Close.To(11.25, density.PoundsPerCubicFoot, 1e-14);
        Close.To(11.25, JsonSerializer.Deserialize<Density>(JsonSerializer.Serialize(density)).PoundsPerCubicFoot, 1e-14);
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Density>("""{"value":1,"unit":"INH"}"""));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Density>("""{"value":-1,"unit":"87"}"""));
    }
}
