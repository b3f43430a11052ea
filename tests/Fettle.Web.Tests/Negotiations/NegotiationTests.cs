using System.IO.Compression;
using System.Net;
using System.Xml.Linq;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Testing;
using Fettle.Web.FloorUse;
using Fettle.Web.Identity;
using Fettle.Web.Languages;
using Fettle.Web.Negotiations;
using Fettle.Web.Papers;
using Fettle.Web.Parties;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using UglyToad.PdfPig;
using static Fettle.Testing.AccountHistory;

namespace Fettle.Web.Tests.Negotiations;

/// <summary>The negotiation sheet, read back by other libraries than those that wrote it.</summary>
public sealed class NegotiationTests(SharedPortal shared) : IAsyncLifetime
{
    private const string Cmd = "=cmd|' /C calc'!A0";

    private static readonly XNamespace Cells = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private static readonly DateTimeOffset Now = DateTimeOffset.UtcNow;

    private readonly Guid carrier = Guid.CreateVersion7();
    private readonly Shipper shipper = new() { Id = Guid.CreateVersion7(), Name = Cmd, Email = "x@fettle.example", Sites = [] };
    private readonly Shipper neighbour = new() { Id = Guid.CreateVersion7(), Name = "Neighbouring Nails", Email = "x@fettle.example", Sites = [] };
    private Portal portal = null!;

    public async ValueTask InitializeAsync()
    {
        portal = await shared.PortalAsync();
        await using var session = portal.Store.LightweightSession();
        session.Store(shipper with { Sites = [new(SiteOf(shipper.Id, 0), "Kiln Road dock", "4 Kiln Road", "America/Chicago")] }, neighbour);
        session.Store(new Carrier { Id = carrier, Name = "Larkspur", Terminals = [new(TerminalOf(carrier, 0), "Millbrook", "1 Mill Lane", "m@fettle.example", "America/Chicago")] });
        await session.SaveChangesAsync();
        Told[] told = [.. Enumerable.Range(2, 16).Select(week => One(carrier, shipper.Id, Now.AddDays(-7 * week), BuiltAs.Sound, 3 + (week * 5 % 17), 2)), One(carrier, neighbour.Id, Now.AddDays(-9), BuiltAs.Sound, 5)];
        await AppendAsync(portal.Store, told, CancellationToken.None);
        // One unit of the first line is claimed for, 150 dollars, of which 90 were paid.
        var (claimed, claim, by, day) = (told[0].Submitted.PickupId, Guid.CreateVersion7(), new Actor(Guid.CreateVersion7(), "Test"), DateOnly.FromDateTime(Now.UtcDateTime));
        session.Events.Append(
            claimed,
            new ClaimFiled(claimed, claim, "C-TESTED", Guid.CreateVersion7(), day, [new("L1", 1, Money.Dollars(150))], "Damaged on the way.", day.AddDays(270), day.AddDays(30), day.AddDays(120), by, Now),
            new ClaimAnswered(claimed, claim, Guid.CreateVersion7(), ClaimAnswer.Paid, day, [new("L1", 1, Money.Dollars(90))], "As seen.", null, by, Now));
        await session.SaveChangesAsync();
        var job = portal.Services.GetRequiredService<FloorUseJob>();
        foreach (var one in told)
            await job.PlanAsync(one.Submitted.PickupId, CancellationToken.None);
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Theory]
    [InlineData("en")]
    [InlineData("es")]
    public async Task The_sheet_is_two_pages_that_say_what_the_desk_says(string language)
    {
        Language.Of(language)!.Speak();
        var sheet = await SheetAsync(Manager);

        foreach (var paper in Enum.GetValues<Paper>())
        {
            var pdf = NegotiationPdf.Write(sheet, paper);
            Keep($"{language}-{paper}", pdf);
            using var opened = PdfDocument.Open(pdf);
            Assert.Equal(2, opened.NumberOfPages);
            var first = Squeezed(opened.GetPage(1).Text);
            foreach (var (_, value) in sheet.Headline)
                Assert.Contains(Squeezed(value), first, StringComparison.Ordinal);
            foreach (var (name, share) in sheet.Shares)
                Assert.Contains(Squeezed(name), first, StringComparison.Ordinal);
            Assert.Contains(Squeezed(sheet.ClaimWords), first, StringComparison.Ordinal);
            Assert.Contains("$150", sheet.ClaimWords, StringComparison.Ordinal);
            Assert.Contains("$90", sheet.ClaimWords, StringComparison.Ordinal);
            foreach (var (name, feet, _) in sheet.Ways)
                Assert.Contains(Squeezed(name + WorthWords.Feet(feet)), first, StringComparison.Ordinal);
            foreach (var (name, feet) in WorthWords.Rows(sheet.Worth.SavedAWeek!))
                Assert.Contains(Squeezed(name + WorthWords.Feet(feet)), first, StringComparison.Ordinal);
            Assert.Contains(Squeezed(WorthWords.Assumed(sheet.Worth.Terms)), first, StringComparison.Ordinal);
            var second = Squeezed(opened.GetPage(2).Text);
            foreach (var words in (string[])[WorthWords.Method, WorthWords.Care, sheet.EvidenceWords, sheet.Typical!.FlatWords, sheet.Typical.StackedWords])
                Assert.Contains(Squeezed(words), second, StringComparison.Ordinal);
            Assert.True(opened.GetPage(2).Paths.Count > 10);
            Assert.All(opened.GetPages().SelectMany(page => page.Letters.Select(letter => (letter, page))), pair => Assert.InRange(pair.letter.BoundingBox.Left, 0, pair.page.Width));
            Assert.All(opened.GetPages().SelectMany(page => page.Letters.Select(letter => (letter, page))), pair => Assert.InRange(pair.letter.BoundingBox.Bottom, 0, pair.page.Height));
        }
    }

