namespace Fettle.Engineering.Tests;

/// <summary>Comparison by relative error, the way the sources state their tolerances.</summary>
internal static class Close
{
    /// <summary>The tolerance for strength values: sources round, and their constants have three digits.</summary>
    public const double Strength = 1e-3;

    /// <summary>The tolerance for pure arithmetic.</summary>
    public const double Arithmetic = 1e-9;

    public static void To(double expected, double actual, double relative)
    {
        var slack = Math.Abs(expected) * relative;
        Assert.True(
            Math.Abs(actual - expected) <= slack || actual == expected,
            $"{actual:R} is not within {relative:0e0} of {expected:R}.");
    }
}
