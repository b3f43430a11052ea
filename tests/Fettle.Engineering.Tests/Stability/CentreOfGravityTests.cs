using CsCheck;
using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stability;

public class CentreOfGravityTests
{
    private static readonly Gen<Part> AnyPart = Gen.Select(
        Gen.Double[0.1, 2000], Gen.Double[0, 120], Gen.Double[-30, 30], Gen.Double[-30, 30],
        (mass, height, along, across) => new Part(Mass.FromPounds(mass), Length.FromInches(height), Length.FromInches(along), Length.FromInches(across)));

    [Fact]
    public void A_platform_and_its_load_meet_where_the_heavier_is()
    {
        // By hand: (40 lb × 2.5 in + 960 lb × 25 in) / 1000 lb = 24.1 in.
        var whole = CentreOfGravity.Of(
        [
            Part.Uniform(Mass.FromPounds(40), Length.Zero, Length.FromInches(5)),
            Part.Uniform(Mass.FromPounds(960), Length.FromInches(5), Length.FromInches(40)),
        ]);
        Assert.Equal(Length.FromInches(24.1), whole.Height);
        Assert.Equal(Mass.FromPounds(1000), whole.Mass);
        Assert.Equal(Length.Zero, whole.Along);
    }

    [Fact]
    public void It_lies_within_its_parts() =>
        AnyPart.Array[1, 12].Sample(parts =>
        {
            var whole = CentreOfGravity.Of(parts);
            Assert.True(whole.Height >= parts.Min(p => p.Height) && whole.Height <= parts.Max(p => p.Height));
            Assert.True(whole.Along >= parts.Min(p => p.Along) && whole.Along <= parts.Max(p => p.Along));
            Assert.True(whole.Across >= parts.Min(p => p.Across) && whole.Across <= parts.Max(p => p.Across));
        });

    [Fact]
    public void The_order_of_the_parts_does_not_matter() =>
        AnyPart.Array[2, 12].Sample(parts => Assert.Equal(CentreOfGravity.Of(parts), CentreOfGravity.Of(parts.Reverse())));

    [Fact]
    public void Moving_weight_up_moves_it_up() =>
        Gen.Select(AnyPart.Array[1, 12], Gen.Double[1, 50]).Sample((parts, up) =>
        {
            var raised = parts.ToArray();
            raised[0] = raised[0] with { Height = raised[0].Height + Length.FromInches(up) };
            Assert.True(CentreOfGravity.Of(raised).Height >= CentreOfGravity.Of(parts).Height);
        });

    [Fact]
    public void Parts_without_mass_have_no_centre()
    {
        Assert.Throws<ArgumentException>(() => CentreOfGravity.Of([]));
        Assert.Throws<ArgumentException>(() => CentreOfGravity.Of([new Part(Mass.Zero, Length.FromInches(1))]));
        Assert.Throws<ArgumentOutOfRangeException>(() => CentreOfGravity.Of([new Part(Mass.FromPounds(-1), Length.FromInches(1))]));
    }
}
