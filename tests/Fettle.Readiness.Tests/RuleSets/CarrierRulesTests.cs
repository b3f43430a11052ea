using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Tests.RuleSets;

public class CarrierRulesTests
{
    private static readonly Guid Carrier = new("0198a1c0-0000-7000-8000-000000000031");
    private static readonly Actor Ada = new(new("0198a1c0-0000-7000-8000-000000000041"), "Ada");
    private static readonly Actor Bert = new(new("0198a1c0-0000-7000-8000-000000000042"), "Bert");
    private static readonly DateTimeOffset Monday = new(2026, 3, 2, 15, 0, 0, TimeSpan.Zero);

    [Fact]
    public void The_first_draft_is_a_copy_of_the_built_in_rules_under_the_carriers_name()
    {
        var drafted = Assert.IsType<RuleSetDrafted>(Assert.Single(CarrierRules.Decide(null, Begin()).Events));

        Assert.Equal(new("Heronway Freight", 1), drafted.Rules.Identity);
        Assert.Equal(RuleSet.BuiltIn.Identity, drafted.CopyOf);
        Assert.Empty(Limit.Between(RuleSet.BuiltIn, drafted.Rules));
    }

    [Fact]
    public void A_later_draft_is_a_copy_of_the_version_in_force_or_of_the_built_in_rules_when_asked()
    {
        var state = Published(Lower(100), Monday);

        var copy = (RuleSetDrafted)CarrierRules.Decide(state, Begin()).Events[0];
        var anew = (RuleSetDrafted)CarrierRules.Decide(state, Begin() with { OfBuiltIn = true }).Events[0];

        Assert.Equal((Length.FromInches(100), 2, new RuleSetVersion("Heronway Freight", 1)), (copy.Rules.Height.Limit, copy.Rules.Identity.Version, copy.CopyOf));
        Assert.Equal((Length.FromInches(105), 2), (anew.Rules.Height.Limit, anew.Rules.Identity.Version));
    }

    [Fact]
    public void There_is_one_draft_at_a_time() =>
        Assert.Equal(new RuleSetDraftExists(Ada), CarrierRules.Decide(Drafted(), Begin()).Refusal);

    [Fact]
    public void A_change_keeps_the_name_and_number_whatever_it_was_sent_with()
    {
        var decision = CarrierRules.Decide(Drafted(), new ChangeRuleSet(1, Lower(100) with { Identity = new("Somebody else", 9) }, Bert, Monday));

        var changed = Assert.IsType<RuleSetChanged>(Assert.Single(decision.Events));
        Assert.Equal((new RuleSetVersion("Heronway Freight", 1), Length.FromInches(100), Bert), (changed.Rules.Identity, changed.Rules.Height.Limit, changed.By));
    }

    [Fact]
    public void A_change_that_changes_nothing_is_no_event() =>
        Assert.Equal((0, null), (CarrierRules.Decide(Drafted(), new ChangeRuleSet(1, RuleSet.BuiltIn, Ada, Monday)).Events.Count, CarrierRules.Decide(Drafted(), new ChangeRuleSet(1, RuleSet.BuiltIn, Ada, Monday)).Refusal));

    [Fact]
    public void Who_changes_publishes_or_drops_what_somebody_else_has_changed_since_is_told_who()
    {
        var state = Then(Drafted(), CarrierRules.Decide(Drafted(), new ChangeRuleSet(1, Lower(100), Bert, Monday)));

        Refusal told = new RuleSetChangedMeanwhile(Bert, Monday);
        Assert.Equal(told, CarrierRules.Decide(state, new ChangeRuleSet(1, Lower(90), Ada, Monday)).Refusal);
        Assert.Equal(told, CarrierRules.Decide(state, new PublishRuleSet(1, Monday, "Lower doors.", Ada, Monday)).Refusal);
        Assert.Equal(told, CarrierRules.Decide(state, new DropRuleSetDraft(1, Ada, Monday)).Refusal);
    }

    [Fact]
    public void Unusable_limits_are_refused_one_by_one()
    {
        var bad = RuleSet.BuiltIn with
        {
            Weight = new() { RatingSeverity = Severity.Tip },
            Tipping = new() { Lateral = double.NaN },
        };

        var refusal = Assert.IsType<RuleSetUnusable>(CarrierRules.Decide(Drafted(), new ChangeRuleSet(1, bad, Ada, Monday)).Refusal);
        Assert.Equal(["tipping.lateral", "weight.ratingSeverity"], refusal.Problems.Select(problem => problem.Path).Order());
    }

