using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Holds;

public class HoldTests
{
    private static readonly Guid HoldId = new("0198a1c0-0000-7000-8000-0000000000d1");
    private static readonly Guid DecisionId = new("0198a1c0-0000-7000-8000-0000000000e1");
    private static readonly HandlingUnit Over = Freight.Sound.Reaching(length: Length.FromInches(50)) with { Reference = "A2", Quantity = 4, Protection = Protection.None, Stackable = false };

    [Fact]
    public void A_hold_is_placed_for_each_line_that_is_stopped_and_for_no_other()
    {
        var heavy = Freight.Sound with { Reference = "A3", GrossWeight = Mass.FromPounds(1700) };
        var placed = Hold.Place(Submitted(Freight.Sound, Over, heavy), reference => reference == "A2" ? HoldId : DecisionId, Limits, Evening.At.AddMinutes(1));
        Assert.Equal([("P-4K7Q2M/A2", HoldId), ("P-4K7Q2M/A3", DecisionId)], placed.Select(hold => (hold.Number, hold.HoldId)));
    }

    [Fact]
    public void It_holds_all_that_the_terminal_needs_to_know()
    {
        var pickup = Submitted(Over);
        var placed = Assert.Single(Hold.Place(pickup, _ => HoldId, Limits, Evening.At.AddMinutes(1)));
        Assert.Equal((Evening.PickupId, Evening.Header, UnitSystem.Imperial, Evening.Clerk), (placed.PickupId, placed.Pickup, placed.Units, placed.DeclaredBy));
        Assert.Equal(Over, placed.HandlingUnit);
        Assert.Equal(Over.Check().Findings, placed.Findings);
        Assert.Equal("a reason", placed.ExceptionRequest);
        Assert.Equal((Evening.Header.Window.To, Evening.At.AddMinutes(1)), (placed.DecideBy, placed.At));
        // Why: the stops in their own words, and nothing milder.
        Assert.Equal(
            "The load is 50 in long on a deck of 48 in: 1 in sticks out at each end. Forks enter at the ends and strike the load there before they reach the pallet. " +
            "There is no film. It takes at least 2 full turns to hold 1,320 lb together.",
            placed.Reason.Said());
    }

    [Fact]
    public void Ready_freight_is_not_held() => Assert.Empty(Hold.Place(Submitted(Freight.Sound), _ => HoldId, Limits, Evening.At));

    [Theory]
    [InlineData(HoldDecision.Release)]
    [InlineData(HoldDecision.ReleaseAsException)]
    [InlineData(HoldDecision.Rework)]
    [InlineData(HoldDecision.Return)]
    [InlineData(HoldDecision.Refuse)]
    public void Given_an_open_hold_when_it_is_decided_then_the_decision_is_kept(HoldDecision decision)
    {
        var decided = Assert.Single(When(Given(Placed), Decide(decision)).Events);
        Assert.Equal(
            new HoldDecided(HoldId, DecisionId, decision, "Measured on the floor.", Evening.Reviewer, Evening.At.AddHours(2), null, decision == HoldDecision.ReleaseAsException ? Terms with { Number = "X-P-4K7Q2M/A2" } : null),
            decided);
    }

    [Fact]
    public void Given_a_decided_hold_when_another_decides_then_it_is_refused_with_who_and_when()
    {
        var state = Given([Placed, .. When(Given(Placed), Decide(HoldDecision.Rework)).Events]);
        var refused = When(state, Decide(HoldDecision.Release) with { DecisionId = HoldId, By = Evening.Clerk, At = Evening.At.AddHours(3) });
        Assert.Empty(refused.Events);
        var already = Assert.IsType<AlreadyDecided>(refused.Refusal);
        Assert.Equal((Evening.Reviewer, Evening.At.AddHours(2), HoldDecision.Rework), (already.Decision.By, already.Decision.At, already.Decision.Decision));
        Assert.Equal("already-decided", already.Code);
        Assert.Equal("Sam Marsh has already decided this hold.", already.Message.ToString());
    }

    [Fact]
    public void Given_nothing_when_it_is_decided_then_there_is_no_such_hold()
    {
        var refused = When(null, Decide(HoldDecision.Release));
        Assert.Empty(refused.Events);
        Assert.Equal(new NoSuchHold(), refused.Refusal);
    }

    [Fact]
    public void A_hold_is_open_until_it_is_decided()
    {
        var open = Given(Placed)!;
        Assert.True(open.IsOpen);
        Assert.Equal((HoldId, Placed, null), (open.Id, open.Placed, open.Decided));
        Assert.Empty(open.Decisions);
        var decided = Assert.IsType<HoldDecided>(Assert.Single(When(open, Decide(HoldDecision.Return)).Events));
        var closed = Given(Placed, decided)!;
        Assert.False(closed.IsOpen);
        Assert.Equal(decided, closed.Decided);
        Assert.Equal([decided], closed.Decisions);
        Assert.Null(closed.Turn);
    }

    private static ExceptionTerms Terms { get; } = new("", "Larkspur Motor Freight", "Crushed corners.", Evening.At.AddDays(3), "Nothing on top.");

    private static HoldLimits Limits => RuleSet.BuiltIn.Hold;

    private static HoldPlaced Placed { get; } = Assert.Single(Hold.Place(Submitted(Over), _ => HoldId, Limits, Evening.At));

    private static Pickup Submitted(params IReadOnlyList<HandlingUnit> lines) =>
        Pickup.Decide(null, Evening.Submit(lines) with { ExceptionRequest = "a reason" }).Events.Aggregate((Pickup?)null, Pickup.Evolve)!;

    private static DecideHold Decide(HoldDecision decision) =>
        new(DecisionId, decision, "Measured on the floor.", Evening.Reviewer, Evening.At.AddHours(2), null, decision == HoldDecision.ReleaseAsException ? Terms : null);

    private static Hold? Given(params IReadOnlyList<HoldEvent> events) => events.Aggregate((Hold?)null, Hold.Evolve);

    private static Decision<HoldEvent> When(Hold? state, DecideHold command) => Hold.Decide(state, command);
}
