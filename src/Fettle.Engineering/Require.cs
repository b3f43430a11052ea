using System.Runtime.CompilerServices;

namespace Fettle.Engineering;

/// <summary>Broken preconditions become exceptions here and nowhere else. NaN fails every test below.</summary>
internal static class Require
{
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "A finite number is needed.");

    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value > 0 ? value : throw new ArgumentOutOfRangeException(name, value, "A finite number above zero is needed.");

    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value >= 0 ? value : throw new ArgumentOutOfRangeException(name, value, "A finite number of zero or more is needed.");

    /// <summary>Strictly between zero and one.</summary>
    public static double Probability(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value is > 0 and < 1 ? value : throw new ArgumentOutOfRangeException(name, value, "A number between zero and one, neither included, is needed.");

    public static int AtLeast(int least, int value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= least ? value : throw new ArgumentOutOfRangeException(name, value, $"A number of at least {least} is needed.");
}
