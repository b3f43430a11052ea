using CsCheck;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Claims;

public class ClaimTests
{
    private static readonly Guid OutcomeId = new("0198a1c0-0000-7000-8000-0000000000c1");
    private static readonly Guid ClaimId = new("0198a1c0-0000-7000-8000-0000000000d1");
    private static readonly Guid SecondClaim = new("0198a1c0-0000-7000-8000-0000000000d2");
    private static readonly DateTimeOffset Delivered = Evening.At.AddDays(3);
    private static readonly DateTimeOffset Filed = Evening.At.AddDays(10);
    private static readonly DateOnly FiledOn = DateOnly.FromDateTime(Filed.UtcDateTime);

    /// <summary>Six of A1, of which one came crushed and one was missing; two of B2, all whole.</summary>
    private static readonly Pickup Harmed = After(
        null,
        [
            .. Pickup.Decide(null, Evening.Submit(Freight.Sound with { Quantity = 6 }, Freight.Sound with { Reference = "B2", Quantity = 2 })).Events,
            Recorded(new("A1", 4, OutcomeKind.Clean), new("A1", 1, OutcomeKind.Damaged, DamagePlace.Corner, DamageManner.Crushed), new("A1", 1, OutcomeKind.Short), new("B2", 2, OutcomeKind.Clean)),
        ]);

    /// <summary>30 days to acknowledge and 120 to answer: 49 CFR 370.5 and 370.9, from memory.</summary>
    [Fact]
    public void Given_harmed_freight_when_a_claim_is_filed_then_it_stands_with_the_carriers_days()
    {
        var filed = Assert.IsType<ClaimFiled>(Assert.Single(Decide(Harmed, File(("A1", 2, 310.50m))).Events));
        Assert.Equal((FiledOn.AddDays(30), FiledOn.AddDays(120), Harmed.Outcome!.Deadlines.ClaimBy), (filed.AcknowledgeBy, filed.AnswerBy, filed.FileBy));
        Assert.Equal((310.50m, "Two of six.", false), (filed.Total.Amount, filed.Grounds, filed.IsLate));
        var claim = Assert.Single(After(Harmed, [filed]).Claims);
        Assert.Equal((ClaimState.Filed, true, 1, filed.AcknowledgeBy), (claim.State, claim.IsOpen, claim.Revision, claim.DueOn!.Value));
    }

    [Fact]
    public void Given_the_last_day_for_a_claim_when_it_is_over_then_the_claim_is_kept_and_marked_late()
    {
        var last = Harmed.Outcome!.Deadlines.ClaimBy;
        Assert.False(Assert.IsType<ClaimFiled>(Assert.Single(Decide(Harmed, File(("A1", 1, 10)) with { FiledOn = last }).Events)).IsLate);
        Assert.True(Assert.IsType<ClaimFiled>(Assert.Single(Decide(Harmed, File(("A1", 1, 10)) with { FiledOn = last.AddDays(1) }).Events)).IsLate);
    }

    [Theory]
    [InlineData("A1", 3, 2, 0)]
    [InlineData("A1", int.MaxValue, 2, 0)]
    [InlineData("B2", 1, 0, 0)]
    [InlineData("Z9", 1, 0, 0)]
    public void Given_harmed_freight_when_more_is_claimed_than_was_harmed_then_it_is_refused_with_the_numbers(string reference, int count, int harmed, int claimed) =>
        Assert.Equal(new MoreThanHarmed(reference, harmed, claimed, count), Decide(Harmed, File((reference, count, 10))).Refusal);

