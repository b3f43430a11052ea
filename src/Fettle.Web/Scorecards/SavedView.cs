namespace Fettle.Web.Scorecards;

/// <summary>A way of looking at the accounts that one person keeps.</summary>
public sealed record SavedView
{
    /// <summary>A person keeps at most this many.</summary>
    public const int Most = 20;

    public const int LongestName = 60;

    /// <summary>Follows from person and name: the same name again replaces the view.</summary>
    public Guid Id { get; init; }

    public required Guid PersonId { get; init; }

    public required string Name { get; init; }

    public required AccountFilter Filter { get; init; }
}
