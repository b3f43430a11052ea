using Fettle.Engineering.Units;
using Fettle.Engineering.Wrapping;

namespace Fettle.Engineering.Tests.Wrapping;

public class ContainmentTests
{
    [Fact]
    public void The_weakest_place_is_what_holds()
    {
        var (top, middle, bottom) = (Force.FromPoundsForce(9), Force.FromPoundsForce(7), Force.FromPoundsForce(8));
        Assert.Equal(middle, Containment.Weakest(top, middle, bottom));
        Assert.Equal(Force.FromPoundsForce(9), Containment.Of(Force.FromPoundsForce(3), 3));
    }

    // A film supplier's starting guide; "very unstable to 20" is read as 12 to 20.
    [Theory]
    [InlineData(LoadTemper.VeryLight, 0, 5)]
    [InlineData(LoadTemper.Stable, 5, 7)]
    [InlineData(LoadTemper.HeavyUnstable, 7, 12)]
    [InlineData(LoadTemper.VeryUnstable, 12, 20)]
    public void The_guide_gives_a_range_for_each_temper_of_load(LoadTemper temper, double least, double most)
    {
        var guide = Containment.Guide(temper);
        Close.To(least, guide.Least.PoundsForce, 1e-12);
        Close.To(most, guide.Most.PoundsForce, 1e-12);
    }

    [Fact]
    public void A_load_may_give_way_a_little_in_the_acceleration_test()
    {
        // EUMOS 40509 as test institutes describe it, height 1500 mm: 150, 75 and 40 mm.
        var limits = Containment.GreatestDeformation(Length.FromMillimetres(1500));
        Assert.Equal((150, 75, 40), (limits.Elastic.Millimetres, limits.Permanent.Millimetres, limits.PermanentAtFoot.Millimetres));
    }
}
