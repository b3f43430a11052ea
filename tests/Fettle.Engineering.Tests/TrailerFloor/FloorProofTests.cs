using Fettle.Engineering.TrailerFloor;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class FloorProofTests
{
    private static (Verdict Verdict, long Used) Fit(Strip strip, long length, long work = 1_000_000)
    {
        var left = work;
        var (verdict, standings) = FloorProof.Fit(strip, strip.AlongSums(length), WidthMeasure.All(strip), length, ref left);
        if (verdict == Verdict.Fit)
            StandingCheck.AllStand(strip, standings, length);
        else
            Assert.Empty(standings);
        return (verdict, work - left);
    }

    [Fact]
    public void Units_fit_in_the_length_that_trying_everything_finds_and_in_none_shorter()
    {
        foreach (var (strip, shortest) in StandingCheck.Small(seed: 1, times: 250))
        {
            Assert.Equal(Verdict.Fit, Fit(strip, shortest).Verdict);
            Assert.Equal(Verdict.Fit, Fit(strip, shortest + 1).Verdict);
            Assert.Equal(Verdict.DoNotFit, Fit(strip, shortest - 1).Verdict);
        }
    }

    [Fact]
    public void On_a_wider_floor_too()
    {
        foreach (var (strip, shortest) in StandingCheck.Small(seed: 2, times: 60, width: 7).Concat(StandingCheck.Small(seed: 3, times: 20, width: 9)))
        {
            Assert.Equal(Verdict.Fit, Fit(strip, shortest).Verdict);
            Assert.Equal(Verdict.DoNotFit, Fit(strip, shortest - 1).Verdict);
        }
    }

    // By hand: two of 3 by 1 lie one behind the other with the 3 across; what is left beside the first is as wide as a unit that
    // is too long for it, and stays bare.
    [Fact]
    public void A_place_may_stay_bare_though_something_is_narrow_enough_for_it()
    {
        Assert.Equal(Verdict.Fit, Fit(Strip(5, (3, 1, 2, true)), 2).Verdict);
        Assert.Equal(Verdict.DoNotFit, Fit(Strip(5, (3, 1, 2, true)), 1).Verdict);
        Assert.Equal(Verdict.DoNotFit, Fit(Strip(5, (2, 2, 1, true)), 1).Verdict);
    }

    [Fact]
    public void Without_sums_or_work_nothing_is_known()
    {
        Assert.Equal((Verdict.Unknown, 0), Fit(TooManySums, 4));
        var strip = Strip(5, (2, 2, 1, true));
        var work = 1_000L;
        Assert.Equal(Verdict.Unknown, FloorProof.Fit(strip, null, WidthMeasure.All(strip), 2, ref work).Verdict);
        Assert.Equal(1_000, work);
        Assert.Equal(Verdict.Unknown, Fit(strip, 2, work: 0).Verdict);
        Assert.Equal(Verdict.Fit, Fit(strip, 2, work: 1).Verdict);
        // Of two in a row the second is not looked for with nothing left.
        Assert.Equal(Verdict.Unknown, Fit(Strip(3, (2, 2, 2, true)), 4, work: 1).Verdict);
        Assert.Equal(Verdict.Fit, Fit(Strip(3, (2, 2, 2, true)), 4, work: 2).Verdict);
    }

    // Found by drawing floors: what is bare behind steps that touch must be taken together here, also where they are equally far.
    [Fact]
    public void Bare_places_side_by_side_hold_more_than_each_alone()
    {
        Fits(19, 6, (7, 5, 2, true), (1, 11, 2, false));
        Fits(11, 25, (1, 7, 2, false), (6, 3, 2, false), (6, 10, 3, false));
        Fits(14, 20, (5, 11, 2, true), (5, 9, 2, false), (4, 8, 2, false));
        Fits(13, 12, (5, 11, 2, false), (7, 2, 2, false), (1, 6, 2, false));
        Fits(11, 11, (2, 6, 3, true), (6, 2, 3, false), (3, 7, 2, false));
        Fits(14, 12, (3, 11, 2, true), (3, 9, 2, true), (7, 6, 1, true));

        static void Fits(long width, long length, params (long, long, int, bool)[] kinds) =>
            Assert.Equal((Verdict.Fit, Verdict.DoNotFit), (Fit(Strip(width, kinds), length).Verdict, Fit(Strip(width, kinds), length - 1).Verdict));
    }

    // Where a beam has found a way, a proof must find one too, and none in a length that no beam finds and the proof rules out:
    // platforms, and arbitrary sides that leave gaps between the widths that can be filled.
    [Fact]
    public void What_a_beam_found_to_fit_is_found_to_fit()
    {
        var random = new Random(14);
        IEnumerable<Strip> arbitrary = [.. Enumerable.Range(0, 60).Select(_ => Strip(100, [.. Enumerable.Range(0, random.Next(2, 5)).Select(_ =>
            ((long)random.Next(15, 60), (long)random.Next(15, 60), random.Next(1, 4), random.Next(3) > 0))]))];
        foreach (var strip in StandingCheck.Mixes(21, 20, 3, 3).Concat(StandingCheck.Mixes(22, 20, 4, 2)).Concat(arbitrary))
        {
            var (beam, work) = (new SkylineBeam(strip), 1L << 40);
            var length = strip.Stances.GroupBy(s => s.Kind).Sum(k => strip.Counts[k.Key] * k.Min(s => s.Along)) + 1;
            while (beam.Fit(length - 1, 16, 6, ref work) is { } standings)
                length = standings.Max(s => s.Along + s.Stance.Along);
            Assert.NotEqual(Verdict.DoNotFit, Fit(strip, length, 100_000).Verdict);
        }
    }

    // Mixes of platforms, up to four of each: how many of the lengths that units end to end can make are too short, from what they
    // take at least. More work than this means that something no longer cuts the search short.
    [Theory]
    [InlineData(1, 3, 6, 7162)]
    [InlineData(2, 3, 9, 13_119)]
    [InlineData(3, 3, 8, 3377)]
    [InlineData(4, 3, 10, 8308)]
    [InlineData(5, 4, 22, 95_298)]
    [InlineData(6, 2, 2, 323)]
    public void A_proof_takes_no_more_work_than_it_did(int seed, int kinds, int lengthsTooShort, long mostWork)
    {
        var (tooShort, work) = (0, 0L);
        foreach (var strip in StandingCheck.Mixes(seed, 12, kinds, 4))
        {
            var bound = (long)Math.Ceiling(WidthMeasure.All(strip).Max(m => m.Total) * (1 - 1e-9));
            foreach (var length in strip.AlongSums(bound + 200)!.Where(s => s >= bound).Take(6))
            {
                var (verdict, used) = Fit(strip, length);
                work += used;
                if (verdict == Verdict.Fit)
                    break;
                tooShort++;
            }
        }

        Assert.True(tooShort == lengthsTooShort && work <= mostWork, $"{tooShort} too short, {work} of work");
    }

    // Thin things make many steps, which count: 38 of them, 24 in by area.
    [Fact]
    public void Looking_through_many_steps_is_work()
    {
        var (verdict, used) = Fit(Strip(60, (7, 4, 20, false), (9, 6, 12, false), (8, 5, 6, false)), 27);
        Assert.Equal(Verdict.DoNotFit, verdict);
        Assert.InRange(used, 15_000, 15_960);
    }
}
