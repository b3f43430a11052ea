using Fettle.Engineering.Cartons;

namespace Fettle.Engineering.Tests.Cartons;

public class FluteProfileTests
{
    // Trade tables of nominal calipers; BC and EB from memory.
    [Theory]
    [InlineData(Flute.A, 0.1875)]
    [InlineData(Flute.C, 0.15625)]
    [InlineData(Flute.B, 0.125)]
    [InlineData(Flute.E, 0.0625)]
    [InlineData(Flute.F, 0.03125)]
    [InlineData(Flute.BC, 0.28)]
    [InlineData(Flute.EB, 0.18)]
    public void Calipers_are_the_nominal_ones(Flute flute, double inches) =>
        Assert.Equal(inches, FluteProfile.Caliper(flute).Inches, 12);

    [Fact]
    public void A_double_wall_is_about_as_thick_as_its_two_waves()
    {
        Assert.All(Enum.GetValues<Flute>(), flute => Assert.Equal(flute.ToString().Length == 2, FluteProfile.IsDoubleWall(flute)));
        var waves = FluteProfile.Caliper(Flute.B) + FluteProfile.Caliper(Flute.C);
        Assert.InRange(FluteProfile.Caliper(Flute.BC) / waves, 0.95, 1.05);
    }
}
