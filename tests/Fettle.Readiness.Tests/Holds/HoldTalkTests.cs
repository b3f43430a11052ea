using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;
using static Fettle.Readiness.Tests.Holds.HeldFreight;

namespace Fettle.Readiness.Tests.Holds;

/// <summary>Messages, offers of rework, the shipper's answers, and decisions that take the place of others.</summary>
public class HoldTalkTests
{
    private static readonly SendHoldMessage Message = new(Id(1), HoldSide.Shipper, "Good morning.", Evening.Clerk, After(1));
    private static readonly OfferRework Offer = new(Id(2), "Film, three turns.", Money.Dollars(85), After(12), Evening.Reviewer, After(1));
    private static readonly AuthoriseRework Authorise = new(Id(3), Id(2), Evening.Clerk, After(2));
    private static readonly CorrectDeclaration Correct = new(Id(4), Cured, Freight.Near, RuleSet.BuiltIn, Evening.Clerk, After(2));

    [Fact]
    public void A_message_is_kept_with_its_side_and_sent_twice_it_is_kept_once()
    {
        var sent = Assert.Single(Hold.Decide(Given(Placed), Message).Events);
        Assert.Equal(Wrote(HoldSide.Shipper, 1), sent);
        Assert.Empty(Hold.Decide(Given(Placed, sent), Message).Events);
        Assert.Null(Hold.Decide(Given(Placed, sent), Message).Refusal);
        Assert.Single(Hold.Decide(Given(Placed, Decided(HoldDecision.Return, 1)), Message).Events);
        Assert.Equal(new NoSuchHold(), Hold.Decide(null, Message).Refusal);
    }

    [Fact]
    public void A_hold_keeps_only_so_many_messages()
    {
        HoldEvent[] full = [Placed, .. Enumerable.Range(0, Hold.MostMessages).Select(i => Wrote(HoldSide.Shipper, 1, 100 + i))];
        Assert.Equal(new TooManyMessages(), Hold.Decide(Given(full), Message).Refusal);
    }

    [Fact]
    public void The_shipper_authorises_an_offer_at_its_cost()
    {
        var offered = Assert.Single(Hold.Decide(Given(Placed), Offer).Events);
        var authorised = Assert.IsType<ReworkAuthorised>(Assert.Single(Hold.Decide(Given(Placed, offered), Authorise).Events));
        Assert.Equal((Id(2), Money.Dollars(85), Evening.Clerk), (authorised.OfferId, authorised.Cost, authorised.By));
        var after = Given(Placed, offered, authorised)!;
        Assert.Null(after.StandingOffer());
        Assert.Empty(Hold.Decide(after, Authorise).Events);
        Assert.Equal(new OfferAuthorised(Evening.Clerk), Hold.Decide(after, Authorise with { AuthorisationId = Id(5) }).Refusal);
        Assert.Equal(new OfferAuthorised(Evening.Clerk), Hold.Decide(after, new WithdrawReworkOffer(Id(2), "No film.", Evening.Reviewer, After(3))).Refusal);
    }

    [Fact]
    public void An_offer_that_was_replaced_withdrawn_or_ran_out_is_not_authorised()
    {
        var first = Hold.Decide(Given(Placed), Offer).Events[0];
        var second = Assert.IsType<ReworkOffered>(Assert.Single(Hold.Decide(Given(Placed, first), Offer with { OfferId = Id(6), Cost = Money.Dollars(120.5m) }).Events));
        Assert.Equal(Id(2), second.Replaces);
        var replaced = Hold.Decide(Given(Placed, first, second), Authorise);
        Assert.Equal("Sam Marsh has made another offer meanwhile, at 120.50 USD. Read that one, then answer it.", replaced.Refusal!.Message.Said());
        var gone = Assert.Single(Hold.Decide(Given(Placed, first), new WithdrawReworkOffer(Id(2), "No film left.", Evening.Reviewer, After(2))).Events);
        Assert.Equal("Sam Marsh has withdrawn this offer meanwhile: No film left.", Hold.Decide(Given(Placed, first, gone), Authorise).Refusal!.Message.Said());
        Assert.Equal(new OfferRanOut(), Hold.Decide(Given(Placed, first), Authorise with { At = After(12.1) }).Refusal);
        Assert.Null(Hold.Decide(Given(Placed, first), Authorise with { At = After(12) }).Refusal);
        Assert.Equal(new NoSuchOffer(), Hold.Decide(Given(Placed), Authorise).Refusal);
    }

    [Fact]
    public void A_corrected_line_goes_through_the_same_check_and_the_first_one_stays()
    {
        var corrected = Assert.IsType<HoldDeclarationCorrected>(Assert.Single(Hold.Decide(Given(Placed), Correct).Events));
        Assert.Equal((Cured, VerdictOf(Cured), RuleSet.BuiltIn.Identity), (corrected.HandlingUnit, corrected.Verdict, corrected.RuleSet));
        Assert.DoesNotContain(corrected.Findings, finding => finding.Severity == Severity.Stop);
        var after = Given(Placed, corrected)!;
        Assert.Equal((Over, Cured), (after.Placed.HandlingUnit, after.DeclaredNow()));
        Assert.Equal(corrected.Findings, after.FoundNow());
        Assert.True(after.IsOpen);
    }

