using CsCheck;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

public class HabitsTests
{
    private static readonly Gen<StopCount[]> AnyHistory =
        Gen.Select(Gen.Int[0, 127], Gen.Long[0, 20], (bits, lines) => new StopCount([.. "abcdefg".Where((_, i) => (bits & (1 << i)) != 0).Select(c => c.ToString())], lines)).Array[0, 20];

    [Fact]
    public void No_other_three_would_free_more() => AnyHistory.Sample(history =>
    {
        var habits = Habits.Of(history);
        var most = 0L;
        for (var bits = 0; bits < 128; bits++)
        {
            if (System.Numerics.BitOperations.PopCount((uint)bits) <= 3)
                most = Math.Max(most, Frees(history, [.. "abcdefg".Where((_, i) => (bits & (1 << i)) != 0).Select(c => c.ToString())]));
        }

        Assert.Equal(most, habits.Freed);
        Assert.Equal(habits.Freed, Frees(history, [.. habits.Best.Select(habit => habit.Code)]));
        foreach (var habit in habits.Best)
        {
            Assert.Equal(Frees(history, [habit.Code]), habit.AloneFrees);
            Assert.Equal(history.Where(count => count.Stops.Contains(habit.Code)).Sum(count => count.Lines), habit.Stopped);
        }
    });

    [Fact]
    public void Findings_that_only_stop_together_are_cured_together()
    {
        // Each alone frees nothing: whoever looks at one at a time would never find the pair.
        var habits = Habits.Of([new(["height", "overhang"], 9), new(["wrap-turns"], 2), new([], 40)]);
        Assert.Equal(11, habits.Held);
        Assert.Equal(11, habits.Freed);
        Assert.Equal(["wrap-turns", "height", "overhang"], habits.Best.Select(habit => habit.Code));
        Assert.Equal([2, 0, 0], habits.Best.Select(habit => habit.AloneFrees));
        Assert.Equal([2, 2, 11], habits.Best.Select(habit => habit.TogetherFrees));
        Assert.Equal([0, 9, 9], habits.Best.Select(habit => habit.NotAlone));
    }

    [Fact]
    public void What_adds_nothing_is_not_advised() => Assert.Equal(["overhang"], Habits.Of([new(["overhang"], 4)]).Best.Select(habit => habit.Code));

    [Fact]
    public void Where_no_three_would_do_the_commonest_is_where_to_begin()
    {
        var habit = Assert.Single(Habits.Of([new(["a", "b", "c", "d"], 3), new(["b", "c", "d", "e"], 2)]).Best);
        Assert.Equal(("b", 5, 0), (habit.Code, habit.Stopped, habit.AloneFrees));
    }

    [Fact]
    public void Nothing_stopped_needs_no_habit()
    {
        var habits = Habits.Of([new([], 12)]);
        Assert.Equal((0, 0), (habits.Held, habits.Freed));
        Assert.Empty(habits.Best);
    }

    private static long Frees(StopCount[] history, string[] codes) => history.Where(count => count.Stops.Count > 0 && count.Stops.All(codes.Contains)).Sum(count => count.Lines);
}
