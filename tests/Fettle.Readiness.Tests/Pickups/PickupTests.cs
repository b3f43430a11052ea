using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Pickups;

public class PickupTests
{
    [Fact]
    public void Given_nothing_when_ready_freight_is_submitted_then_it_is_submitted_as_it_was_judged()
    {
        var command = Evening.Submit(Freight.Sound);
        var submitted = Assert.IsType<PickupSubmitted>(Assert.Single(When(null, command).Events));
        Assert.Equal((command.PickupId, command.Header, command.Declaration, command.By, command.At), (submitted.PickupId, submitted.Header, submitted.Declaration, submitted.By, submitted.At));
        Assert.Equal((RuleSet.BuiltIn.Identity, Verdict.Ready), (submitted.RuleSet, submitted.Verdict));
        var unit = Assert.Single(submitted.Units);
        Assert.Equal(("A1", 1, Verdict.Ready, true), (unit.Reference, unit.Quantity, unit.Verdict, unit.CarriesLikeUnit));
        Assert.Empty(unit.Findings);
        Assert.Equal(Freight.Sound.Check().Measures.TopLoadCapacity, unit.TopLoadCapacity);
    }

    [Fact]
    public void Given_nothing_when_held_freight_is_submitted_then_its_findings_are_kept_as_the_check_found_them()
    {
        var over = Freight.Sound.Reaching(length: Length.FromInches(50));
        var submitted = Assert.IsType<PickupSubmitted>(Assert.Single(When(null, Evening.Submit(Freight.Sound with { Reference = "A2" }, over)).Events));
        Assert.Equal(Verdict.Hold, submitted.Verdict);
        Assert.Equal([("A2", Verdict.Ready), ("A1", Verdict.Hold)], submitted.Units.Select(unit => (unit.Reference, unit.Verdict)));
        Assert.Equal(over.Check().Findings, submitted.Units[1].Findings);
    }

    [Fact]
    public void Given_a_submitted_pickup_when_it_is_submitted_again_then_it_is_refused_with_who_and_when()
    {
        var first = Evening.Submit(Freight.Sound);
        var state = Given([.. When(null, first).Events]);
        var refused = When(state, first with { By = Evening.Reviewer, At = Evening.At.AddHours(1) });
        Assert.Empty(refused.Events);
        Assert.Equal(new AlreadySubmitted(Evening.Clerk, Evening.At), refused.Refusal);
        Assert.Equal("already-submitted", refused.Refusal!.Code);
        Assert.Equal("Robin Field has already submitted this pickup.", refused.Refusal.Message.ToString());
    }

    [Fact]
    public void Given_nothing_when_nothing_is_declared_then_it_is_refused()
    {
        var refused = When(null, Evening.Submit());
        Assert.Empty(refused.Events);
        Assert.Equal(new NothingDeclared(), refused.Refusal);
    }

    [Theory]
    [InlineData("  The consignee has no room for two pallets. ", "The consignee has no room for two pallets.")]
    [InlineData(" ", null)]
    [InlineData(null, null)]
    public void Given_nothing_when_an_exception_is_asked_for_held_freight_then_the_reason_is_kept(string? asked, string? kept)
    {
        var over = Freight.Sound.Reaching(length: Length.FromInches(50));
        var submitted = Assert.IsType<PickupSubmitted>(Assert.Single(When(null, Evening.Submit(over) with { ExceptionRequest = asked }).Events));
        Assert.Equal(kept, submitted.ExceptionRequest);
    }

    [Fact]
    public void Given_nothing_when_an_exception_is_asked_for_ready_freight_then_there_is_nothing_to_except()
    {
        var submitted = Assert.IsType<PickupSubmitted>(Assert.Single(When(null, Evening.Submit(Freight.Sound) with { ExceptionRequest = "please" }).Events));
        Assert.Null(submitted.ExceptionRequest);
    }

    [Fact]
    public void A_submitted_pickup_is_what_its_event_says()
    {
        var submitted = Assert.IsType<PickupSubmitted>(Assert.Single(When(null, Evening.Submit(Freight.Sound.Reaching(length: Length.FromInches(50))) with { ExceptionRequest = "a reason" }).Events));
        var state = Given(submitted)!;
        Assert.Equal(
            (submitted.PickupId, submitted.Header, submitted.Declaration, submitted.RuleSet, submitted.ExceptionRequest, submitted.By, submitted.At, submitted.Verdict),
            (state.Id, state.Header, state.Declaration, state.RuleSet, state.ExceptionRequest, state.SubmittedBy, state.SubmittedAt, state.Verdict));
        Assert.Same(submitted.Units, state.Units);
    }

    [Fact]
    public void Judged_by_the_rules_that_were_handed_in()
    {
        var tariff = Tariff.With(rules => rules with { Wrap = rules.Wrap with { Turns = 9 } });
        var submitted = Assert.IsType<PickupSubmitted>(Assert.Single(When(null, Evening.Submit(Freight.Sound) with { Rules = tariff }).Events));
        Assert.Equal((Tariff.Seventh, Verdict.Hold), (submitted.RuleSet, submitted.Verdict));
        Assert.Equal(FindingCodes.WrapTurns, Assert.Single(submitted.Units[0].Findings).Code);
    }

    private static Pickup? Given(params IReadOnlyList<PickupEvent> events) => events.Aggregate((Pickup?)null, Pickup.Evolve);

    private static Decision<PickupEvent> When(Pickup? state, SubmitPickup command) => Pickup.Decide(state, command);
}