    [Fact]
    public async Task The_workbook_has_the_same_figures_and_no_formula()
    {
        Language.English.Speak();
        var sheet = await SheetAsync(Manager);
        var api = await portal.ApiAsync(Manager);

        using var answer = await api.GetAsync($"/api/v1/accounts/{shipper.Id}/negotiation.xlsx");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(NegotiationXlsx.ContentType, answer.Content.Headers.ContentType!.MediaType);
        Assert.EndsWith(".xlsx", answer.Content.Headers.ContentDisposition!.FileNameStar, StringComparison.Ordinal);
        using var zip = new ZipArchive(new MemoryStream(await answer.Content.ReadAsByteArrayAsync()));
        var sheets = zip.Entries.Where(entry => entry.FullName.StartsWith("xl/worksheets/", StringComparison.Ordinal)).OrderBy(entry => entry.FullName, StringComparer.Ordinal).Select(entry =>
        {
            using var stream = entry.Open();
            return XDocument.Load(stream);
        }).ToArray();
        Assert.Equal(4, sheets.Length);
        Assert.All(sheets, one => Assert.Empty(one.Descendants(Cells + "f")));
        // A name that a spreadsheet would run stays a text.
        var name = sheets[0].Descendants(Cells + "c").First(cell => cell.Value == Cmd);
        Assert.Equal("inlineStr", (string?)name.Attribute("t"));
        Assert.Equal(Math.Round(sheet.Worth.TrailersAYear, 3), Beside(sheets[0], "53-ft trailers a year that stacking frees"));
        Assert.Equal((double)Math.Round(sheet.Worth.OfferedAYear, 2), Beside(sheets[0], "Offered back a year, US dollars"), .001);
        Assert.Equal(.3, Beside(sheets[0], "Assumption: share of what is saved that is offered back"));
        Assert.Equal(Math.Round(sheet.Evidence.Stacking.Carries.Estimate, 4), Beside(sheets[1], "By calculation carry a like unit, of those declared stackable"));
        Assert.Equal((1, 150, 90), (Beside(sheets[1], "Lines claimed for, withdrawn claims not counted"), Beside(sheets[1], "Claimed, US dollars"), Beside(sheets[1], "Paid so far, US dollars")));
        Assert.Equal(sheet.Worth.Weeks.Count + 1, sheets[2].Descendants(Cells + "row").Count());
        Assert.Equal(sheet.Floor.Pickups.Count + 1, sheets[3].Descendants(Cells + "row").Count());
    }

