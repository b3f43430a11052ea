using Fettle.Readiness.Scorecards;
using Fettle.Web.FloorUse;
using SpreadCheetah;
using SpreadCheetah.Styling;
using SpreadCheetah.Worksheets;

namespace Fettle.Web.Negotiations;

/// <summary>
/// The sheet as a workbook: numbers as numbers to go on reckoning with. Text is written as text, never as a formula,
/// whatever it begins with.
/// </summary>
public static class NegotiationXlsx
{
    public const string ContentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    public static async Task<byte[]> WriteAsync(NegotiationSheet sheet, CancellationToken cancel)
    {
        using var bytes = new MemoryStream();
        await using (var book = await Spreadsheet.CreateNewAsync(bytes, cancellationToken: cancel))
        {
            var head = book.AddStyle(new Style { Font = { Bold = true } });
            await SummaryAsync(book, head, sheet, cancel);
            await EvidenceAsync(book, head, sheet, cancel);
            await WeeksAsync(book, head, sheet.Worth, cancel);
            await PickupsAsync(book, head, sheet.Floor, cancel);
            await book.FinishAsync(cancel);
        }

        return bytes.ToArray();
    }

    private static async Task SummaryAsync(Spreadsheet book, StyleId head, NegotiationSheet sheet, CancellationToken cancel)
    {
        await StartAsync(book, T("Summary"), [52, 24, 24], cancel);
        await book.AddRowAsync([new StyledCell(sheet.Title, head)], cancel);
        foreach (var (name, value) in sheet.About)
            await book.AddRowAsync([new DataCell(name), new DataCell(value)], cancel);
        await book.AddRowAsync(Array.Empty<DataCell>(), cancel);
        var worth = sheet.Worth;
        foreach (var (name, value) in ((string, double)[])
        [
            (T("Whole weeks"), worth.Weeks.Count),
            (T("Pickups"), worth.Pickups),
            (T("Pickups that cannot be planned"), worth.NotPlanned),
            (T("Pickups still being worked out"), sheet.Floor.Waiting),
            (T("53-ft trailers a year that stacking frees"), Math.Round(worth.TrailersAYear, 3)),
            (T("Worth to the carrier a year, US dollars"), (double)Math.Round(worth.MoneyAYear, 2)),
            (T("Offered back a year, US dollars"), (double)Math.Round(worth.OfferedAYear, 2)),
            (T("53-ft trailers a year that decking beams free besides"), Math.Round(worth.DeckTrailersAYear, 3)),
            (T("Assumption: US dollars for a mile of a whole trailer"), (double)worth.Terms.CostPerTrailerMile),
            (T("Assumption: share of what is saved that is offered back"), worth.Terms.ShareOffered),
        ])
        {
            await book.AddRowAsync([new DataCell(name), new DataCell(value)], cancel);
        }

        if (worth is { SavedAWeek: { } feet, MoneyAWeek: { } money })
        {
            await book.AddRowAsync(Array.Empty<DataCell>(), cancel);
            await HeadAsync(book, head, [WorthWords.Weeks(feet), T("Feet saved"), T("Worth, US dollars")], cancel);
            foreach (var ((name, saved), (_, dollars)) in WorthWords.Rows(feet).Zip(WorthWords.Rows(money)))
                await book.AddRowAsync([new DataCell(name), new DataCell(Math.Round(saved, 3)), new DataCell(Math.Round(dollars, 2))], cancel);
        }

        await book.AddRowAsync(Array.Empty<DataCell>(), cancel);
        foreach (var words in (string?[])[WorthWords.Missing(sheet.Floor), WorthWords.Assumed(worth.Terms), WorthWords.Method, sheet.EvidenceWords, WorthWords.Care])
        {
            if (words is not null)
                await book.AddRowAsync([new DataCell(words)], cancel);
        }
    }