    [Fact]
    public void A_version_starts_now_or_later_with_a_reason_and_a_difference()
    {
        var state = Then(Drafted(), CarrierRules.Decide(Drafted(), new ChangeRuleSet(1, Lower(100), Ada, Monday)));

        Assert.Equal(new StartsInThePast(), CarrierRules.Decide(state, new PublishRuleSet(2, Monday.AddTicks(-1), "Lower doors.", Ada, Monday)).Refusal);
        Assert.Equal(new NoReasonForRules(), CarrierRules.Decide(state, new PublishRuleSet(2, Monday, " ", Ada, Monday)).Refusal);
        Assert.Equal(new NothingDiffers(RuleSet.BuiltIn.Identity), CarrierRules.Decide(Drafted(), new PublishRuleSet(1, Monday, "Nothing.", Ada, Monday)).Refusal);
        Assert.Null(CarrierRules.Decide(state, new PublishRuleSet(2, Monday, "Lower doors.", Ada, Monday)).Refusal);
    }

    [Fact]
    public void Nothing_can_be_done_to_a_draft_that_is_published_or_given_up()
    {
        var dropped = Then(Drafted(), CarrierRules.Decide(Drafted(), new DropRuleSetDraft(1, Ada, Monday)));

        foreach (var state in (CarrierRules?[])[null, dropped, Published(Lower(100), Monday)])
        {
            Assert.Equal(new NoRuleSetDraft(), CarrierRules.Decide(state, new ChangeRuleSet(state?.Revision ?? 0, Lower(90), Ada, Monday)).Refusal);
            Assert.Equal(new NoRuleSetDraft(), CarrierRules.Decide(state, new PublishRuleSet(state?.Revision ?? 0, Monday, "Lower.", Ada, Monday)).Refusal);
            Assert.Equal(new NoRuleSetDraft(), CarrierRules.Decide(state, new DropRuleSetDraft(state?.Revision ?? 0, Ada, Monday)).Refusal);
        }
    }

    [Fact]
    public void The_version_in_force_is_the_last_published_that_has_begun()
    {
        var state = Published(Lower(100), Monday);
        state = Published(Lower(95), Monday.AddDays(10), state, at: Monday.AddDays(1));

        Assert.Null(state.InForce(Monday.AddTicks(-1)));
        Assert.Equal(RuleSet.BuiltIn, state.RulesAt(Monday.AddTicks(-1)));
        Assert.Equal(1, state.InForce(Monday)!.Version);
        Assert.Equal(1, state.InForce(Monday.AddDays(10).AddTicks(-1))!.Version);
        Assert.Equal(2, state.InForce(Monday.AddDays(10))!.Version);
        Assert.Equal([Monday.AddDays(10), null], state.Versions.Select(state.Until));
    }

    [Fact]
    public void A_version_published_later_with_an_earlier_start_takes_the_place_of_one_that_has_not_begun()
    {
        var state = Published(Lower(100), Monday.AddDays(10));
        state = Published(Lower(95), Monday.AddDays(5), state, at: Monday.AddDays(1));

        Assert.Null(state.InForce(Monday.AddDays(5).AddTicks(-1)));
        Assert.Equal(2, state.InForce(Monday.AddDays(5))!.Version);
        Assert.Equal(2, state.InForce(Monday.AddDays(20))!.Version);
        Assert.Equal(state.Versions[0].From, state.Until(state.Versions[0]));
    }

    [Fact]
    public void What_was_in_force_in_the_past_is_the_same_after_whatever_is_published()
    {
        var state = Published(Lower(100), Monday);
        var now = Monday.AddDays(3);

        var later = Published(Lower(80), now, state, at: now);

        for (var hour = -48; hour < 72; hour++)
            Assert.Equal(state.RulesAt(Monday.AddHours(hour)), later.RulesAt(Monday.AddHours(hour)));
        Assert.Equal(state.Versions[0], later.Versions[0]);
    }

    private static DraftRuleSet Begin() => new(Carrier, "Heronway Freight", OfBuiltIn: false, Ada, Monday);

    private static RuleSet Lower(double inches) => RuleSet.BuiltIn with { Height = new() { Limit = Length.FromInches(inches) } };

    private static CarrierRules Drafted() => Then(null, CarrierRules.Decide(null, Begin()));

    private static CarrierRules Published(RuleSet rules, DateTimeOffset from, CarrierRules? state = null, DateTimeOffset? at = null)
    {
        state = Then(state, CarrierRules.Decide(state, Begin() with { At = at ?? Monday }));
        state = Then(state, CarrierRules.Decide(state, new ChangeRuleSet(state.Revision, rules, Ada, at ?? Monday)));
        return Then(state, CarrierRules.Decide(state, new PublishRuleSet(state.Revision, from, "Lower doors.", Ada, at ?? Monday)));
    }

    private static CarrierRules Then(CarrierRules? state, Decision<RuleSetEvent> decision)
    {
        Assert.Null(decision.Refusal);
        return decision.Events.Aggregate(state, CarrierRules.Evolve)!;
    }
}
