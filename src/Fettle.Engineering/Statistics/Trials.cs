namespace Fettle.Engineering.Statistics;

/// <summary>The one precondition of everything that counts successes.</summary>
internal static class Trials
{
    public static void Check(int successes, int trials)
    {
        Require.AtLeast(0, trials);
        if (successes < 0 || successes > trials)
            throw new ArgumentOutOfRangeException(nameof(successes), successes, $"Successes lie between 0 and the {trials} trials.");
    }
}
