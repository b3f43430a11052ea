using CsCheck;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>Circles on a rectangle; the counts follow from geometry.</summary>
public class DrumLayerTests
{
    [Theory]
    // Four drums of 23 1/2 in stand on 48 × 48 in and two on 48 × 40 in: common practice with 55-gallon drums, no source.
    [InlineData(48, 48, 23.5, 4)]
    [InlineData(48, 40, 23.5, 2)]
    [InlineData(48, 48, 24, 4)]
    // Two, and one in the gap between them: 1 + √3/2 diameters = 44.8 in.
    [InlineData(48, 47.9, 24, 3)]
    [InlineData(48, 44.7, 24, 2)]
    [InlineData(23, 23, 24, 0)]
    [InlineData(24, 24, 24, 1)]
    // Five staggered rows of five need 1 + 4 · √3/2 = 4.465 diameters one way and 5.5 the other; straight rows hold 20, and
    // six staggered rows of four and three the other way round 21 on 1 + 5 · √3/2 = 5.33 diameters.
    [InlineData(55, 44.65, 10, 25)]
    [InlineData(55, 44.6, 10, 21)]
    [InlineData(53, 44.6, 10, 20)]
    [InlineData(44.65, 55, 10, 25)]
    // A shorter row: 5 + 4 + 5.
    [InlineData(50, 27.33, 10, 14)]
    public void So_many_stand_in_straight_or_staggered_rows(double length, double width, double diameter, int most) =>
        Assert.Equal(most, DrumLayer.Most(Length.FromInches(length), Length.FromInches(width), Length.FromInches(diameter)));

    [Fact]
    public void Never_more_than_their_area_allows_and_never_fewer_than_straight_rows_hold() =>
        Gen.Select(Gen.Double[5, 300], Gen.Double[5, 300], Gen.Double[5, 60]).Sample((length, width, diameter) =>
        {
            var most = DrumLayer.Most(Length.FromInches(length), Length.FromInches(width), Length.FromInches(diameter));
            Assert.True(most * Math.PI / 4 * diameter * diameter <= length * width);
            Assert.True(most >= (int)(length / diameter) * (int)(width / diameter));
            Assert.Equal(most, DrumLayer.Most(Length.FromInches(width), Length.FromInches(length), Length.FromInches(diameter)));
        });

    [Fact]
    public void A_drum_has_a_diameter() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DrumLayer.Most(Length.FromInches(48), Length.FromInches(40), Length.Zero));
}