    [Fact]
    public void Given_a_claim_when_the_same_units_are_claimed_again_then_it_is_refused_until_the_first_is_withdrawn()
    {
        var claimed = After(Harmed, Decide(Harmed, File(("A1", 2, 100))).Events);
        var again = File(("A1", 1, 50)) with { ClaimId = SecondClaim };
        var refused = Decide(claimed, again).Refusal;
        Assert.Equal(new MoreThanHarmed("A1", 2, 2, 1), refused);
        Assert.Equal("Of A1, 2 units were recorded damaged, missing or not taken; 2 are claimed already, and this claim is for 1.", refused!.Message.ToString());
        var withdrawn = After(claimed, Decide(claimed, new WithdrawClaim(ClaimId, 1, "Found behind the racks.", Evening.Clerk, Filed)).Events);
        Assert.Equal(ClaimState.Withdrawn, withdrawn.Claims[0].State);
        Assert.Single(Decide(withdrawn, again).Events);
    }

    public static TheoryData<int, double> Nothing => new() { { 0, 10 }, { -1, 10 }, { 1, 0 }, { 1, -5 } };

    [Theory]
    [MemberData(nameof(Nothing))]
    public void Given_harmed_freight_when_no_unit_or_no_sum_is_claimed_then_it_is_refused(int count, double sum)
    {
        Assert.Equal(new NothingClaimed(), Decide(Harmed, File(("A1", count, (decimal)sum))).Refusal);
        Assert.Equal(new NothingClaimed(), Decide(Harmed, File()).Refusal);
    }

    [Fact]
    public void Given_another_record_of_delivery_than_the_person_saw_when_a_claim_is_filed_then_they_read_it_first()
    {
        Assert.Equal(new DeliveryChanged(Evening.Reviewer), Decide(Harmed, File(("A1", 1, 10)) with { OutcomeId = SecondClaim }).Refusal);
        Assert.Equal(new DeliveryChanged(null), Decide(Harmed with { Outcome = null }, File(("A1", 1, 10))).Refusal);
        Assert.Equal(new NoSuchPickup(), Decide(null, File(("A1", 1, 10))).Refusal);
    }

    [Fact]
    public void Given_a_claim_when_it_is_sent_again_then_nothing_is_doubled()
    {
        var command = File(("A1", 1, 10));
        var again = Decide(After(Harmed, Decide(Harmed, command).Events), command);
        Assert.Null(again.Refusal);
        Assert.Empty(again.Events);
    }

    [Fact]
    public void Given_as_many_claims_as_one_pickup_has_when_one_more_is_filed_then_it_is_refused()
    {
        var filed = Assert.IsType<ClaimFiled>(Assert.Single(Decide(Harmed, File(("A1", 1, 10))).Events));
        var full = Harmed with { Claims = [.. Enumerable.Range(0, Claim.Most).Select(number => new Claim(filed with { ClaimId = new(number, 0, 0, new byte[8]) }, [], null, null, 1))] };
        Assert.Equal(new TooManyClaims(), Decide(full, File(("A1", 1, 10))).Refusal);
        Assert.IsNotType<TooManyClaims>(Decide(full with { Claims = [.. full.Claims.Skip(1)] }, File(("A1", 1, 10))).Refusal);
    }

    [Fact]
    public void Given_many_offers_when_there_are_as_many_as_are_kept_then_the_next_is_for_a_letter()
    {
        var state = Standing(ClaimState.Filed);
        for (var i = 0; i < Claim.MostAnswers; i++)
            state = After(state, [Assert.Single(Decide(state, Answer(state, ClaimAnswer.Offered, 10 + i)).Events)]);

        Assert.Equal(new TooManyClaimAnswers(), Decide(state, Answer(state, ClaimAnswer.Offered, 60)).Refusal);
        Assert.Equal(new ClaimStandsSo(ClaimState.Offered), Decide(state, Answer(state, ClaimAnswer.Acknowledged, null)).Refusal);
        // The shipper can still take the last of them.
        Assert.Single(Decide(state, new AcceptClaimOffer(ClaimId, Claim.MostAnswers + 1, Evening.Clerk, Filed)).Events);
    }

