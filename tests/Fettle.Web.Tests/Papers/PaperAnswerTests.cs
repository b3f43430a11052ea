using System.Net;
using System.Text.Json.Nodes;
using Fettle.Testing;
using UglyToad.PdfPig;
using static Fettle.Web.Tests.Papers.Scanned;

namespace Fettle.Web.Tests.Papers;

/// <summary>The papers over HTTP: for whose freight it is, and for nobody else.</summary>
public sealed class PaperAnswerTests(SharedPortal shared)
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_submitted_pickup_has_labels_bill_and_manifest()
    {
        var clerk = await shared.ClerkAsync();
        var id = await SubmittedAsync(clerk, "77 Harbour Street, Saltgrass, TX 77001");

        using var labels = PdfDocument.Open(await clerk.GetByteArrayAsync($"/api/v1/pickups/{id}/labels.pdf", Cancel));
        Assert.Equal(4, labels.NumberOfPages);
        Assert.Matches("^]C100[0-9]{18}$", BarCode(labels.GetPage(4)));
        using var third = PdfDocument.Open(await clerk.GetByteArrayAsync($"/api/v1/pickups/{id}/labels.pdf?unit=3", Cancel));
        Assert.Equal(BarCode(labels.GetPage(3)), BarCode(third.GetPage(1)));
        foreach (var paper in (string[])["labels.pdf", "bill-of-lading.pdf"])
            Assert.Contains("77HarbourStreet,Saltgrass,TX77001", Text(await clerk.GetByteArrayAsync($"/api/v1/pickups/{id}/{paper}", Cancel)), StringComparison.Ordinal);
        using var a4 = PdfDocument.Open(await clerk.GetByteArrayAsync($"/api/v1/pickups/{id}/manifest.pdf?paper=a4", Cancel));
        Assert.Equal(595.28, a4.GetPage(1).Width, 0.01);
    }

    [Fact]
    public async Task The_consignee_s_address_is_kept_and_told()
    {
        var clerk = await shared.ClerkAsync();
        var id = await SubmittedAsync(clerk, " 77 Harbour Street ");
        var told = await clerk.AnswerAsync(new HttpRequestMessage(HttpMethod.Get, $"/api/v1/pickups/{id}"));
        Assert.Equal("77 Harbour Street", told.Json.At("consigneeAddress"));
        Assert.Contains("77 Harbour Street", (await (await shared.PersonAsync("clara")).GetAsync($"/pickups/{id}")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_address_that_cannot_be_printed_is_refused_at_its_field()
    {
        var clerk = await shared.ClerkAsync();
        var pickup = Freight.Sound().AsPickup(DateTimeOffset.UtcNow);
        pickup["consigneeAddress"] = new string('x', 201);
        var refused = await clerk.PostAsync("/api/v1/pickups", pickup);
        Assert.Equal(HttpStatusCode.BadRequest, refused.Status);
        Assert.Contains("consigneeAddress", refused.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("labels.pdf?unit=0", "unit")]
    [InlineData("labels.pdf?unit=5", "unit")]
    [InlineData("labels.pdf?unit=x", "unit")]
    [InlineData("bill-of-lading.pdf?paper=napkin", "paper")]
    [InlineData("manifest.pdf?paper=napkin", "paper")]
    public async Task What_cannot_be_made_is_said_at_the_parameter(string asked, string field)
    {
        var clerk = await shared.ClerkAsync();
        var id = await SubmittedAsync(clerk, null);
        var refused = await clerk.AnswerAsync(new HttpRequestMessage(HttpMethod.Get, $"/api/v1/pickups/{id}/{asked}"));
        Assert.Equal(HttpStatusCode.BadRequest, refused.Status);
        Assert.Contains($"\"{field}\"", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_exception_has_its_document_once_it_is_decided_and_no_other_hold_has_one()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        var reviewer = await shared.ReviewerAsync();
        var address = $"/api/v1/holds/{hold.Id}/exception.pdf";
        Assert.Equal(HttpStatusCode.NotFound, (await reviewer.GetAsync(address, Cancel)).StatusCode);

        var decided = await reviewer.PostAsync($"/api/v1/holds/{hold.Id}/decisions", ReleasedAsException());
        Assert.Equal(HttpStatusCode.Created, decided.Status);

        var text = Text(await reviewer.GetByteArrayAsync(address, Cancel));
        Assert.Contains(Squeezed($"X-{hold.Placed.Number}"), text, StringComparison.Ordinal);
        Assert.Contains("Strappedonourdock.", text, StringComparison.Ordinal);
        Assert.Contains("Nothingbesideitontheleft.", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await (await shared.ClerkAsync()).GetAsync(address, Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.OtherClerkAsync()).GetAsync(address, Cancel)).StatusCode);
        var page = await (await (await shared.PersonAsync("clara")).GetAsync($"/pickups/{hold.Placed.PickupId}")).PageAsync();
        Assert.NotNull(page.QuerySelector($"a[href='/holds/{hold.Id}/exception.pdf']"));
        Assert.Equal(HttpStatusCode.OK, (await (await shared.PersonAsync("rita")).GetAsync($"/holds/{hold.Id}/exception.pdf")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("olaf")).GetAsync($"/holds/{hold.Id}/exception.pdf")).Status);
    }

    [Fact]
    public async Task The_page_of_a_pickup_leads_to_all_of_its_papers()
    {
        var id = await SubmittedAsync(await shared.ClerkAsync(), null);
        foreach (var person in (string[])["clara", "rita"])
        {
            var browser = await shared.PersonAsync(person);
            var page = await (await browser.GetAsync($"/pickups/{id}")).PageAsync();
            foreach (var paper in (string[])["labels.pdf", "bill-of-lading.pdf", "manifest.pdf", "evidence.zip"])
            {
                Assert.NotNull(page.QuerySelector($"a[href='/pickups/{id}/{paper}']"));
                Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync($"/pickups/{id}/{paper}")).Status);
            }
        }
    }

    [Fact]
    public async Task Nobody_gets_papers_of_somebody_else_s_freight()
    {
        var id = await SubmittedAsync(await shared.ClerkAsync(), null);
        var (other, olaf) = (await shared.OtherClerkAsync(), await shared.PersonAsync("olaf"));
        foreach (var paper in (string[])["labels.pdf", "bill-of-lading.pdf", "manifest.pdf"])
        {
            Assert.Equal(HttpStatusCode.NotFound, (await other.GetAsync($"/api/v1/pickups/{id}/{paper}", Cancel)).StatusCode);
            Assert.Equal(HttpStatusCode.NotFound, (await olaf.GetAsync($"/pickups/{id}/{paper}")).Status);
        }
    }

    [Fact]
    public async Task A_draft_has_no_papers_yet()
    {
        var clerk = await shared.ClerkAsync();
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.NotFound, (await clerk.GetAsync($"/api/v1/pickups/{declared.Json.At("id")}/labels.pdf", Cancel)).StatusCode);
    }

    private static JsonObject ReleasedAsException() => new()
    {
        ["decision"] = "release-as-exception",
        ["reason"] = "Strapped on our dock.",
        ["exception"] = new JsonObject
        {
            ["acceptedBy"] = "Harbour Stores",
            ["risk"] = "Edges rub through on the way.",
            ["until"] = DateTimeOffset.UtcNow.AddDays(3).ToString("O"),
            ["conditions"] = "Nothing beside it on the left.",
        },
    };

    private static async Task<Guid> SubmittedAsync(HttpClient clerk, string? address)
    {
        var pickup = Freight.Sound().AsPickup(DateTimeOffset.UtcNow);
        pickup["consigneeAddress"] = address;
        var declared = await clerk.PostAsync("/api/v1/pickups", pickup);
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        var id = Guid.Parse(declared.Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        return id;
    }
}
