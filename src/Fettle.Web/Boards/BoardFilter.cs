using System.Globalization;
using Fettle.Readiness.Findings;
using Fettle.Web.Declarations;

namespace Fettle.Web.Boards;

public enum BoardColumn
{
    /// <summary>Pickups whose window is today and that nobody has seen come in.</summary>
    Expected,

    /// <summary>Pickups whose window ended in the days before, and that nobody has seen come in or go.</summary>
    Unseen,

    /// <summary>Pickups that are here.</summary>
    Floor,

    /// <summary>Holds about which somebody still has to act.</summary>
    Held,

    /// <summary>Those whose time is over.</summary>
    Overdue,
}

/// <summary>What makes something urgent.</summary>
public enum BoardUrgency
{
    /// <summary>The time of whoever must act ends within two hours, or has ended.</summary>
    Deadline,

    /// <summary>The truck leaves within a day: no delivery date is declared, and the pickup window stands for it.</summary>
    Window,

    Fragile,

    /// <summary>Takes at least a hundred square feet of floor: some seven pallets.</summary>
    Space,
}

/// <summary>What the board shows. Words that mean nothing are left out rather than refused: an old bookmark still opens.</summary>
/// <param name="Reason">A finding's code.</param>
/// <param name="AgeHours">Only what has waited so long; null for all.</param>
/// <param name="Page">From 1.</param>
public sealed record BoardFilter(BoardColumn Column, Guid? Shipper, string? Reason, int? AgeHours, BoardUrgency? Urgency, int Page)
{
    public const int PageSize = 50;

    public static readonly IReadOnlyList<int> Ages = [4, 24, 72];

    private const int MostPages = 10_000;

    public static BoardFilter Read(string? column, Guid? shipper, string? reason, int? age, string? urgency, int? page) => new(
        Wording.Parse<BoardColumn>(column) ?? BoardColumn.Held,
        shipper == Guid.Empty ? null : shipper,
        reason is not null && RuleBook.Find(reason) is not null ? reason : null,
        age is { } hours && Ages.Contains(hours) ? hours : null,
        Wording.Parse<BoardUrgency>(urgency),
        Math.Clamp(page ?? 1, 1, MostPages));

    /// <summary>The address of the board with this filter.</summary>
    public string Path(string place = "/board")
    {
        var parts = new List<string> { $"column={Column.Word()}" };
        if (Shipper is { } shipper)
            parts.Add($"shipper={shipper}");
        if (Reason is { } reason)
            parts.Add($"reason={reason}");
        if (AgeHours is { } age)
            parts.Add($"age={age.ToString(CultureInfo.InvariantCulture)}");
        if (Urgency is { } urgency)
            parts.Add($"urgency={urgency.Word()}");
        if (Page > 1)
            parts.Add($"page={Page.ToString(CultureInfo.InvariantCulture)}");
        return $"{place}?{string.Join('&', parts)}";
    }
}