    /// <summary>Every state with every answer: what follows, and what does not.</summary>
    [Theory]
    [InlineData(ClaimState.Filed, "Acknowledged, Offered, Disallowed, Paid")]
    [InlineData(ClaimState.Acknowledged, "Offered, Disallowed, Paid")]
    [InlineData(ClaimState.Offered, "Offered, Disallowed, Paid")]
    [InlineData(ClaimState.Agreed, "Paid")]
    [InlineData(ClaimState.Disallowed, "Offered, Paid")]
    [InlineData(ClaimState.Paid, "Paid")]
    [InlineData(ClaimState.Withdrawn, "")]
    public void An_answer_follows_only_where_it_can(ClaimState state, string answers)
    {
        var stands = Standing(state);
        Assert.Equal(state, stands.Claims[0].State);
        Assert.Equal(answers, string.Join(", ", ClaimDecisions.AnswersAfter(state)));
        foreach (var answer in Enum.GetValues<ClaimAnswer>())
        {
            var decision = Decide(stands, Answer(stands, answer, 40) with { Reason = "As agreed on the telephone." });
            if (answers.Contains(answer.ToString(), StringComparison.Ordinal))
                Assert.Equal(answer, Assert.IsType<ClaimAnswered>(Assert.Single(decision.Events)).Answer);
            else
                Assert.Equal(new ClaimStandsSo(state), decision.Refusal);
        }
    }

    /// <summary>
    /// 49 USC 14706(e): two years from the written disallowance, with reasons; an offer of a compromise does not begin them.
    /// </summary>
    [Fact]
    public void Time_for_a_suit_begins_with_the_first_disallowance_and_not_with_an_offer()
    {
        var offered = Answered(Standing(ClaimState.Filed), ClaimAnswer.Offered, 40);
        Assert.Null(offered.Claims[0].SuitBy);
        var day = FiledOn.AddDays(5);
        var disallowed = Answered(offered, ClaimAnswer.Disallowed, null, day);
        Assert.Equal((day.AddYears(2), day.AddYears(2)), (disallowed.Claims[0].SuitBy!.Value, disallowed.Claims[0].Answered!.SuitBy!.Value));
        var offeredAgain = Answered(disallowed, ClaimAnswer.Offered, 60, day.AddDays(30));
        Assert.Equal((ClaimState.Offered, day.AddYears(2)), (offeredAgain.Claims[0].State, offeredAgain.Claims[0].SuitBy!.Value));
        Assert.Null(Answered(offeredAgain, ClaimAnswer.Paid, 60, day.AddDays(31)).Claims[0].SuitBy);
    }

