using System.Collections.Immutable;
using Fettle.Readiness.Declarations;

namespace Fettle.Readiness.Scorecards;

/// <summary>How lines are divided into cells. Each figure of the accounts desk is a sum over the cells of one way.</summary>
public enum Facet
{
    /// <summary>Not divided further: one cell a month.</summary>
    All,

    /// <summary>One cell a week, two where a month ends within it: the weeks of whole months add up to them.</summary>
    Week,

    /// <summary>By lane and product.</summary>
    Freight,

    /// <summary>By what stopped the line.</summary>
    Stops,

    /// <summary>By who built it and what stopped the line.</summary>
    Builder,

    /// <summary>
    /// By commodity, lane length and finding: a line is in the cell of each of its findings, and in that of no finding's
    /// code, where all are.
    /// </summary>
    Finding,
}

/// <summary>Where a line is counted. Sites are kept apart everywhere, since who sees one need not see another.</summary>
/// <param name="Since">First day of the month in which it was handed in; of the part of the week that lies in that month, where weeks are counted. UTC.</param>
/// <param name="Key">What divides the lines of this facet; made and read by <see cref="CellKeys"/>.</param>
public readonly record struct Cell(Guid CarrierId, Guid ShipperId, Guid SiteId, Facet Facet, DateOnly Since, string Key);

/// <summary>The keys of cells. Their parts have no line ends, which therefore keep them apart.</summary>
public static class CellKeys
{
    private const char Between = '\n';
    private const char BetweenCodes = ',';

    public static string Freight(Lane lane, Product product) => Join(lane.TerminalId.ToString(), lane.Destination, lane.Miles.ToString(), product.Key);

    public static (Lane Lane, Product Product) ReadFreight(string key)
    {
        var parts = key.Split(Between);
        return (new(Guid.Parse(parts[0]), parts[1], Enum.Parse<MileBand>(parts[2])), new(parts[3]));
    }

    public static string Stops(IReadOnlyList<string> stops) => Codes(stops);

    public static IReadOnlyList<string> ReadStops(string key) => ReadCodes(key);

    public static string Builder(string builder, IReadOnlyList<string> stops) => Join(builder, Codes(stops));

    public static (string Builder, IReadOnlyList<string> Stops) ReadBuilder(string key)
    {
        var parts = key.Split(Between);
        return (parts[0], ReadCodes(parts[1]));
    }

    /// <param name="code">Code of the finding; empty for all lines.</param>
    public static string Finding(Commodity commodity, MileBand miles, string code) => Join(commodity.Key, miles.ToString(), code);

    public static (Commodity Commodity, MileBand Miles, string Code) ReadFinding(string key)
    {
        var parts = key.Split(Between);
        return (new(parts[0]), Enum.Parse<MileBand>(parts[1]), parts[2]);
    }

    private static string Join(params IReadOnlyList<string> parts) => string.Join(Between, parts);

    private static string Codes(IReadOnlyList<string> codes) => string.Join(BetweenCodes, codes);

    private static string[] ReadCodes(string codes) => codes.Length == 0 ? [] : codes.Split(BetweenCodes);
}

/// <summary>
/// Counts by cell. They merge: the sheet of many lines is the sum of theirs, so that a line that changes is taken out as it
/// was and put in as it is, and nothing else need be looked at.
/// </summary>
public sealed class CellSheet
{
    public static readonly CellSheet Empty = new(ImmutableDictionary<Cell, Tally>.Empty);

    private CellSheet(ImmutableDictionary<Cell, Tally> cells) => Cells = cells;

    /// <summary>Cells that count nothing are not among them.</summary>
    public ImmutableDictionary<Cell, Tally> Cells { get; }

    /// <summary>All lines counted at once.</summary>
    public static CellSheet Of(IEnumerable<ScoredLine> lines) => Empty.Add(lines.SelectMany(Of));

    /// <summary>What changes when a line becomes another.</summary>
    /// <param name="before">Null when it is new.</param>
    public static CellSheet Change(ScoredLine? before, ScoredLine after) => Empty.Change([(before, after)]);

