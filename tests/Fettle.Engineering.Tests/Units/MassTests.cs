using System.Text.Json;
using CsCheck;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Units;

public class MassTests
{
    [Fact]
    public void A_pound_is_what_the_agreement_of_1959_says()
    {
        // International yard and pound agreement: 0.45359237 kg exactly.
        Assert.Equal(Mass.FromKilograms(0.45359237), Mass.FromPounds(1));
        Assert.Equal(2000, Mass.FromKilograms(907.18474).Pounds);
    }

    [Fact]
    public void Scale_readings_come_back_as_typed_to_fifteen_digits() =>
        Gen.Int[0, 1_000_000].Sample(n =>
        {
            Close.To(n / 100.0, Mass.FromPounds(n / 100.0).Pounds, 1e-15);
            Close.To(n / 100.0, Mass.FromKilograms(n / 100.0).Kilograms, 1e-15);
        });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1e9)]
    public void What_cannot_be_held_is_refused(double kilograms) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Mass.FromKilograms(kilograms));

    [Fact]
    public void Twelve_cartons_weigh_twelve_times_one() =>
        Gen.Select(Gen.Long[0, 100_000_000_000_000], Gen.Int[0, 80]).Sample((nanograms, count) =>
        {
            var carton = Mass.FromNanograms(nanograms);
            Assert.Equal(Enumerable.Repeat(carton, count).Aggregate(Mass.Zero, (sum, m) => sum + m), carton * count);
        });

    [Fact]
    public void Masses_are_told_in_both_families_and_reckoned_with()
    {
        var mass = Mass.FromPounds(100);
        Assert.Equal((45.359237, 100), (mass.In(UnitSystem.Metric), mass.In(UnitSystem.Imperial)));
        Assert.Equal((mass, mass), (Mass.From(45.359237, UnitSystem.Metric), Mass.From(100, UnitSystem.Imperial)));
        Assert.Equal(Mass.FromPounds(60), mass - Mass.FromPounds(40));
        Assert.Equal((Mass.FromPounds(300), Mass.FromPounds(300), Mass.FromPounds(40)), (3 * mass, mass * 3.0, mass / 2.5));
        Assert.Equal(2.5, mass / Mass.FromPounds(40));
        Assert.Equal(mass, (Mass.Zero - mass).Abs());
        Assert.Equal("100 lb", mass.ToString());
        Assert.Throws<OverflowException>(() => Mass.FromNanograms(long.MaxValue) + Mass.FromNanograms(1));
    }

    [Fact]
    public void Json_carries_kilograms_and_reads_pounds()
    {
        Assert.Equal("""{"value":426.3768278,"unit":"KGM"}""", JsonSerializer.Serialize(Mass.FromPounds(940)));
        Assert.Equal(Mass.FromPounds(940), JsonSerializer.Deserialize<Mass>("""{"value":940,"unit":"LBR"}"""));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Mass>("""{"value":940,"unit":"INH"}"""));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Mass>("""{"value":1e20,"unit":"LBR"}"""));
    }
}
