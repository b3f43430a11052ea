using System.Net;
using System.Text.Json.Nodes;
using Fettle.Testing;
using Fettle.Web.Tests.Pickups;
using PdfSharp.Pdf.IO;

namespace Fettle.Web.Tests.BuildSheets;

/// <summary>Build sheets of drafts and of submitted pickups, on the page, as PDF and through the API.</summary>
public sealed class BuildSheetPageTests(SharedPortal shared)
{
    [Fact]
    public async Task A_line_of_a_draft_has_a_sheet_on_the_page_and_as_a_pdf()
    {
        var tab = await EditorTab.StartAsync(await shared.PersonAsync("clara"));
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0)]);
        var link = tab.Page.QuerySelector("#result-0 a[href$='/build-sheet']")!.GetAttribute("href")!;
        var clara = await shared.PersonAsync("clara");

        var page = await clara.GetAsync(link);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        var sheet = (await page.PageAsync()).QuerySelector(".sheet")!;
        Assert.Equal("A1", sheet.QuerySelector("h1")!.TextContent);
        Assert.Contains("Film", sheet.QuerySelector(".sheet__steps")!.TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(sheet.QuerySelectorAll(".sheet__pictures svg"));
        var pdf = await clara.GetAsync($"{link}.pdf?paper=a4");
        Assert.Equal("application/pdf", pdf.Headers["Content-Type"]);
        Assert.StartsWith("%PDF-", pdf.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await clara.GetAsync($"{link}.pdf?paper=papyrus")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("olaf")).GetAsync(link)).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("olaf")).GetAsync(link + ".pdf")).Status);
        foreach (var line in (string[])["0", "2", "-1", "999999999999", "A1"])
            Assert.Equal(HttpStatusCode.NotFound, (await clara.GetAsync($"/pickups/{tab.Id}/lines/{line}/build-sheet")).Status);
    }

    [Fact]
    public async Task A_line_that_is_not_complete_leads_back_to_where_it_is_completed()
    {
        var tab = await EditorTab.StartAsync(await shared.PersonAsync("clara"));
        var clara = await shared.PersonAsync("clara");

        foreach (var path in (string[])["lines/1/build-sheet", "lines/1/build-sheet.pdf", "build-sheets.pdf"])
        {
            var answer = await clara.GetAsync($"/pickups/{tab.Id}/{path}");
            Assert.Equal($"/pickups/{tab.Id}", answer.Location);
            Assert.Contains("Unit 1 has no build sheet yet", (await (await clara.GetAsync(answer.Location!)).PageAsync()).QuerySelector(".notice")!.TextContent, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task The_api_gives_a_page_for_each_line_to_whoever_may_see_the_pickup()
    {
        var pickup = await DeclareAsync(Freight.Sound(), Freight.Troubled());
        var path = $"/api/v1/pickups/{pickup}/build-sheets.pdf";

        using var answer = await (await shared.ClerkAsync()).GetAsync(path);

        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        using var pdf = PdfReader.Open(new MemoryStream(await answer.Content.ReadAsByteArrayAsync()), PdfDocumentOpenMode.Import);
        Assert.Equal(2, pdf.PageCount);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.OtherClerkAsync()).ReadAsync(path)).Status);
        // A draft is its clerk's alone.
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.ReviewerAsync()).ReadAsync(path)).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await (await shared.AnonymousAsync()).ReadAsync(path)).Status);
        var papyrus = await (await shared.ClerkAsync()).ReadAsync(path + "?paper=papyrus");
        Assert.Equal(HttpStatusCode.BadRequest, papyrus.Status);
        Assert.Contains("letter", papyrus.Json.At("errors.paper.0"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_terminal_reads_the_sheets_of_what_comes_to_it()
    {
        var pickup = (await shared.HeldAsync())[0].Placed.PickupId;

        Assert.Equal(HttpStatusCode.OK, (await (await shared.ReviewerAsync()).ReadAsync($"/api/v1/pickups/{pickup}/build-sheets.pdf")).Status);
        var page = await (await (await shared.PersonAsync("rita")).GetAsync($"/pickups/{pickup}/lines/1/build-sheet")).PageAsync();
        Assert.Contains("would be held", page.QuerySelector(".sheet__stop")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("otto")).GetAsync($"/pickups/{pickup}/lines/1/build-sheet")).Status);
    }

    private async Task<string> DeclareAsync(JsonObject check, JsonObject more)
    {
        check["handlingUnits"]!.AsArray().Add(more["handlingUnits"]![0]!.DeepClone());
        var declared = await (await shared.ClerkAsync()).PostAsync("/api/v1/pickups", check.AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        return declared.Json.At("id")!;
    }
}
