using System.Globalization;
using Fettle.Engineering.TrailerFloor;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class SkylineBeamTests
{
    private const int PerFloor = 6;

    private static List<Standing>? Fit(SkylineBeam beam, Strip strip, long length, int size, int perFloor = PerFloor)
    {
        var work = long.MaxValue;
        var standings = beam.Fit(length, size, perFloor, ref work);
        Assert.True(work < long.MaxValue || standings is null);
        if (standings is not null)
            StandingCheck.AllStand(strip, standings, length);
        return standings;
    }

    /// <summary>The shortest length that a beam finds, beating what it found again and again, and the work spent.</summary>
    private static (long Length, long Work) Shortest(Strip strip, int size, int perFloor = PerFloor)
    {
        var beam = new SkylineBeam(strip);
        var length = strip.Stances.GroupBy(s => s.Kind).Sum(k => strip.Counts[k.Key] * k.Min(s => s.Along)) + 1;
        var left = 1L << 40;
        while (beam.Fit(length - 1, size, perFloor, ref left) is { } standings)
        {
            StandingCheck.AllStand(strip, standings, length - 1);
            length = standings.Max(s => s.Along + s.Stance.Along);
        }

        return (length, (1L << 40) - left);
    }

    [Fact]
    public void A_wide_beam_finds_the_shortest_length_of_small_floors_and_none_finds_less()
    {
        foreach (var (strip, shortest) in StandingCheck.Small(seed: 1, times: 250))
        {
            var beam = new SkylineBeam(strip);
            Assert.Null(Fit(beam, strip, shortest - 1, 64));
            Assert.NotNull(Fit(beam, strip, shortest, 64));
        }
    }

    [Fact]
    public void Nothing_fits_in_less_than_its_area()
    {
        var strip = Strip(4, (2, 2, 4, true));
        var work = 1_000L;
        Assert.Null(new SkylineBeam(strip).Fit(3, 8, PerFloor, ref work));
        Assert.Equal(1_000, work);
        Assert.NotNull(Fit(new SkylineBeam(strip), strip, 4, 1));
    }

    [Fact]
    public void Without_work_left_nothing_is_found()
    {
        var strip = Strip(4, (2, 2, 4, true));
        var work = 0L;
        Assert.Null(new SkylineBeam(strip).Fit(4, 8, PerFloor, ref work));
        work = 1;
        Assert.Null(new SkylineBeam(strip).Fit(4, 8, PerFloor, ref work));
    }

    [Fact]
    public void A_beam_used_before_finds_what_a_new_one_does()
    {
        foreach (var strip in StandingCheck.Mixes(7, 6, 4, 5))
        {
            var used = new SkylineBeam(strip);
            var bound = (long)WidthMeasure.All(strip).Max(m => m.Total);
            foreach (var (length, size) in ((long, int)[])[(bound + 90, 2), (bound + 10, 16), (bound, 4), (bound + 60, 16), (bound + 30, 1)])
                Assert.Equal(Fit(new SkylineBeam(strip), strip, length, size), Fit(used, strip, length, size));
        }
    }

    // Mixes of platforms. Longer in all than this, or more work, and the choice of what goes on has become worse.
    [Theory]
    [InlineData(1, 3, 1, 4188, 20_453)]
    [InlineData(1, 3, 8, 4088, 244_600)]
    [InlineData(2, 5, 1, 5534, 27_010)]
    [InlineData(2, 5, 4, 5486, 183_125)]
    [InlineData(3, 9, 16, 9558, 2_049_577)]
    [InlineData(4, 12, 2, 12_652, 217_684)]
    public void Mixes_take_no_more_length_or_work_than_they_did(int seed, int kinds, int size, long mostLength, long mostWork)
    {
        var (length, work) = (0L, 0L);
        foreach (var strip in StandingCheck.Mixes(seed, 10, kinds, 4))
        {
            var (one, spent) = Shortest(strip, size);
            (length, work) = (length + one, work + spent);
        }

        Assert.True(length <= mostLength && work <= mostWork, $"{length} long, {work} of work");
    }

    // Hopper and Turton 2001: area = width × optimum, nothing may be wasted.
    [Theory]
    [InlineData("C1P1", 32, 21, 200_190)]
    [InlineData("C1P2", 32, 20, 72_443)]
    [InlineData("C1P3", 32, 20, 128_665)]
    [InlineData("C2P1", 16, 16, 299_809)]
    public void Published_strips_take_no_more_length_or_work_than_they_did(string name, int size, long mostLength, long mostWork)
    {
        var rows = DataFile.Rows("hopper-turton-c.csv").Where(row => row[0] == name)
            .Select(row => row[1..].Select(c => long.Parse(c, CultureInfo.InvariantCulture)).ToArray()).ToList();
        var (length, work) = Shortest(Strip(rows[0][0], [.. rows.Select(r => (r[2], r[3], (int)r[4], true))]), size);
        Assert.True(length <= mostLength && work <= mostWork, $"{length} long, {work} of work");
    }

    // Sides with nothing in common make rugged floors.
    [Theory]
    [InlineData(1, 1, 6315, 89_479)]
    [InlineData(2, 4, 7452, 638_742)]
    [InlineData(3, 16, 6000, 2_590_224)]
    public void Arbitrary_sides_take_no_more_length_or_work_than_they_did(int seed, int size, long mostLength, long mostWork)
    {
        var random = new Random(seed);
        var (length, work) = (0L, 0L);
        for (var i = 0; i < 8; i++)
        {
            var strip = Strip(500, [.. Enumerable.Range(0, 20).Select(_ => ((long)random.Next(20, 200), (long)random.Next(20, 200), random.Next(1, 3), random.Next(4) > 0))]);
            var (one, spent) = Shortest(strip, size);
            (length, work) = (length + one, work + spent);
        }

        Assert.True(length <= mostLength && work <= mostWork, $"{length} long, {work} of work");
    }
}
