namespace Fettle.Engineering.Tests.Statistics;

/// <summary>
/// Rats with tumours in 71 control groups: Tarone, Biometrics 38, 1982, as used in Gelman and others, "Bayesian Data
/// Analysis", chapter 5. The last group is the current experiment, the first seventy came before it.
/// </summary>
internal static class RatTumours
{
    private static readonly int[] Tumours =
    [
        0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2, 2, 2, 1, 5, 2, 5, 3, 2, 7, 7, 3, 3, 2, 9, 10,
        4, 4, 4, 4, 4, 4, 4, 10, 4, 4, 4, 5, 11, 12, 5, 5, 6, 5, 6, 6, 6, 6, 16, 15, 15, 9, 4,
    ];

    private static readonly int[] Rats =
    [
        20, 20, 20, 20, 20, 20, 20, 19, 19, 19, 19, 18, 18, 17, 20, 20, 20, 20, 19, 19, 18, 18, 25, 24, 23, 20, 20, 20, 20, 20, 20, 10, 49, 19,
        46, 27, 17, 49, 47, 20, 20, 13, 48, 50, 20, 20, 20, 20, 20, 20, 20, 48, 19, 19, 19, 22, 46, 49, 20, 20, 23, 19, 22, 20, 20, 20, 52, 46,
        47, 24, 14,
    ];

    public static IReadOnlyList<(int Successes, int Trials)> Groups { get; } = [.. Tumours.Zip(Rats)];
}
