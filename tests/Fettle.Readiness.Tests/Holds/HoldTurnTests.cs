using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;
using static Fettle.Readiness.Tests.Holds.HeldFreight;

namespace Fettle.Readiness.Tests.Holds;

public class HoldTurnTests
{
    [Fact]
    public void The_shipper_acts_first_and_the_terminal_when_an_exception_was_asked_for()
    {
        // Film is among what stops it: twelve hours.
        Assert.Equal(new HoldTurn(HoldSide.Shipper, Evening.At, After(12)), Given(Placed)!.Turn);
        Assert.Equal(new HoldTurn(HoldSide.Terminal, Evening.At, After(8)), Given(PlacedWithRequest)!.Turn);
    }

    [Fact]
    public void No_time_ends_after_the_truck_has_left()
    {
        var placed = Placed with { DecideBy = After(3) };
        Assert.Equal(After(3), Given(placed)!.Turn!.By);
        // Whoever gets the turn afterwards has their own hours.
        Assert.Equal(After(4 + 8), Given(placed, Wrote(HoldSide.Shipper, 4))!.Turn!.By);
    }

    [Fact]
    public void Whoever_is_written_to_has_the_turn()
    {
        Assert.Equal(new HoldTurn(HoldSide.Terminal, After(1), After(9)), Given(Placed, Wrote(HoldSide.Shipper, 1))!.Turn);
        Assert.Equal(new HoldTurn(HoldSide.Shipper, After(2), After(14)), Given(Placed, Wrote(HoldSide.Shipper, 1), Wrote(HoldSide.Terminal, 2, 2))!.Turn);
    }

    [Fact]
    public void To_be_written_to_once_more_gives_no_new_time_unless_it_was_over()
    {
        var first = Given(Placed, Wrote(HoldSide.Terminal, 1), Offered(2))!.Turn!;
        Assert.Equal((HoldSide.Shipper, Evening.At, After(12)), (first.Side, first.Since, first.By));
        var late = Given(Placed, Offered(13))!.Turn!;
        // Both sides' hours together, counted from the placing, are over then.
        Assert.Equal((HoldSide.Shipper, After(13), After(20)), (late.Side, late.Since, late.By));
    }

    public static TheoryData<HoldEvent> Answers =>
    [
        new ReworkAuthorised(HoldId, Id(3), Id(2), Money.Dollars(85), Evening.Clerk, After(3)),
        new HoldExceptionRequested(HoldId, Id(3), "Rides alone.", Evening.Clerk, After(3)),
        new HoldDisputed(HoldId, Id(3), "The tape was read wrongly.", [], Evening.Clerk, After(3)),
        new HoldDeclarationCorrected(HoldId, Id(3), Cured, [], Verdict.Ready, new("Common practice", 1), Evening.Clerk, After(3)),
    ];

    [Theory]
    [MemberData(nameof(Answers), DisableDiscoveryEnumeration = true)]
    public void Every_answer_of_the_shipper_gives_the_turn_to_the_terminal(HoldEvent answer) =>
        Assert.Equal(new HoldTurn(HoldSide.Terminal, After(3), After(11)), Given(Placed, Offered(2), answer)!.Turn);

    [Fact]
    public void An_offer_that_is_withdrawn_leaves_the_terminal_to_act() =>
        Assert.Equal(HoldSide.Terminal, Given(Placed, Offered(2), new ReworkOfferWithdrawn(HoldId, Id(2), "No film.", Evening.Reviewer, After(3)))!.Turn!.Side);

    [Fact]
    public void After_a_decision_nobody_must_act_except_for_a_rework_which_the_terminal_inspects()
    {
        foreach (var decision in Enum.GetValues<HoldDecision>())
        {
            var hold = Given(Placed, Decided(decision, 2))!;
            Assert.False(hold.IsOpen);
            Assert.Equal(decision == HoldDecision.Rework ? new HoldTurn(HoldSide.Terminal, After(2), After(26)) : null, hold.Turn);
            Assert.Equal(decision == HoldDecision.Rework, hold.AwaitsInspection);
            // To talk about it afterwards changes nothing.
            Assert.Equal(hold.Turn?.Side, Given(Placed, Decided(decision, 2), Wrote(HoldSide.Shipper, 3))!.Turn?.Side);
        }
    }

    [Fact]
    public void An_inspection_after_rework_waits_for_a_decision_that_supersedes_it()
    {
        var inspected = Given(Placed, Decided(HoldDecision.Rework, 2), new HoldInspected(HoldId, Id(4), Verdict.Ready, Evening.Reviewer, After(5)))!;
        Assert.False(inspected.AwaitsInspection);
        Assert.Equal(new HoldTurn(HoldSide.Terminal, After(5), After(13)), inspected.Turn);
        Assert.Null(Hold.Evolve(inspected, Decided(HoldDecision.Release, 6, 10))!.Turn);
    }

    [Theory]
    [InlineData(FindingCodes.Overhang, 24)]
    [InlineData(FindingCodes.WrapTurns, 12)]
    [InlineData(FindingCodes.CornerBoards, 12)]
    [InlineData(FindingCodes.WeightMismatch, 8)]
    [InlineData(FindingCodes.InconsistentDimensions, 8)]
    [InlineData(FindingCodes.Regulated, 4)]
    [InlineData(FindingCodes.TreatmentMark, 4)]
    public void The_reason_says_how_long_the_shipper_has(string code, int hours) =>
        Assert.Equal(hours, HoldHours.Of(new HoldLimits(), [Stop(code)]).Shipper);

    [Fact]
    public void For_several_reasons_the_shortest_time_counts_and_what_does_not_stop_it_does_not()
    {
        Assert.Equal(8, HoldHours.Of(new HoldLimits(), [Stop(FindingCodes.Overhang), Stop(FindingCodes.WeightMismatch)]).Shipper);
        Assert.Equal(24, HoldHours.Of(new HoldLimits(), [Stop(FindingCodes.Overhang), Stop(FindingCodes.Regulated) with { Severity = Severity.Caution }]).Shipper);
        Assert.Equal(new HoldHours(24, 8, 24, 2), HoldHours.Usual);
    }

    [Fact]
    public void A_carriers_own_hours_are_kept_with_the_hold()
    {
        var own = new HoldLimits { WrapHours = 3, TerminalHours = 1, ReworkHours = 5, RemindHours = 0 };
        var placed = Assert.Single(Hold.Place(Submitted(null), _ => HoldId, own, Evening.At));
        Assert.Equal(new HoldHours(3, 1, 5, 0), placed.Hours);
        Assert.Equal((After(4), After(3)), (placed.DecideBy, Given(placed)!.Turn!.By));
    }

    private static Finding Stop(string code) => Placed.Findings[0] with { Code = code, Severity = Severity.Stop };
}
