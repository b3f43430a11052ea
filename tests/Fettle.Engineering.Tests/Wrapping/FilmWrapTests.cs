using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Engineering.Wrapping;

namespace Fettle.Engineering.Tests.Wrapping;

/// <summary>Geometry by hand; overlap, turns and how far the film comes down are common practice, no source.</summary>
public class FilmWrapTests
{
    [Fact]
    public void Half_overlap_up_and_down_makes_four_layers()
    {
        Assert.Equal(4, FilmWrap.Common.Layers);
        Assert.Equal(2, (FilmWrap.Common with { Passes = 1 }).Layers);
        Assert.Equal(1, (FilmWrap.Common with { Passes = 1, Overlap = 0.49 }).Layers);
        Assert.Equal(3, (FilmWrap.Common with { Passes = 1, Overlap = 2.0 / 3 }).Layers);
        Assert.True((FilmWrap.Common with { Passes = 1 }).Layers >= FilmWrap.LeastLayers);
    }

    [Theory]
    [InlineData(20, 1)]
    [InlineData(12, 1)]
    [InlineData(30, 2)]
    [InlineData(50, 4)]
    [InlineData(51, 5)]
    public void A_twenty_inch_film_at_half_overlap_climbs_ten_inches_a_turn(double height, int turns) =>
        Assert.Equal(turns, FilmWrap.Common.TurnsToCover(Length.FromInches(height)));

    [Fact]
    public void A_common_wrap_of_a_common_load_takes_a_known_length_of_film()
    {
        // 48 × 40 × 50 in: 4 turns a pass, two passes, two and two extra: 12 turns of 176 in, 2112 in on the load.
        var (l, w, h) = (Length.FromInches(48), Length.FromInches(40), Length.FromInches(50));
        Assert.Equal(12, FilmWrap.Common.Turns(h));
        Assert.Equal(Length.FromInches(2112), FilmWrap.Common.FilmOnLoad(l, w, h));
        // Stretched to three times its length a third comes off the roll.
        Assert.Equal(Length.FromInches(704), FilmWrap.Common.FilmFromRoll(l, w, h, 2));
        Assert.Equal(Length.FromInches(2112), FilmWrap.Common.FilmFromRoll(l, w, h, 0));
    }

    [Fact]
    public void The_turns_cover_the_height_and_one_fewer_does_not() =>
        Gen.Select(Gen.Double[5, 40], Gen.Double[0, 0.9], Gen.Double[1, 120]).Sample((width, overlap, height) =>
        {
            var turns = (FilmWrap.Common with { FilmWidth = Length.FromInches(width), Overlap = overlap }).TurnsToCover(Length.FromInches(height));
            double Covered(int count) => width + ((count - 1) * width * (1 - overlap));
            Assert.True(Covered(turns) >= height - 1e-6);
            Assert.True(turns == 1 || Covered(turns - 1) < height + 1e-6);
        });

    [Fact]
    public void More_overlap_or_passes_never_make_fewer_layers() =>
        Gen.Select(Gen.Double[0, 0.8], Gen.Double[0, 0.15], Gen.Int[1, 5]).Sample((overlap, more, passes) =>
        {
            var wrap = FilmWrap.Common with { Overlap = overlap, Passes = passes };
            Assert.True((wrap with { Overlap = overlap + more }).Layers >= wrap.Layers);
            Assert.True((wrap with { Passes = passes + 1 }).Layers > wrap.Layers);
        });

    [Fact]
    public void Layers_for_a_force_hold_it_and_one_fewer_does_not() =>
        Gen.Select(Gen.Double[0.1, 40], Gen.Double[0.5, 6]).Sample((wanted, each) =>
        {
            var layers = FilmWrap.LayersFor(Force.FromPoundsForce(wanted), Force.FromPoundsForce(each));
            Assert.True(Containment.Of(Force.FromPoundsForce(each), layers).PoundsForce >= wanted - 1e-6);
            Assert.True((layers - 1) * each < wanted + 1e-6);
        });

    [Fact]
    public void Layers_that_hold_a_force_exactly_are_enough()
    {
        Assert.Equal(3, FilmWrap.LayersFor(Force.FromPoundsForce(9), Force.FromPoundsForce(3)));
        Assert.Throws<ArgumentOutOfRangeException>(() => FilmWrap.Common.TurnsToCover(Length.Zero));
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void An_overlap_that_no_film_has_is_refused(double overlap) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => (FilmWrap.Common with { Overlap = overlap }).Layers);
}