    [Theory]
    [InlineData(ClaimState.Filed, ClaimAnswer.Disallowed, null, true)]
    [InlineData(ClaimState.Filed, ClaimAnswer.Paid, 99.99, true)]
    [InlineData(ClaimState.Filed, ClaimAnswer.Paid, 100.0, false)]
    [InlineData(ClaimState.Filed, ClaimAnswer.Offered, 40.0, false)]
    [InlineData(ClaimState.Filed, ClaimAnswer.Acknowledged, null, false)]
    [InlineData(ClaimState.Agreed, ClaimAnswer.Paid, 40.0, false)]
    [InlineData(ClaimState.Agreed, ClaimAnswer.Paid, 39.0, true)]
    [InlineData(ClaimState.Paid, ClaimAnswer.Paid, 100.0, true)]
    public void A_reason_is_asked_for_where_the_shipper_gets_less_than_was_asked_or_agreed(ClaimState state, ClaimAnswer answer, double? sum, bool needed)
    {
        var stands = Standing(state);
        var command = Answer(stands, answer, (decimal?)sum) with { Reason = "  " };
        Assert.Equal(needed ? new AnswerWithoutReason() : null, Decide(stands, command).Refusal);
        Assert.Equal("Tender was late.", Assert.IsType<ClaimAnswered>(Assert.Single(Decide(stands, command with { Reason = " Tender was late. " }).Events)).Reason);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(-1.0)]
    [InlineData(100.01)]
    [InlineData(10.001)]
    [InlineData(null)]
    public void A_sum_lies_between_a_cent_and_what_is_claimed(double? sum) =>
        Assert.Equal(new ImpossibleSum(Money.Dollars(100)), Decide(Standing(ClaimState.Filed), Answer(Standing(ClaimState.Filed), ClaimAnswer.Offered, (decimal?)sum)).Refusal);

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, true)]
    [InlineData(1, true)]
    [InlineData(2, false)]
    public void The_day_of_an_answer_lies_between_the_claim_and_today(int daysAfter, bool possible)
    {
        var command = Answer(Standing(ClaimState.Filed), ClaimAnswer.Acknowledged, null) with { AnsweredOn = FiledOn.AddDays(daysAfter), At = Filed };
        Assert.Equal(possible ? null : new ImpossibleAnswerDay(), Decide(Standing(ClaimState.Filed), command).Refusal);
    }

    [Fact]
    public void Who_had_not_seen_the_last_step_is_told_whose_it_was_and_a_form_sent_twice_does_nothing_twice()
    {
        var stands = Standing(ClaimState.Offered);
        Assert.Equal(new ClaimMovedOn(Evening.Reviewer), Decide(stands, Answer(stands, ClaimAnswer.Paid, 100) with { Seen = 1 }).Refusal);
        Assert.Equal(new ClaimMovedOn(Evening.Reviewer), Decide(stands, new AcceptClaimOffer(ClaimId, 1, Evening.Clerk, Filed)).Refusal);
        Assert.Equal(new ClaimMovedOn(Evening.Reviewer), Decide(stands, new WithdrawClaim(ClaimId, 1, "No.", Evening.Clerk, Filed)).Refusal);
        var accept = new AcceptClaimOffer(ClaimId, stands.Claims[0].Revision, Evening.Clerk, Filed);
        var agreed = After(stands, Decide(stands, accept).Events);
        Assert.Equal((ClaimState.Agreed, 40m, Evening.Clerk), (agreed.Claims[0].State, agreed.Claims[0].Agreed!.Amount.Amount, agreed.Claims[0].LastBy));
        Assert.Equal((null, 0), (Decide(agreed, accept).Refusal, Decide(agreed, accept).Events.Count));
        var sent = Answer(agreed, ClaimAnswer.Paid, 40);
        Assert.Empty(Decide(After(agreed, Decide(agreed, sent).Events), sent).Events);
    }

    [Fact]
    public void What_is_not_there_cannot_be_answered_taken_or_withdrawn()
    {
        Assert.Equal(new NoSuchClaim(), Decide(Harmed, Answer(Standing(ClaimState.Filed), ClaimAnswer.Acknowledged, null)).Refusal);
        Assert.Equal(new NoSuchClaim(), Decide(Harmed, new AcceptClaimOffer(ClaimId, 1, Evening.Clerk, Filed)).Refusal);
        Assert.Equal(new NoSuchClaim(), Decide(null, new WithdrawClaim(ClaimId, 1, "No.", Evening.Clerk, Filed)).Refusal);
        Assert.Equal(new ClaimStandsSo(ClaimState.Filed), Decide(Standing(ClaimState.Filed), new AcceptClaimOffer(ClaimId, 1, Evening.Clerk, Filed)).Refusal);
        Assert.Equal(new ClaimStandsSo(ClaimState.Paid), Decide(Standing(ClaimState.Paid), new WithdrawClaim(ClaimId, 2, "No.", Evening.Clerk, Filed)).Refusal);
    }

    /// <summary>Largest remainders: the parts add up to the cent, none is a cent from its exact share, none above what was asked.</summary>
    [Fact]
    public void A_sum_is_divided_among_the_lines_to_the_cent()
    {
        Gen.Select(Gen.Int[1, 100_000_000], Gen.Int[1, 100_000_000], Gen.Double[0, 1]).Sample((first, second, share) =>
        {
            var pickup = Harmed with { Outcome = Recorded(new("A1", 6, OutcomeKind.Refused), new("B2", 2, OutcomeKind.Refused)) };
            var claimed = After(pickup, Decide(pickup, File(("A1", 6, first / 100m), ("B2", 2, second / 100m))).Events);
            var asked = (long)first + second;
            var sum = Math.Max(1, (long)(share * asked));
            var paid = Assert.IsType<ClaimAnswered>(Assert.Single(Decide(claimed, Answer(claimed, ClaimAnswer.Offered, sum / 100m)).Events));
            Assert.Equal(sum, paid.Lines.Sum(line => line.Amount.Cents));
            foreach (var (line, of) in paid.Lines.Zip([first, second]))
            {
                Assert.InRange(line.Amount.Cents, 0, of);
                Assert.True(Math.Abs(line.Amount.Cents - ((decimal)sum * of / asked)) < 1, $"{line} of {of}");
            }
        });
    }

    private static FileClaim File(params (string Reference, int Count, decimal Sum)[] lines) => new(
        ClaimId, "C-4K7Q2M", OutcomeId, FiledOn, [.. lines.Select(line => new ClaimedLine(line.Reference, line.Count, Money.Dollars(line.Sum)))], " Two of six. ", new ClaimTerms(), Evening.Clerk, Filed);

    private static AnswerClaim Answer(Pickup state, ClaimAnswer answer, decimal? sum) => new(
        ClaimId, state.Claims[0].Revision, Guid.NewGuid(), answer, FiledOn, sum, null, new ClaimTerms(), Evening.Reviewer, Filed.AddDays(40));

    /// <summary>A claim for 100 dollars that has come so far.</summary>
    private static Pickup Standing(ClaimState state)
    {
        var filed = After(Harmed, Decide(Harmed, File(("A1", 2, 100))).Events);
        return state switch
        {
            ClaimState.Filed => filed,
            ClaimState.Acknowledged => Answered(filed, ClaimAnswer.Acknowledged, null),
            ClaimState.Offered => Answered(filed, ClaimAnswer.Offered, 40),
            ClaimState.Agreed => Standing(ClaimState.Offered) is var offered ? After(offered, Decide(offered, new AcceptClaimOffer(ClaimId, 2, Evening.Clerk, Filed)).Events) : null!,
            ClaimState.Disallowed => Answered(filed, ClaimAnswer.Disallowed, null),
            ClaimState.Paid => Answered(filed, ClaimAnswer.Paid, 100),
            ClaimState.Withdrawn => After(filed, Decide(filed, new WithdrawClaim(ClaimId, 1, "Found.", Evening.Clerk, Filed)).Events),
        };
    }

    private static Pickup Answered(Pickup state, ClaimAnswer answer, decimal? sum, DateOnly? on = null) =>
        After(state, Decide(state, Answer(state, answer, sum) with { AnsweredOn = on ?? FiledOn, Reason = "As seen.", At = Filed.AddDays(90) }).Events);

    private static OutcomeRecorded Recorded(params UnitOutcome[] units)
    {
        var day = DateOnly.FromDateTime(Delivered.UtcDateTime);
        return new(Evening.PickupId, OutcomeId, day, units, ClaimDeadlines.Of(day, new(), []), null, null, Evening.Reviewer, Delivered);
    }

    private static Decision<PickupEvent> Decide(Pickup? state, FileClaim command) => ClaimDecisions.Decide(state, command);

    private static Decision<PickupEvent> Decide(Pickup? state, AnswerClaim command) => ClaimDecisions.Decide(state, command);

    private static Decision<PickupEvent> Decide(Pickup? state, AcceptClaimOffer command) => ClaimDecisions.Decide(state, command);

    private static Decision<PickupEvent> Decide(Pickup? state, WithdrawClaim command) => ClaimDecisions.Decide(state, command);

    private static Pickup After(Pickup? state, IEnumerable<PickupEvent> events) => events.Aggregate(state, Pickup.Evolve)!;
}