    [Fact]
    public void A_correction_is_judged_by_the_rules_given_and_may_still_be_held()
    {
        var strict = RuleSet.BuiltIn with { Identity = new("Heronway Freight", 3), Wrap = new() { Turns = 9 } };
        var corrected = Assert.IsType<HoldDeclarationCorrected>(Assert.Single(Hold.Decide(Given(Placed), Correct with { Rules = strict }).Events));
        Assert.Equal((Verdict.Hold, strict.Identity), (corrected.Verdict, corrected.RuleSet));
    }

    [Fact]
    public void A_correction_is_of_the_same_freight_and_changes_something()
    {
        Assert.Equal(new OtherFreight(), Hold.Decide(Given(Placed), Correct with { HandlingUnit = Cured with { Quantity = 5 } }).Refusal);
        Assert.Equal(new OtherFreight(), Hold.Decide(Given(Placed), Correct with { HandlingUnit = Cured with { Reference = "A3" } }).Refusal);
        Assert.Equal(new NothingCorrected(), Hold.Decide(Given(Placed), Correct with { HandlingUnit = Over }).Refusal);
    }

    [Fact]
    public void After_a_decision_there_is_nothing_to_answer()
    {
        var decided = Decided(HoldDecision.Return, 1);
        var state = Given(Placed, Offered(0.5), decided);
        var already = new AlreadyDecided(decided);
        Assert.Equal(already, Hold.Decide(state, Authorise).Refusal);
        Assert.Equal(already, Hold.Decide(state, Correct).Refusal);
        Assert.Equal(already, Hold.Decide(state, Offer with { OfferId = Id(7) }).Refusal);
        Assert.Equal(already, Hold.Decide(state, new RequestException(Id(7), "Rides alone.", Evening.Clerk, After(2))).Refusal);
        Assert.Equal(already, Hold.Decide(state, new DisputeHold(Id(7), "Read wrongly.", [], Evening.Clerk, After(2))).Refusal);
    }

    [Fact]
    public void A_decision_is_superseded_by_naming_it()
    {
        var first = Decided(HoldDecision.Rework, 1);
        var state = Given(Placed, first);
        var anew = new DecideHold(Id(10), HoldDecision.Release, "It stands straight now.", Evening.Reviewer, After(5), first.DecisionId);
        Assert.Equal(new AlreadyDecided(first), Hold.Decide(state, anew with { Supersedes = null }).Refusal);
        Assert.Equal(new AlreadyDecided(first), Hold.Decide(state, anew with { Supersedes = Id(99) }).Refusal);
        Assert.Equal(new NothingToSupersede(), Hold.Decide(Given(Placed), anew).Refusal);

        var second = Assert.IsType<HoldDecided>(Assert.Single(Hold.Decide(state, anew).Events));

        var after = Given(Placed, first, second)!;
        Assert.Equal((second, first.DecisionId), (after.Decided, second.Supersedes));
        Assert.Equal([first, second], after.Decisions);
        // Sent twice it is decided once.
        Assert.Empty(Hold.Decide(after, anew).Events);
    }

    [Fact]
    public void An_exception_has_terms_and_the_holds_number()
    {
        var bare = new DecideHold(Id(10), HoldDecision.ReleaseAsException, "Rides alone.", Evening.Reviewer, After(1));
        Assert.Equal(new NoExceptionTerms(), Hold.Decide(Given(Placed), bare).Refusal);
        var decided = Assert.IsType<HoldDecided>(Assert.Single(Hold.Decide(Given(Placed), bare with { Exception = Terms }).Events));
        Assert.Equal(Terms with { Number = "X-P-4K7Q2M/A2" }, decided.Exception);
        // Terms that go with nothing are not kept.
        Assert.Null(Assert.IsType<HoldDecided>(Assert.Single(Hold.Decide(Given(Placed), bare with { Decision = HoldDecision.Release, Exception = Terms }).Events)).Exception);
    }

    [Fact]
    public void An_inspection_with_a_new_reason_places_a_hold_and_one_without_does_not()
    {
        var heavy = Over with { GrossWeight = Mass.FromPounds(2600) };
        var findings = ReadinessCheck.Run(heavy, Freight.Near, RuleSet.BuiltIn).Findings;
        var seen = new InspectedFreight(Id(20), Id(21), Submitted(null), heavy, findings, Limits, [Given(Placed, Decided(HoldDecision.Release, 1))!], Evening.Reviewer, After(30));

        var placed = Hold.PlaceOn(seen)!;

        Assert.Equal((Id(20), Id(21), "P-4K7Q2M/A2/2", heavy, Evening.Clerk), (placed.HoldId, placed.InspectionId, placed.Number, placed.HandlingUnit, placed.DeclaredBy));
        Assert.Equal(findings, placed.Findings);
        Assert.Null(placed.ExceptionRequest);
        // The truck has been there: only the hours count.
        Assert.Equal(After(30 + 8 + 8), placed.DecideBy);
        Assert.Equal("P-4K7Q2M/A2", Hold.PlaceOn(seen with { Earlier = [] })!.Number);
        Assert.Null(Hold.PlaceOn(seen with { Found = Over, Findings = Placed.Findings }));
        Assert.Null(Hold.PlaceOn(seen with { Found = Cured, Findings = [] }));
    }
}