    [Fact]
    public async Task A_sheet_of_a_lane_is_of_that_lane_and_of_no_other()
    {
        var api = await portal.ApiAsync(Manager);
        var lane = (await api.ReadAsync($"/api/v1/accounts/{shipper.Id}/floor-use")).Json.At("lanes.0.id");

        using var pdf = PdfDocument.Open(await api.GetByteArrayAsync($"/api/v1/accounts/{shipper.Id}/negotiation.pdf?lane={lane}"));

        Assert.Contains(Squeezed("Millbrook → Harbour Stores, Saltgrass"), Squeezed(pdf.GetPage(1).Text), StringComparison.Ordinal);
        Assert.Contains(Squeezed("Claimed for: 1 of 32 lines, $150; paid so far: $90."), Squeezed(pdf.GetPage(1).Text), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await api.ReadAsync($"/api/v1/accounts/{shipper.Id}/negotiation.pdf?lane={Guid.CreateVersion7()}")).Status);
        foreach (var query in (string[])["lane=here", "months=5", "paper=stone"])
            Assert.Equal(HttpStatusCode.BadRequest, (await api.ReadAsync($"/api/v1/accounts/{shipper.Id}/negotiation.pdf?{query}")).Status);
    }

    [Fact]
    public async Task A_shippers_own_sheet_names_nobody_else_and_others_get_none()
    {
        var own = await portal.ApiAsync(Rights.ShipperClerk(shipper.Id, SiteOf(shipper.Id, 0)));
        using var pdf = PdfDocument.Open(await own.GetByteArrayAsync($"/api/v1/accounts/{shipper.Id}/negotiation.pdf"));
        var text = Squeezed(string.Concat(pdf.GetPages().Select(page => page.Text)));
        Assert.Contains(Squeezed("all carriers"), text, StringComparison.Ordinal);
        Assert.DoesNotContain(Squeezed(neighbour.Name), text, StringComparison.Ordinal);
        Assert.DoesNotContain(Squeezed("manager's accounts"), text, StringComparison.Ordinal);

        foreach (var rights in (Rights[])[Rights.ShipperClerk(neighbour.Id, SiteOf(shipper.Id, 0)), Rights.AccountManager(carrier, neighbour.Id), Rights.TerminalReviewer(carrier, TerminalOf(carrier, 0)), Rights.Administrator(carrier)])
        {
            var other = await portal.ApiAsync(rights);
            foreach (var kind in (string[])["pdf", "xlsx"])
                Assert.Equal(HttpStatusCode.NotFound, (await other.ReadAsync($"/api/v1/accounts/{shipper.Id}/negotiation.{kind}")).Status);
        }

        // Of another carrier's freight there is nothing in it.
        var elsewhere = await SheetAsync(Rights.AccountManager(Guid.CreateVersion7(), shipper.Id));
        Assert.Empty(elsewhere.Floor.Pickups);
        Assert.Equal(0, elsewhere.Evidence.Lines);
        using var empty = PdfDocument.Open(NegotiationPdf.Write(elsewhere, Paper.A4));
        Assert.Equal(2, empty.NumberOfPages);
    }

    private Rights Manager => Rights.AccountManager(carrier, shipper.Id, neighbour.Id);

    private async Task<NegotiationSheet> SheetAsync(Rights rights) =>
        (await portal.Services.GetRequiredService<NegotiationDesk>().SheetAsync(new(Guid.CreateVersion7(), "Mona Manager", rights), shipper.Id, null, null, CancellationToken.None))!;

    private static double Beside(XDocument sheet, string name) => double.Parse(
        sheet.Descendants(Cells + "c").First(cell => cell.Value == name).ElementsAfterSelf(Cells + "c").First().Value, System.Globalization.CultureInfo.InvariantCulture);

    private static string Squeezed(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    private static void Keep(string name, byte[] pdf)
    {
        if (Environment.GetEnvironmentVariable("FETTLE_PICTURES") is { Length: > 0 } folder)
            File.WriteAllBytes(Path.Combine(folder, $"negotiation-{name}.pdf"), pdf);
    }
}
