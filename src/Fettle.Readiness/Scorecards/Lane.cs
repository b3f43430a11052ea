namespace Fettle.Readiness.Scorecards;

/// <summary>A way that freight takes again and again.</summary>
/// <param name="TerminalId">The carrier's terminal where it begins.</param>
/// <param name="Destination">Who receives it and where, as declared, with single spaces.</param>
/// <param name="Miles">How long it is.</param>
public sealed record Lane(Guid TerminalId, string Destination, MileBand Miles)
{
    /// <summary>Longest destination that is told apart from others.</summary>
    public const int LongestDestination = 120;

    public static Lane Of(Guid terminalId, string destination, double miles)
    {
        var words = OneLine.Of(destination);
        return new(terminalId, words.Length > LongestDestination ? words[..LongestDestination] : words, BandOf(miles));
    }

    /// <summary>The band that a distance falls into; on a bound, the shorter one.</summary>
    public static MileBand BandOf(double miles) => miles switch
    {
        <= 250 => MileBand.Short,
        <= 500 => MileBand.Medium,
        <= 1000 => MileBand.Long,
        _ => MileBand.VeryLong,
    };
}

/// <summary>Lane lengths that are compared with each other. The bounds are our choice; 500 miles is where the corner-board rule has its own.</summary>
public enum MileBand
{
    /// <summary>Up to 250 miles.</summary>
    Short,

    /// <summary>Over 250, up to 500 miles.</summary>
    Medium,

    /// <summary>Over 500, up to 1,000 miles.</summary>
    Long,

    /// <summary>Over 1,000 miles.</summary>
    VeryLong,
}

/// <summary>Text that names something, told one way.</summary>
internal static class OneLine
{
    /// <summary>Without control characters and with single spaces, so that a key made of several texts keeps them apart.</summary>
    public static string Of(string? text) => text is null
        ? ""
        : string.Join(' ', new string([.. text.Select(c => char.IsControl(c) ? ' ' : c)]).Split(' ', StringSplitOptions.RemoveEmptyEntries));
}
