using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.DockVisits;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.DockVisits;

public class DockVisitTests
{
    private static readonly Guid Id = new("0198a1c0-0000-7000-8000-0000000000b1");
    private static readonly VisitedBuild Tins = new(new("0198a1c0-0000-7000-8000-0000000000b2"), "Tins, four high", Freight.Sound);

    private static readonly AskForVisit Question = new(
        Id, "V-4K7Q2M", Evening.Header.ShipperId, Evening.Header.SiteId, Evening.Header.CarrierId, Evening.Header.TerminalId, " Does it travel? ", [Tins], " ", Evening.Clerk, Evening.At);

    private static readonly DockVisit Asked = Given(null, DockVisit.Decide(null, Question).Events);

    [Fact]
    public void Given_nothing_when_a_visit_is_asked_for_then_it_waits_for_a_plan()
    {
        Assert.Equal((DockVisitState.Asked, 1, "Does it travel?", null), (Asked.State, Asked.Revision, Asked.Asked.Question, Asked.Asked.Preferred));
        Assert.Empty(DockVisit.Decide(Asked, Question).Events);
    }

    [Fact]
    public void Given_a_visit_when_it_is_planned_and_planned_anew_then_the_later_plan_holds()
    {
        var planned = Given(Asked, DockVisit.Decide(Asked, Plan(1, 2)).Events);
        var moved = Given(planned, DockVisit.Decide(planned, Plan(2, 3)).Events);
        Assert.Equal((DockVisitState.Planned, Evening.At.AddDays(3)), (moved.State, moved.Planned!.From));
    }

    [Fact]
    public void Given_a_visit_when_it_is_planned_backwards_or_for_yesterday_then_it_is_refused()
    {
        Assert.Equal(new VisitIsPast(), DockVisit.Decide(Asked, Plan(1, -2)).Refusal);
        Assert.Equal(new VisitIsPast(), DockVisit.Decide(Asked, Plan(1, 2) with { To = Evening.At.AddDays(1) }).Refusal);
    }

    [Fact]
    public void Given_a_changed_visit_when_somebody_who_had_not_seen_the_change_acts_then_they_are_told_by_whom()
    {
        var planned = Given(Asked, DockVisit.Decide(Asked, Plan(1, 2)).Events);
        var told = new VisitChanged(Evening.Reviewer);
        Assert.Equal(told, DockVisit.Decide(planned, Plan(1, 4)).Refusal);
        Assert.Equal(told, DockVisit.Decide(planned, new CallVisitOff(1, "No.", Evening.Clerk, Evening.At)).Refusal);
        Assert.Equal(told, DockVisit.Decide(planned, Conclude(1)).Refusal);
    }

    [Fact]
    public void Given_a_concluded_visit_when_it_is_concluded_anew_then_the_later_word_holds_and_the_earlier_stays()
    {
        var concluded = Given(Asked, DockVisit.Decide(Asked, Conclude(1)).Events);
        Assert.IsType<VisitConcluded>(DockVisit.Decide(concluded, Plan(2, 2)).Refusal);
        var again = Given(concluded, DockVisit.Decide(concluded, Conclude(2, approved: false)).Events);
        Assert.Equal([true, false], again.Conclusions.Select(conclusion => conclusion.Verdicts[0].Approved));
        Assert.False(Assert.Single(BuildApproval.Of([again])).Approved);
    }

    [Fact]
    public void Given_a_visit_called_off_when_anything_is_done_about_it_then_it_is_refused_with_whose_word_that_was()
    {
        var off = Given(Asked, DockVisit.Decide(Asked, new CallVisitOff(1, "Nobody free.", Evening.Reviewer, Evening.At)).Events);
        Assert.Equal(new VisitCalledOff(off.CalledOff!), DockVisit.Decide(off, Plan(2, 2)).Refusal);
        Assert.Equal(new VisitCalledOff(off.CalledOff!), DockVisit.Decide(off, Conclude(2)).Refusal);
        Assert.StartsWith("Sam Marsh", new VisitCalledOff(off.CalledOff!).Message.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Given_a_visit_when_a_build_is_judged_that_it_was_not_about_then_it_is_refused() =>
        Assert.Equal(new NotAskedAbout("Jars"), DockVisit.Decide(Asked, Conclude(1) with { Verdicts = [new(Guid.Empty, "Jars", true, "Seen.")] }).Refusal);

    [Fact]
    public void Of_several_visits_the_last_word_about_a_build_holds_for_each_carrier()
    {
        var first = Given(Asked, DockVisit.Decide(Asked, Conclude(1)).Events);
        var asked = DockVisit.Decide(null, Question with { VisitId = Guid.Empty, At = Evening.At.AddDays(9) }).Events;
        var later = Given(null, asked);
        later = Given(later, DockVisit.Decide(later, Conclude(1, approved: false) with { At = Evening.At.AddDays(10) }).Events);
        var elsewhere = Given(null, DockVisit.Decide(null, Question with { CarrierId = Id }).Events);
        elsewhere = Given(elsewhere, DockVisit.Decide(elsewhere, Conclude(1)).Events);

        Assert.Equal([(Evening.Header.CarrierId, false), (Id, true)], BuildApproval.Of([later, first, elsewhere, Asked]).Select(said => (said.CarrierId, said.Approved)));
    }

    [Fact]
    public void A_line_is_a_build_again_whatever_it_is_called_and_whoever_built_it_within_a_scales_scatter()
    {
        var said = BuildApproval.Of([Given(Asked, DockVisit.Decide(Asked, Conclude(1)).Events)])[0];
        var limits = new WeightLimits();
        var again = Freight.Sound with { Reference = "Z7", Quantity = 12, BuiltBy = "Nell Tarn" };
        // 3 % of the build's weight, or 25 lb where that is less.
        var most = Mass.Min(Mass.FromPounds(25), Freight.Sound.GrossWeight * 0.03);

        Assert.True(said.IsFor(again with { GrossWeight = again.GrossWeight + most }, limits));
        Assert.True(said.IsFor(again with { GrossWeight = again.GrossWeight - most }, limits));
        Assert.False(said.IsFor(again with { GrossWeight = again.GrossWeight + most + Mass.FromPounds(0.1) }, limits));
        Assert.False(said.IsFor(again with { Stackable = !again.Stackable }, limits));
        Assert.False(said.IsFor(again with { Protection = Protection.None }, limits));
    }

    private static PlanVisit Plan(int seen, int inDays) => new(seen, Evening.At.AddDays(inDays), Evening.At.AddDays(inDays).AddHours(1), "Sam Marsh", null, Evening.Reviewer, Evening.At);

    private static ConcludeVisit Conclude(int seen, bool approved = true) => new(seen, "Four high travels.", [new(Tins.EntryId, Tins.Name, approved, "Seen and shaken.")], [], Evening.Reviewer, Evening.At.AddDays(2));

    private static DockVisit Given(DockVisit? state, IEnumerable<DockVisitEvent> events) => events.Aggregate(state, DockVisit.Evolve)!;
}
