using Fettle.Readiness.Holds;
using Fettle.Readiness.Tests.Declarations;
using static Fettle.Readiness.Tests.Holds.HeldFreight;

namespace Fettle.Readiness.Tests.Holds;

/// <summary>What is due follows from the state and the moment; the job may come twice, late, or never.</summary>
public class HoldReminderTests
{
    [Theory]
    [InlineData(9.9, false)]
    [InlineData(10, true)]
    [InlineData(11.9, true)]
    public void Whoever_must_act_is_reminded_two_hours_before_their_time_ends(double hours, bool reminded)
    {
        var happened = Watched(Given(Placed), hours);
        if (reminded)
            Assert.Equal(new HoldReminded(HoldId, HoldSide.Shipper, Evening.At, After(12), After(hours)), Assert.Single(happened));
        else
            Assert.Empty(happened);
    }

    [Fact]
    public void With_less_time_the_reminder_goes_out_half_way()
    {
        var placed = Placed with { DecideBy = After(1) };
        Assert.Empty(Watched(Given(placed), 0.49));
        Assert.IsType<HoldReminded>(Assert.Single(Watched(Given(placed), 0.5)));
    }

    [Fact]
    public void It_goes_out_once_for_each_turn()
    {
        HoldEvent[] reminded = [Placed, .. Watched(Given(Placed), 10)];
        Assert.Empty(Watched(Given(reminded), 10));
        Assert.Empty(Watched(Given(reminded), 11.9));
        // The terminal's turn is another.
        HoldEvent[] answered = [.. reminded, Wrote(HoldSide.Shipper, 11)];
        var again = Assert.IsType<HoldReminded>(Assert.Single(Watched(Given(answered), 17.5)));
        Assert.Equal((HoldSide.Terminal, After(11)), (again.Side, again.Since));
    }

    [Fact]
    public void When_the_time_is_over_it_is_escalated_once_and_no_late_reminder_is_sent()
    {
        var late = Assert.IsType<HoldEscalated>(Assert.Single(Watched(Given(Placed), 40)));
        Assert.Equal((HoldSide.Shipper, Evening.At, After(12), After(40)), (late.Side, late.Since, late.By, late.At));
        Assert.Empty(Watched(Given(Placed, late), 41));
        Assert.IsType<HoldEscalated>(Assert.Single(Watched(Given(Placed), 12)));
    }

    [Fact]
    public void A_decision_ends_both_and_a_rework_is_watched_until_its_inspection()
    {
        Assert.Empty(Watched(Given(Placed, Decided(HoldDecision.Release, 9)), 40));
        Assert.IsType<HoldReminded>(Assert.Single(Watched(Given(Placed, Decided(HoldDecision.Rework, 9)), 32)));
    }

    [Fact]
    public void What_is_not_there_is_not_watched() => Assert.Empty(Watched(null, 40));

    [Fact]
    public void In_a_random_life_nobody_is_told_twice_for_one_turn_or_after_a_decision()
    {
        for (var life = 0; life < 200; life++)
        {
            var dice = new Random(life);
            List<HoldEvent> events = [Placed];
            for (var hours = 1; hours < 80; hours++)
            {
                var state = Given(events)!;
                var at = After(hours);
                switch (dice.Next(12))
                {
                    case 0:
                        events.Add(Wrote((HoldSide)dice.Next(2), hours, 1000 + hours));
                        break;
                    case 1 when state.IsOpen && dice.Next(4) == 0:
                        events.AddRange(Hold.Decide(state, new DecideHold(Id(2000 + hours), HoldDecision.Return, "As seen.", Evening.Reviewer, at)).Events);
                        break;
                    default:
                        events.AddRange(Watched(state, hours));
                        events.AddRange(Watched(Given(events), hours));
                        break;
                }
            }

            var told = events.Select(e => e switch { HoldReminded r => ("reminded", r.Side, r.Since), HoldEscalated r => ("escalated", r.Side, r.Since), _ => default }).Where(turn => turn != default).ToArray();
            Assert.Equal(told.Distinct(), told);
            var decision = events.FindIndex(e => e is HoldDecided);
            Assert.True(decision < 0 || !events.Skip(decision).Any(e => e is HoldReminded or HoldEscalated), $"life {life}");
        }
    }

    private static IReadOnlyList<HoldEvent> Watched(Hold? state, double hours)
    {
        var decision = Hold.Decide(state, new WatchHold(After(hours)));
        Assert.Null(decision.Refusal);
        return decision.Events;
    }
}
