using System.Globalization;
using Fettle.Engineering.MixedCartons;
using Fettle.Engineering.Units;

namespace Fettle.Benchmarks.MixedCartons;

/// <summary>Random mixes of cartons on a 48 × 40 in deck up to 60 in and 2,000 lb: some that fill part of the room, some too much for it.</summary>
internal static class MixedLoadBenchmark
{
    private const int Number = 200;

    private static readonly PalletRoom room = new(Length.FromInches(48), Length.FromInches(40), Length.FromInches(60), Mass.FromPounds(2000));

    public static void Run(TextWriter output)
    {
        var random = new Random(1);
        for (var i = 0; i < 30; i++)
            MixedLoadBuilder.Build(Mix(random, 10, 0.5, 6), room);
        output.WriteLine("| lines | heights | cartons would fill | all placed | mean cube used | mean flat top | median ms | 90 % under ms | worst ms |");
        output.WriteLine("| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (var heights in (int[])[6, 2])
        {
            foreach (var (kinds, volume) in ((int, double)[])[(3, 0.6), (8, 0.6), (26, 0.5), (26, 0.6), (26, 0.7), (26, 1.2)])
                Report(output, kinds, volume, heights);
        }
    }

    private static void Report(TextWriter output, int kinds, double volume, int heights)
    {
        var random = new Random(kinds);
        var times = new Times();
        var (whole, cube, flat) = (0, 0.0, 0.0);
        for (var i = 0; i < Number; i++)
        {
            var mix = Mix(random, kinds, volume, heights);
            var time = new CoreTime();
            var load = MixedLoadBuilder.Build(mix, room);
            times.Add(time.Milliseconds);
            whole += load.IsWhole ? 1 : 0;
            cube += load.CubeUsed / Number;
            flat += load.FlatTop / Number;
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"| {kinds} | {heights} | {100 * volume:0} % | {whole} of {Number} | {100 * cube:0.0} % | {100 * flat:0} % | {times.Share(0.5):0.0} | {times.Share(0.9):0.0} | {times.Worst:0} |"));
    }

    /// <summary>Kinds of about equal volume in all, sizes in half inches, heights from 6 in by 2 in, a few of them fragile.</summary>
    private static CartonKind[] Mix(Random random, int kinds, double volume, int heights) => [.. Enumerable.Range(0, kinds).Select(_ =>
    {
        var (l, w, h) = (random.Next(16, 41) / 2.0, random.Next(12, 33) / 2.0, random.Next(3, 3 + heights) * 2);
        var count = Math.Max(1, (int)Math.Round(volume * 48 * 40 * 60 / kinds / (l * w * h)));
        var weight = l * w * h / 1728 * random.Next(5, 20);
        return new CartonKind(
            Length.FromInches(l), Length.FromInches(w), Length.FromInches(h), Mass.FromPounds(weight), count,
            random.Next(10) == 0 ? Force.Zero : Force.FromPoundsForce(random.Next(100, 400)));
    })];
}