    private static async Task EvidenceAsync(Spreadsheet book, StyleId head, NegotiationSheet sheet, CancellationToken cancel)
    {
        await StartAsync(book, T("Evidence"), [60, 12, 12, 12, 12, 12], cancel);
        await HeadAsync(book, head, [T("Evidence"), T("Estimate"), T("Low (95 %)"), T("High (95 %)"), T("Part"), T("Of lines")], cancel);
        foreach (var (name, share) in sheet.Shares)
        {
            await book.AddRowAsync(
                share.Whole == 0
                    ? [new DataCell(name), new DataCell(), new DataCell(), new DataCell(), new DataCell(0), new DataCell(0)]
                    : [new DataCell(name), new DataCell(Math.Round(share.Estimate, 4)), new DataCell(Math.Round(share.Interval.Low, 4)), new DataCell(Math.Round(share.Interval.High, 4)), new DataCell(share.Part), new DataCell(share.Whole)],
                cancel);
        }

        await book.AddRowAsync(Array.Empty<DataCell>(), cancel);
        var claims = sheet.Evidence.Claims;
        await book.AddRowAsync([new DataCell(T("Lines claimed for, withdrawn claims not counted")), new DataCell(claims.Lines)], cancel);
        await book.AddRowAsync([new DataCell(T("Claimed, US dollars")), new DataCell(claims.Claimed / 100m)], cancel);
        await book.AddRowAsync([new DataCell(T("Paid so far, US dollars")), new DataCell(claims.Paid / 100m)], cancel);
    }

    private static async Task WeeksAsync(Spreadsheet book, StyleId head, Worth worth, CancellationToken cancel)
    {
        await StartAsync(book, T("Weeks"), [14, 10, 14, 14, 14, 14, 18], cancel);
        await HeadAsync(book, head, [T("Week of"), T("Pickups"), T("Feet, flat"), T("Feet, stacked"), T("Feet, decked"), T("Feet saved"), T("Worth, US dollars")], cancel);
        foreach (var week in worth.Weeks)
        {
            await book.AddRowAsync(
                [
                    new DataCell(Day(week.Monday)), new DataCell(week.Pickups), new DataCell(Math.Round(week.Flat, 3)), new DataCell(Math.Round(week.Stacked, 3)),
                    new DataCell(Math.Round(week.Decked, 3)), new DataCell(Math.Round(week.Saved, 3)), new DataCell(Math.Round(week.Money, 2)),
                ],
                cancel);
        }
    }

    /// <summary>All of the period; only those of whole weeks are counted elsewhere in the book.</summary>
    private static async Task PickupsAsync(Spreadsheet book, StyleId head, AccountFloor floor, CancellationToken cancel)
    {
        await StartAsync(book, T("Pickups"), [14, 44, 10, 10, 14, 14, 14, 22], cancel);
        await HeadAsync(book, head, [T("Handed in"), T("To"), T("Miles"), T("Units"), T("Feet, flat"), T("Feet, stacked"), T("Feet, decked"), T("In a whole week")], cancel);
        var counted = floor.Worth.Weeks.Select(week => week.Monday).ToHashSet();
        foreach (var pickup in floor.Pickups.OrderBy(pickup => pickup.On).ThenBy(pickup => pickup.PickupId))
        {
            await book.AddRowAsync(
                [
                    new DataCell(Day(pickup.On)), new DataCell(pickup.Lane.Destination), new DataCell(pickup.Miles), new DataCell(pickup.Units),
                    Feet(pickup.Taken?.Flat.Feet), Feet(pickup.Taken?.Stacked.Feet), Feet(pickup.Taken?.Decked.Feet),
                    new DataCell(counted.Contains(Weeks.Of(pickup.On)) ? T("yes") : T("no, not counted yet")),
                ],
                cancel);
        }
    }

    private static DataCell Feet(double? feet) => feet is { } known ? new(Math.Round(known, 3)) : new();

    /// <summary>A day as text: read alike in every country.</summary>
    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private static async Task StartAsync(Spreadsheet book, string name, double[] widths, CancellationToken cancel)
    {
        var options = new WorksheetOptions();
        for (var i = 0; i < widths.Length; i++)
            options.Column(i + 1).Width = widths[i];
        await book.StartWorksheetAsync(name, options, cancel);
    }

    private static async Task HeadAsync(Spreadsheet book, StyleId head, string[] names, CancellationToken cancel) =>
        await book.AddRowAsync([.. names.Select(name => new StyledCell(name, head))], cancel);
}
