using Fettle.Readiness.Declarations;

namespace Fettle.Readiness.Tests.Declarations;

/// <summary>The one rule of what may have something put on it. Common practice, no source.</summary>
public class TopLoadTests
{
    [Fact]
    public void A_sound_unit_carries_when_it_is_declared_stackable_and_not_else()
    {
        Assert.True(TopLoad.MayCarry(Freight.Sound));
        Assert.False(TopLoad.MayCarry(Freight.Sound with { Stackable = false }));
        Assert.False(TopLoad.IsRuledOut(Freight.Sound with { Stackable = false }));
    }

    public static TheoryData<Requests, bool> Asked => new()
    {
        { new(NoTopLoad: true), true },
        { new(Decking: true), true },
        { new(Decking: true, NoTopLoad: true), true },
        { new(Airbags: true), false },
        { new(Strap: true), false },
        { new(Bulkhead: true), false },
        { new(Airbags: true, Strap: true, Bulkhead: true), false },
        { new(true, true, true, true, true), true },
    };

    [Theory]
    [MemberData(nameof(Asked))]
    public void A_request_for_no_top_load_or_for_decking_outweighs_stackable(Requests requests, bool nothingOnTop) =>
        Rules(Freight.Sound with { Requests = requests }, nothingOnTop);

    [Fact]
    public void Nothing_goes_on_what_is_fragile_in_whatever_way() =>
        Assert.All(Enum.GetValues<Fragility>(), fragile => Rules(Freight.Sound with { Fragile = fragile }, fragile != Fragility.None));

    [Fact]
    public void Nothing_goes_on_a_top_that_is_not_flat_and_full()
    {
        Assert.All(Enum.GetValues<TopSurface>(), top => Rules(Freight.Sound with { TopSurface = top }, top != TopSurface.Flat));
        Rules(Freight.Pallet(new CartonContents(Freight.Small, 16, 3, StackKind.Column, TopLayer: 1)), nothingOnTop: true);
        // All that there is of it is one layer, told the other way.
        Rules(Freight.Pallet(new CartonContents(Freight.Small, 16, 0, StackKind.Column, TopLayer: 16)), nothingOnTop: false);
    }

    private static void Rules(HandlingUnit unit, bool nothingOnTop)
    {
        Assert.Equal(nothingOnTop, TopLoad.IsRuledOut(unit));
        Assert.Equal(!nothingOnTop, TopLoad.MayCarry(unit with { Stackable = true }));
        Assert.False(TopLoad.MayCarry(unit with { Stackable = false }));
        // What is computed of the unit says the same: it never carries its like where nothing may be put on it.
        Assert.False(nothingOnTop && unit.Check().Measures.CarriesLikeUnit);
    }
}
