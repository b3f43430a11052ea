using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Outcomes;

public class OutcomeTests
{
    private static readonly Guid First = new("0198a1c0-0000-7000-8000-0000000000c1");
    private static readonly Guid Second = new("0198a1c0-0000-7000-8000-0000000000c2");
    private static readonly DateOnly Day = DateOnly.FromDateTime(Evening.At.UtcDateTime).AddDays(3);

    private static readonly Pickup Submitted = Given(null, Pickup.Decide(null, Evening.Submit(Freight.Sound with { Quantity = 4 })).Events);

    [Fact]
    public void Given_a_pickup_when_every_unit_is_accounted_for_then_the_outcome_is_recorded_with_its_deadlines()
    {
        var recorded = Recorded(Submitted, Record(new UnitOutcome("A1", 3, OutcomeKind.Clean), Crushed(1)));
        Assert.Equal((First, Day, false), (recorded.OutcomeId, recorded.DeliveredOn, recorded.IsClean));
        Assert.Equal(ClaimDeadlines.Of(Day, new(), []), recorded.Deadlines);
        Assert.Equal(recorded, Given(Submitted, [recorded]).Outcome);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(int.MaxValue)]
    public void Given_a_pickup_when_units_are_left_out_or_told_twice_then_it_is_refused_with_the_numbers(int count)
    {
        var refused = Outcome.Decide(Submitted, Record(new UnitOutcome("A1", count, OutcomeKind.Clean), new UnitOutcome("A1", 0, OutcomeKind.Short)));
        Assert.Equal(new UnitsUnaccounted("A1", 4, count), refused.Refusal);
        Assert.StartsWith("A1 has 4 units, and you account for ", refused.Refusal!.Message.ToString(), StringComparison.Ordinal);
        Assert.Empty(refused.Events);
    }

    [Fact]
    public void Given_a_pickup_when_a_line_is_named_that_it_has_not_then_it_is_refused() =>
        Assert.Equal(new NoSuchLine("B9"), Outcome.Decide(Submitted, Record(new UnitOutcome("A1", 4, OutcomeKind.Clean), new UnitOutcome("B9", 1, OutcomeKind.Clean))).Refusal);

    public static TheoryData<UnitOutcome> Unclear => new(
        new UnitOutcome("A1", 4, OutcomeKind.Damaged),
        new UnitOutcome("A1", 4, OutcomeKind.Damaged, DamagePlace.Top),
        new UnitOutcome("A1", 4, OutcomeKind.Clean, DamagePlace.Top, DamageManner.Crushed));

    [Theory]
    [MemberData(nameof(Unclear))]
    public void Given_a_pickup_when_damage_is_told_without_where_and_how_or_where_there_is_none_then_it_is_refused(UnitOutcome unclear) =>
        Assert.Equal(new DamageUnclear("A1"), Outcome.Decide(Submitted, Record(unclear)).Refusal);

    [Theory]
    [InlineData(-2)]
    [InlineData(6)]
    public void Given_a_pickup_when_it_is_said_to_be_delivered_before_it_was_submitted_or_after_now_then_it_is_refused(int daysAfter)
    {
        var command = Record(new UnitOutcome("A1", 4, OutcomeKind.Clean)) with { DeliveredOn = DateOnly.FromDateTime(Evening.At.UtcDateTime).AddDays(daysAfter) };
        Assert.Equal(new ImpossibleDeliveryDay(), Outcome.Decide(Submitted, command).Refusal);
    }

    [Fact]
    public void Given_no_pickup_when_an_outcome_is_recorded_then_it_is_refused() =>
        Assert.Equal(new NoSuchPickup(), Outcome.Decide(null, Record(new UnitOutcome("A1", 4, OutcomeKind.Clean))).Refusal);

    [Fact]
    public void Given_an_outcome_when_it_is_sent_again_then_nothing_is_doubled()
    {
        var command = Record(new UnitOutcome("A1", 4, OutcomeKind.Clean));
        var again = Outcome.Decide(Given(Submitted, [Recorded(Submitted, command)]), command);
        Assert.Null(again.Refusal);
        Assert.Empty(again.Events);
    }

    [Fact]
    public void Given_an_outcome_when_somebody_who_had_not_seen_it_records_another_then_they_are_told_whose_stands()
    {
        var standing = Recorded(Submitted, Record(new UnitOutcome("A1", 4, OutcomeKind.Clean)));
        var refused = Outcome.Decide(Given(Submitted, [standing]), Record(Crushed(4)) with { OutcomeId = Second });
        Assert.Equal(new OutcomeStands(standing), refused.Refusal);
        Assert.StartsWith("Sam Marsh", refused.Refusal!.Message.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Given_an_outcome_when_it_is_replaced_then_a_reason_is_asked_for_and_kept()
    {
        var state = Given(Submitted, [Recorded(Submitted, Record(new UnitOutcome("A1", 4, OutcomeKind.Clean)))]);
        var better = Record(Crushed(4)) with { OutcomeId = Second, Supersedes = First };

        Assert.Equal(new SupersededWithoutReason(), Outcome.Decide(state, better with { Reason = " " }).Refusal);
        var replaced = Recorded(state, better with { Reason = " The consignee opened it. " });

        Assert.Equal((First, "The consignee opened it."), (replaced.Supersedes!.Value, replaced.Reason));
        Assert.Equal(Second, Given(state, [replaced]).Outcome!.OutcomeId);
    }

    [Fact]
    public void Given_held_freight_when_nobody_has_decided_then_only_that_it_stayed_is_recorded()
    {
        var held = Record(new UnitOutcome("A1", 4, OutcomeKind.Clean)) with { Undecided = ["A1"] };

        Assert.Equal(new HeldUndecided("A1"), Outcome.Decide(Submitted, held).Refusal);
        Assert.Null(Outcome.Decide(Submitted, held with { Undecided = ["B2"] }).Refusal);
        Assert.Null(Outcome.Decide(Submitted, held with { Units = [new UnitOutcome("A1", 4, OutcomeKind.Stayed)] }).Refusal);
        // What is wrong in the record is put right whatever was held since.
        var state = Given(Submitted, [Recorded(Submitted, Record(new UnitOutcome("A1", 4, OutcomeKind.Clean)))]);
        Assert.Null(Outcome.Decide(state, held with { OutcomeId = Second, Supersedes = First, Reason = "Counted again." }).Refusal);
    }

    private static UnitOutcome Crushed(int count) => new("A1", count, OutcomeKind.Damaged, DamagePlace.Corner, DamageManner.Crushed, Concealed: true);

    private static RecordOutcome Record(params UnitOutcome[] units) =>
        new(First, Day, units, new ClaimTerms(), [], null, null, Evening.Reviewer, Evening.At.AddDays(4));

    private static OutcomeRecorded Recorded(Pickup state, RecordOutcome command) => Assert.IsType<OutcomeRecorded>(Assert.Single(Outcome.Decide(state, command).Events));

    private static Pickup Given(Pickup? state, IEnumerable<PickupEvent> events) => events.Aggregate(state, Pickup.Evolve)!;
}
