using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Fettle.Engineering.Statistics;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Pickups;
using Marten;

namespace Fettle.Web.Scorecards;

public sealed record ShipperRow(string Name, ShipperScore Score);

/// <summary>The scores of the shippers that somebody looks after, over the last year.</summary>
public static class Scoreboard
{
    public static async Task<IReadOnlyList<ShipperRow>> OfAsync(IQuerySession session, Rights rights, DateTimeOffset now, CancellationToken cancel)
    {
        Guid[] accounts = [.. rights.AccountShipperIds];
        var since = now.AddYears(-1);
        var shippers = await session.Query<Shipper>().Where(shipper => shipper.Id.IsOneOf(accounts)).ToListAsync(cancel);
        var lines = await session.Query<DeclaredUnit>()
            .Where(unit => unit.CarrierId == rights.CarrierId && unit.ShipperId.IsOneOf(accounts) && unit.At >= since)
            .Select(unit => new { unit.ShipperId, unit.Quantity, unit.Held, unit.DeclaredStackable, unit.CarriesLikeUnit })
            .ToListAsync(cancel);
        var byShipper = lines.ToLookup(line => line.ShipperId, line => new ScoredUnit(line.Quantity, line.Held, line.DeclaredStackable, line.CarriesLikeUnit));
        return [.. shippers.Select(shipper => new ShipperRow(shipper.Name, ShipperScore.Of([.. byShipper[shipper.Id]])))];
    }
}

/// <summary>A column of the accounts page and of its CSV.</summary>
public sealed record ScoreColumn(string Key, string Title, Func<ShipperRow, string> Text, Func<ShipperRow, IComparable> Order)
{
    public static readonly IReadOnlyList<ScoreColumn> All =
    [
        new("shipper", "Shipper", row => row.Name, row => row.Name),
        new("units", "Units declared", row => row.Score.Units.ToString("#,0", CultureInfo.InvariantCulture), row => row.Score.Units),
        new("held", "Share held", row => Share(row.Score.Held, row.Score.Units), row => Ratio(row.Score.Held, row.Score.Units)),
        new("stackable", "Declared stackable", row => Share(row.Score.DeclaredStackable, row.Score.Units), row => Ratio(row.Score.DeclaredStackable, row.Score.Units)),
        new("stackwell", "Stack well", row => Share(row.Score.StackWellLines, row.Score.StackableLines), row => Ratio(row.Score.StackWellLines, row.Score.StackableLines)),
        new("range", "Range, 95 %", row => row.Score.StackableLines == 0 ? "none declared" : Range(row.Score.StackWellInterval), row => row.Score.StackableLines == 0 ? -1 : row.Score.StackWellInterval.Low),
        new("lines", "Of lines", row => row.Score.StackableLines.ToString("#,0", CultureInfo.InvariantCulture), row => row.Score.StackableLines),
    ];

    /// <summary>The column of that key; sorted by how surely freight stacks well when there is none.</summary>
    public static ScoreColumn Find(string? key) => All.FirstOrDefault(column => column.Key == key) ?? All.Single(column => column.Key == "range");

    public IReadOnlyList<ShipperRow> Sort(IEnumerable<ShipperRow> rows, bool up) =>
        [.. (up ? rows.OrderBy(Order) : rows.OrderByDescending(Order)).ThenBy(row => row.Name, StringComparer.Ordinal)];

    internal static double Ratio(int part, int whole) => whole == 0 ? -1 : part / (double)whole;

    private static string Share(int part, int whole) => whole == 0 ? "–" : (part / (double)whole).ToString("0 %", CultureInfo.InvariantCulture);

    private static string Range(Interval interval) => string.Create(CultureInfo.InvariantCulture, $"{interval.Low:0 %} to {interval.High:0 %}");
}

/// <summary>The scores as CSV: numbers as numbers, and no cell that a spreadsheet would run.</summary>
public static class ScoreCsv
{
    public static byte[] Write(IEnumerable<ShipperRow> rows)
    {
        using var memory = new MemoryStream();
        using (var text = new StreamWriter(memory, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true)))
        // Rows end as RFC 4180 has it. Set as NewLine that would be the only line end inside a name to be quoted.
        using (var csv = new CsvWriter(text, new CsvConfiguration(CultureInfo.InvariantCulture)))
        {
            foreach (var title in (string[])["shipper", "units", "units held", "units declared stackable", "units that stack well", "lines", "lines declared stackable", "lines that stack well", "share that stacks well", "range low", "range high"])
                csv.WriteField(title);
            csv.NextRecord();
            foreach (var row in rows)
            {
                var score = row.Score;
                csv.WriteField(Inert(row.Name));
                csv.WriteField(score.Units);
                csv.WriteField(score.Held);
                csv.WriteField(score.DeclaredStackable);
                csv.WriteField(score.StackWell);
                csv.WriteField(score.Lines);
                csv.WriteField(score.StackableLines);
                csv.WriteField(score.StackWellLines);
                csv.WriteField(score.StackableLines == 0 ? null : ScoreColumn.Ratio(score.StackWellLines, score.StackableLines).ToString("0.####", CultureInfo.InvariantCulture));
                csv.WriteField(score.StackableLines == 0 ? null : score.StackWellInterval.Low.ToString("0.####", CultureInfo.InvariantCulture));
                csv.WriteField(score.StackableLines == 0 ? null : score.StackWellInterval.High.ToString("0.####", CultureInfo.InvariantCulture));
                csv.NextRecord();
            }
        }

        return memory.ToArray();
    }

    /// <summary>Text that a spreadsheet would take for a formula gets an apostrophe in front, full-width signs included.</summary>
    public static string Inert(string text) =>
        text.Length > 0 && (text[0] is '=' or '+' or '-' or '@' or '\t' or '\r' or '\n' or '＝' or '＋' or '－' or '＠') ? "'" + text : text;
}