    /// <summary>The sheet after lines became others.</summary>
    /// <param name="changes">The line before, null when it is new, and after.</param>
    public CellSheet Change(IEnumerable<(ScoredLine? Before, ScoredLine After)> changes) => Add(changes.SelectMany(change =>
        (change.Before is null ? [] : Of(change.Before).Select(cell => (cell.Cell, Tally.Zero - cell.Tally))).Concat(Of(change.After))));

    /// <summary>The cells that one line is counted in.</summary>
    public static IEnumerable<(Cell Cell, Tally Tally)> Of(ScoredLine line)
    {
        var declared = line.Declared;
        var tally = Tally.Of(line);
        var day = DateOnly.FromDateTime(declared.At.UtcDateTime);
        var month = Months.Of(day);
        yield return At(Facet.All, month, "");
        yield return At(Facet.Week, Weeks.WithinMonth(day), "");
        yield return At(Facet.Freight, month, CellKeys.Freight(declared.Lane, declared.Product));
        yield return At(Facet.Stops, month, CellKeys.Stops(declared.Stops));
        yield return At(Facet.Builder, month, CellKeys.Builder(declared.Builder, declared.Stops));
        foreach (var code in declared.Findings.Prepend(""))
            yield return At(Facet.Finding, month, CellKeys.Finding(declared.Commodity, declared.Lane.Miles, code));

        (Cell, Tally) At(Facet facet, DateOnly since, string key) => (new(declared.CarrierId, declared.ShipperId, declared.SiteId, facet, since, key), tally);
    }

    private CellSheet Add(IEnumerable<(Cell Cell, Tally Tally)> more)
    {
        var cells = Cells.ToBuilder();
        foreach (var (cell, tally) in more)
        {
            var sum = cells.TryGetValue(cell, out var so) ? so + tally : tally;
            if (sum.IsZero)
                cells.Remove(cell);
            else
                cells[cell] = sum;
        }

        return new(cells.ToImmutable());
    }
}

/// <summary>Weeks begin on Monday (ISO 8601).</summary>
public static class Weeks
{
    /// <summary>The Monday of a day's week.</summary>
    public static DateOnly Of(DateOnly day) => day.AddDays(-(((int)day.DayOfWeek + 6) % 7));

    /// <summary>That Monday, or the first of the day's month when that comes after it.</summary>
    public static DateOnly WithinMonth(DateOnly day)
    {
        var (monday, month) = (Of(day), Months.Of(day));
        return monday > month ? monday : month;
    }
}

public static class Months
{
    /// <summary>The first day of a day's month.</summary>
    public static DateOnly Of(DateOnly day) => new(day.Year, day.Month, 1);
}

/// <summary>Whole months, in which lines were handed in. What became of a line later counts in its own month.</summary>
/// <param name="From">First day, the first of a month.</param>
/// <param name="Until">The day after the last, the first of a month.</param>
public sealed record Period(DateOnly From, DateOnly Until)
{
    /// <summary>A period is one of these many months.</summary>
    public static readonly IReadOnlyList<int> Choices = [3, 6, 12, 24];

    public const int Usual = 12;

    /// <summary>The month that a day is in, and those before it.</summary>
    /// <param name="months">1 or more.</param>
    public static Period Last(int months, DateOnly today)
    {
        var until = Months.Of(today).AddMonths(1);
        return new(until.AddMonths(-months), until);
    }

    public int Length => ((Until.Year - From.Year) * 12) + Until.Month - From.Month;

    /// <summary>The last day of it.</summary>
    public DateOnly Last() => Until.AddDays(-1);

    /// <summary>Mondays of all weeks that have a day in it: the first may begin before it, and the last end after.</summary>
    public IEnumerable<DateOnly> WeeksTouched()
    {
        for (var week = Weeks.Of(From); week < Until; week = week.AddDays(7))
            yield return week;
    }

    /// <summary>Mondays of the weeks that begin in it.</summary>
    public IEnumerable<DateOnly> WeeksWithin()
    {
        for (var week = Weeks.Of(From.AddDays(6)); week < Until; week = week.AddDays(7))
            yield return week;
    }
}
