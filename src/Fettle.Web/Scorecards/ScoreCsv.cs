using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Fettle.Readiness.Scorecards;

namespace Fettle.Web.Scorecards;

/// <summary>The list as CSV: numbers as numbers, and no cell that a spreadsheet would run.</summary>
public static class ScoreCsv
{
    private static readonly (string Name, Func<AccountRow, Share> Of)[] Shares =
    [
        ("ready", row => row.Ready),
        ("declared stackable", row => row.Stacking.Declared),
        ("carry a like unit", row => row.Stacking.Carries),
        ("carried on trial", row => row.Stacking.Tested),
        ("arrived clean under another unit", row => row.Stacking.ArrivedClean),
        ("arrived damaged", row => row.Damaged),
    ];

    public static byte[] Write(IEnumerable<AccountRow> rows)
    {
        using var memory = new MemoryStream();
        using (var text = new StreamWriter(memory, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true)))
        // Rows end as RFC 4180 has it. Set as NewLine that would be the only line end inside a name to be quoted.
        using (var csv = new CsvWriter(text, new CsvConfiguration(CultureInfo.InvariantCulture)))
        {
            csv.WriteField("shipper");
            foreach (var what in Tally.All)
                csv.WriteField(CellTable.ColumnOf(what).Replace('_', ' '));
            foreach (var (name, _) in Shares)
            {
                foreach (var title in (string[])["estimate", "low", "high", "of lines"])
                    csv.WriteField($"{name}: {title}");
            }

            csv.NextRecord();
            foreach (var row in rows)
            {
                csv.WriteField(Inert(row.Name));
                foreach (var what in Tally.All)
                    csv.WriteField(row.Tally[what]);
                foreach (var (_, of) in Shares)
                {
                    var share = of(row);
                    var plausible = share.Interval;
                    csv.WriteField(Number(share, share.Estimate));
                    csv.WriteField(Number(share, plausible.Low));
                    csv.WriteField(Number(share, plausible.High));
                    csv.WriteField(share.Whole);
                }

                csv.NextRecord();
            }
        }

        return memory.ToArray();
    }

    /// <summary>Text that a spreadsheet would take for a formula gets an apostrophe in front, full-width signs included.</summary>
    public static string Inert(string text) =>
        text.Length > 0 && (text[0] is '=' or '+' or '-' or '@' or '\t' or '\r' or '\n' or '＝' or '＋' or '－' or '＠') ? "'" + text : text;

    private static string? Number(Share share, double value) => share.Whole == 0 ? null : value.ToString("0.####", CultureInfo.InvariantCulture);
}
