namespace Fettle.Readiness.Declarations;

/// <summary>What holds the load together and keeps it from harm.</summary>
/// <param name="WrapTurns">Full turns of stretch film at the thinnest place.</param>
/// <param name="WrapOverPlatform">The film comes down over the platform and ties the load to it.</param>
public sealed record Protection(
    int WrapTurns,
    bool WrapOverPlatform,
    CornerBoards CornerBoards,
    bool Sleeve,
    bool TopCap,
    int Straps,
    bool SlipSheets)
{
    public static readonly Protection None = new(0, false, CornerBoards.None, false, false, 0, false);
}

public enum CornerBoards
{
    None,

    /// <summary>Boards that end above the platform.</summary>
    Partial,

    /// <summary>Boards that reach down to the platform.</summary>
    ToPlatform,
}
