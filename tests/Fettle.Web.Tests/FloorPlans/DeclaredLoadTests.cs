using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.FloorPlans;
using Fettle.Web.Tests.Drawings;

namespace Fettle.Web.Tests.FloorPlans;

/// <summary>What a floor plan takes for granted of a declared unit: that nothing is put on what says so.</summary>
public sealed class DeclaredLoadTests
{
    private static readonly Mass Bears = Mass.FromPounds(1_500);

    private static readonly HandlingUnit Stackable = Freight.Tidy with { Quantity = 4, Stackable = true };

    [Fact]
    public void Stackable_freight_bears_what_was_computed_and_no_other_freight_bears_anything()
    {
        Assert.Equal(Bears, Load(Stackable).MayBear);
        Assert.Equal(Mass.Zero, Load(Stackable with { Stackable = false }).MayBear);
        Assert.Equal(Mass.Zero, DeclaredLoad.Of(Stackable, Judged(Stackable) with { TopLoadCapacity = null }).MayBear);
        Assert.Equal(Mass.Zero, DeclaredLoad.Of(Stackable, Judged(Stackable) with { TopLoadCapacity = Mass.FromPounds(-1) }).MayBear);
    }

    [Fact]
    public void A_top_that_the_check_found_not_full_bears_nothing()
    {
        var narrow = Stackable with { TopSurface = TopSurface.Pyramid };
        var found = Finding(narrow, FindingCodes.TopSurface);
        Assert.Equal(Mass.Zero, DeclaredLoad.Of(Stackable, Judged(Stackable) with { Findings = [found] }).MayBear);
        Assert.Equal(Mass.Zero, Load(narrow).MayBear);
    }

    public static TheoryData<Requests, bool> Asked => new()
    {
        { Requests.None, true },
        { new(Airbags: true, Strap: true, Bulkhead: true), true },
        { new(NoTopLoad: true), false },
        { new(Decking: true), false },
        { new(Decking: true, NoTopLoad: true), false },
    };

    [Theory]
    [MemberData(nameof(Asked))]
    public void Nothing_is_stacked_on_what_asks_for_no_top_load_or_for_decking(Requests requests, bool stacked)
    {
        var load = Load(Stackable with { Requests = requests });
        Assert.Equal((stacked ? Bears : Mass.Zero, true), (load.MayBear, load.MayRide));

        var plan = LoadPlanner.Plan([load], Trailer.Van53);
        Assert.Equal(stacked ? 2 : 0, plan.Positions.Count(position => position.On is not null));
    }

    [Fact]
    public void What_asks_for_decking_rides_on_the_beams_and_under_them_with_nothing_on_it()
    {
        var load = Load(Stackable with { Requests = new(Decking: true) });
        var plan = LoadPlanner.Plan([load], Trailer.Van53, Decking.Common);

        Assert.Equal((4, 2), (plan.Positions.Count, plan.Positions.Count(position => position.IsOnDeck)));
        Assert.All(plan.Positions, position => Assert.Null(position.On));
    }

    [Fact]
    public void Nothing_is_stacked_on_what_is_fragile() =>
        Assert.All(Enum.GetValues<Fragility>(), fragile => Assert.Equal(fragile == Fragility.None ? Bears : Mass.Zero, Load(Stackable with { Fragile = fragile }).MayBear));

    [Fact]
    public void What_may_carry_nothing_may_still_ride_on_other_freight()
    {
        LoadUnits[] both = [Load(Stackable with { Quantity = 2 }), Load(Stackable with { Quantity = 2, Requests = new(NoTopLoad: true) })];
        var plan = LoadPlanner.Plan(both, Trailer.Van53);

        Assert.Equal([1, 1], plan.Positions.Where(position => position.On is not null).Select(position => position.Kind));
    }

    private static LoadUnits Load(HandlingUnit unit) => DeclaredLoad.Of(unit, Judged(unit));

    /// <summary>As a check judged that found strong cartons and nothing to say.</summary>
    private static UnitJudgement Judged(HandlingUnit unit) => new(unit.Reference, unit.Quantity, Verdict.Ready, [], CarriesLikeUnit: true, Bears);

    private static Finding Finding(HandlingUnit unit, string code) =>
        ReadinessCheck.Run(unit, new(300, 1, false), RuleSet.BuiltIn).Findings.First(finding => finding.Code == code);
}
