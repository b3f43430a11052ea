using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Testing;
using Fettle.Web.Notices;
using Fettle.Web.Tests.Identity;
using Fettle.Web.Tests.Inspections;
using Marten;

namespace Fettle.Web.Tests.Holds;

/// <summary>What shipper and terminal say to each other about held freight, on the page and in the API, and who is mailed.</summary>
public sealed class ConversationTests(SharedPortal shared)
{
    private static string Tomorrow => DateTimeOffset.UtcNow.AddDays(1).ToString("O", CultureInfo.InvariantCulture);

    [Fact]
    public async Task Both_sides_write_on_the_page_and_the_other_is_owed_a_mail_with_the_text_and_a_link()
    {
        var hold = (await shared.HeldAsync())[0];

        Assert.Equal($"/holds/{hold.Id}", (await SendAsync("clara", hold, "messages", ("message", "We can send film.\r\nToday?"))).Location);
        Assert.Equal($"/holds/{hold.Id}", (await SendAsync("rita", hold, "messages", ("message", "Please do."))).Location);

        var page = await (await (await shared.PersonAsync("clara")).GetAsync($"/holds/{hold.Id}")).PageAsync();
        var talk = page.QuerySelector(".talk")!.TextContent;
        Assert.Contains("We can send film.", talk);
        Assert.Contains("Please do.", talk);
        var parties = (await shared.PortalAsync()).Parties;
        var notices = await NoticesAsync(hold);
        Assert.Equal([(NoticeKind.HoldNewsForTerminal, parties.Carrier.Terminals[0].Email), (NoticeKind.HoldNewsForShipper, parties.Shipper.Email)], notices.Select(notice => (notice.Kind, notice.To)));
        var body = (await (await shared.PersonAsync("rita")).GetAsync($"/messages/{notices[0].Id}/body")).Text;
        Assert.Contains("We can send film.", body);
        Assert.Contains($"/holds/{hold.Id}", body);
    }

    [Fact]
    public async Task A_message_sent_twice_from_one_page_is_kept_once()
    {
        var hold = (await shared.HeldAsync())[0];
        var clara = await shared.PersonAsync("clara");
        var page = await (await clara.GetAsync($"/holds/{hold.Id}")).PageAsync();
        var form = (IHtmlFormElement)page.QuerySelector($"form[action='/holds/{hold.Id}/messages']")!;
        (string, string)[] fields = [.. form.QuerySelectorAll("input").OfType<IHtmlInputElement>().Select(input => (input.Name!, input.Value)), ("message", "Once only.")];

        var answers = await Task.WhenAll(Enumerable.Range(0, 5).Select(_ => clara.PostAsync($"/holds/{hold.Id}/messages", fields)));

        Assert.All(answers, answer => Assert.Equal(HttpStatusCode.Redirect, answer.Status));
        Assert.Single((await LoadAsync(hold)).Messages);
        Assert.Single(await NoticesAsync(hold));
    }

    /// <summary>The name of what is sent comes from the page, so that anybody can use it for two things.</summary>
    [Fact]
    public async Task One_name_for_two_different_things_does_both_and_each_is_mailed()
    {
        var hold = (await shared.HeldAsync())[0];
        var step = ("step", Guid.NewGuid().ToString());

        foreach (var (place, field, text) in ((string, string, string)[])[("messages", "message", "We can send film."), ("exception-request", "exception", "It rides alone."), ("dispute", "dispute", "The tape was read wrongly.")])
        {
            foreach (var _ in (int[])[1, 2])
                Assert.Equal($"/holds/{hold.Id}", (await SendAsync("clara", hold, place, step, (field, text))).Location);
        }

        var after = await LoadAsync(hold);
        Assert.Equal((1, 1, 1), (after.Messages.Count, after.ExceptionRequests.Count, after.Disputes.Count));
        var notices = await NoticesAsync(hold);
        Assert.Equal(3, notices.Count);
        var rita = await shared.PersonAsync("rita");
        var bodies = new List<string>();
        foreach (var notice in notices)
            bodies.Add((await rita.GetAsync($"/messages/{notice.Id}/body")).Text);
        foreach (var text in (string[])["We can send film.", "It rides alone.", "The tape was read wrongly."])
            Assert.Single(bodies, body => body.Contains(text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task One_name_for_disputes_of_two_holds_keeps_a_photo_with_each()
    {
        var holds = new[] { (await shared.HeldAsync())[0], (await shared.HeldAsync())[0] };
        var clara = await shared.PersonAsync("clara");
        var step = ("step", Guid.NewGuid().ToString());
        foreach (var hold in holds)
        {
            var page = await (await clara.GetAsync($"/holds/{hold.Id}")).PageAsync();
            var sent = await clara.SubmitFilesAsync(page, $"form[action='/holds/{hold.Id}/dispute']", "photos", [("side.png", Photos.Pictures.Png())], step, ("dispute", "The tape was read wrongly."));
            Assert.Equal($"/holds/{hold.Id}", sent.Location);
        }

        foreach (var hold in holds)
            Assert.Equal((await LoadAsync(hold)).Disputes.Single().Photos, (await shared.PhotosAsync(hold.Placed.PickupId)).Select(photo => photo.Proof));
    }

    [Theory]
    [InlineData("", "Write something.")]
    [InlineData("   ", "Write something.")]
    [InlineData("It \u0007 rang.", "readable")]
    public async Task A_message_that_cannot_be_taken_is_told_at_its_field_and_kept(string text, string complaint)
    {
        var hold = (await shared.HeldAsync())[0];

        var answer = await SendAsync("clara", hold, "messages", ("message", text));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        Assert.Contains(complaint, page.QuerySelector("#talk .field__error")!.TextContent);
        Assert.Equal(text.Trim(), ((IHtmlTextAreaElement)page.QuerySelector("textarea[name=message]")!).Value.Trim());
        Assert.Empty((await LoadAsync(hold)).Messages);
    }

    [Fact]
    public async Task The_terminal_offers_rework_at_a_cost_and_the_shipper_authorises_it()
    {
        var hold = (await shared.HeldAsync())[0];
        await SendAsync("rita", hold, "offers", ("work", "Film, three turns over the pallet."), ("cost", "$85.50"), ("validUntil", Tomorrow));
        var offer = Assert.Single((await LoadAsync(hold)).Offers);
        Assert.Equal(Money.Dollars(85.5m), offer.Cost);
        var seen = (await (await (await shared.PersonAsync("clara")).GetAsync($"/holds/{hold.Id}")).PageAsync()).QuerySelector(".offer")!.TextContent;
        Assert.Contains("85.50 USD", seen);
        Assert.Contains("Film, three turns over the pallet.", seen);

        Assert.Equal($"/holds/{hold.Id}", (await SendAsync("clara", hold, "authorisation", ("offer", offer.OfferId.ToString()))).Location);

        var after = await LoadAsync(hold);
        Assert.Equal((offer.OfferId, HoldSide.Terminal), (after.Authorised!.OfferId, after.Turn!.Side));
        Assert.Equal([NoticeKind.HoldNewsForShipper, NoticeKind.HoldNewsForTerminal], (await NoticesAsync(hold)).Select(notice => notice.Kind));
        Assert.Contains("authorised rework at 85.50 USD", (await (await shared.PersonAsync("rita")).GetAsync($"/holds/{hold.Id}")).Text);
    }

    [Fact]
    public async Task An_offer_replaced_or_withdrawn_meanwhile_is_not_authorised_and_the_page_says_so()
    {
        var hold = (await shared.HeldAsync())[0];
        await SendAsync("rita", hold, "offers", ("work", "Film, three turns."), ("cost", "85"), ("validUntil", Tomorrow));
        var first = (await LoadAsync(hold)).Offers[0];
        await SendAsync("rita", hold, "offers", ("work", "Film and corner boards."), ("cost", "120"), ("validUntil", Tomorrow));
        var second = (await LoadAsync(hold)).Offers[1];

        var replaced = await SendAsync("clara", hold, "authorisation", ("offer", first.OfferId.ToString()));
        Assert.Equal(HttpStatusCode.Conflict, replaced.Status);
        Assert.Contains("made another offer meanwhile, at 120.00 USD", (await replaced.PageAsync()).QuerySelector("[role=alert]")!.TextContent);
        Assert.Equal($"/holds/{hold.Id}", (await SendAsync("rita", hold, $"offers/{second.OfferId}/withdrawal", ("withdrawal", "No film left."))).Location);
        var withdrawn = await SendAsync("clara", hold, "authorisation", ("offer", second.OfferId.ToString()));
        Assert.Equal(HttpStatusCode.Conflict, withdrawn.Status);
        Assert.Contains("No film left.", (await withdrawn.PageAsync()).QuerySelector("[role=alert]")!.TextContent);
        Assert.Null((await LoadAsync(hold)).Authorised);
    }

    [Theory]
    [InlineData("Film.", "-1", "tomorrow", "cost", "validUntil")]
    [InlineData("", "85.555", "2001-01-01", "work", "cost", "validUntil")]
    [InlineData("Film, three turns.", "1e9", "9999-12-31", "cost", "validUntil")]
    public async Task An_offer_that_cannot_be_taken_is_told_at_its_fields_and_kept(string work, string cost, string until, params string[] wrong)
    {
        var hold = (await shared.HeldAsync())[0];

        var answer = await SendAsync("rita", hold, "offers", ("work", work), ("cost", cost), ("validUntil", until));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        Assert.Equal(wrong, page.QuerySelectorAll("form[action$=offers] .field--wrong [name]").Select(field => field.GetAttribute("name")));
        Assert.Equal(cost, ((IHtmlInputElement)page.QuerySelector("input[name=cost]")!).Value);
        Assert.Empty((await LoadAsync(hold)).Offers);
    }

    [Fact]
    public async Task The_shipper_asks_for_an_exception_or_disputes_the_hold_with_a_reason()
    {
        var hold = (await shared.HeldAsync())[0];
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await SendAsync("clara", hold, "exception-request", ("exception", "No."))).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await SendAsync("clara", hold, "dispute", ("dispute", ""))).Status);

        await SendAsync("clara", hold, "exception-request", ("exception", "It rides alone at the nose."));
        await SendAsync("clara", hold, "dispute", ("dispute", "Slip 4711 says 1,980 lb."));

        var after = await LoadAsync(hold);
        Assert.Equal(("It rides alone at the nose.", "Slip 4711 says 1,980 lb."), (after.ExceptionRequests[0].Reason, after.Disputes[0].Evidence));
        Assert.Equal(2, (await NoticesAsync(hold)).Count(notice => notice.Kind == NoticeKind.HoldNewsForTerminal));
    }

    [Fact]
    public async Task Photos_with_a_dispute_are_kept_with_it_and_seen_by_both_sides_and_nobody_else()
    {
        var hold = (await shared.HeldAsync())[0];
        var clara = await shared.PersonAsync("clara");
        var page = await (await clara.GetAsync($"/holds/{hold.Id}")).PageAsync();
        var form = $"form[action='/holds/{hold.Id}/dispute']";

        var broken = await clara.SubmitFilesAsync(page, form, "photos", [("slip.jpg", Photos.Pictures.Jpeg()), ("slip.svg", "<svg onload=\"alert(1)\"/>"u8.ToArray())], ("dispute", "Slip 4711 says 1,980 lb."));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, broken.Status);
        var told = await broken.PageAsync();
        Assert.Contains("slip.svg: This is no JPEG, PNG or WebP picture", told.QuerySelector($"{form} .field__error")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("Slip 4711 says 1,980 lb.", told.QuerySelector($"{form} textarea")!.TextContent);
        Assert.Empty((await LoadAsync(hold)).Disputes);

        foreach (var _ in (int[])[1, 2])
            Assert.Equal(HttpStatusCode.Redirect, (await clara.SubmitFilesAsync(page, form, "photos", [("slip.jpg", Photos.Pictures.Jpeg())], ("dispute", "Slip 4711 says 1,980 lb."))).Status);

        var photo = Assert.Single(Assert.Single((await LoadAsync(hold)).Disputes).Photos);
        foreach (var (who, status) in ((string, HttpStatusCode)[])[("clara", HttpStatusCode.OK), ("rita", HttpStatusCode.OK), ("olaf", HttpStatusCode.NotFound), ("otto", HttpStatusCode.NotFound)])
            Assert.Equal(status, (await (await shared.PersonAsync(who)).GetAsync($"/photos/{photo.PhotoId}")).Status);
        Assert.Contains("Photos with the dispute", (await (await shared.PersonAsync("rita")).GetAsync($"/holds/{hold.Id}")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_correction_shows_the_line_as_declared_and_is_checked_before_it_is_sent()
    {
        var hold = (await shared.HeldAsync())[0];
        var clara = await shared.PersonAsync("clara");
        var page = await (await clara.GetAsync($"/holds/{hold.Id}/correction")).PageAsync();
        Assert.Equal("2056", ((IHtmlInputElement)page.QuerySelector("[name='handlingUnits[0].grossWeight']")!).Value);
        Assert.Null(page.QuerySelector("input[type=text][name='handlingUnits[0].reference']"));
        Assert.Contains("Would be held", page.QuerySelector("#result-0")!.TextContent);

        var wrong = await CorrectAsync(clara, hold, page, ("grossWeight", "heavy"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Equal("heavy", ((IHtmlInputElement)(await wrong.PageAsync()).QuerySelector("[name='handlingUnits[0].grossWeight']")!).Value);
        var same = await CorrectAsync(clara, hold, page);
        Assert.Equal(HttpStatusCode.Conflict, same.Status);
        Assert.Contains("Nothing differs", (await same.PageAsync()).QuerySelector("[role=alert]")!.TextContent);

        var sent = await CorrectAsync(clara, hold, page, ("protection.wrapTurns", "3"), ("quantity", "99"), ("reference", "Z9"));

        Assert.Equal($"/holds/{hold.Id}", sent.Location);
        var after = await LoadAsync(hold);
        var correction = Assert.Single(after.Corrections);
        Assert.Equal((3, 1, "B1"), (correction.HandlingUnit.Protection.WrapTurns, correction.HandlingUnit.Quantity, correction.HandlingUnit.Reference));
        Assert.DoesNotContain(correction.Findings, finding => finding.Code == "wrap-turns");
        Assert.Equal(1, after.Placed.HandlingUnit.Protection.WrapTurns);
        var shown = await (await (await shared.PersonAsync("rita")).GetAsync($"/holds/{hold.Id}")).PageAsync();
        Assert.Contains("turns of film", shown.QuerySelector(".talk table")!.TextContent);
        Assert.Contains("As it was declared first", shown.Body!.TextContent);
    }

    [Fact]
    public async Task The_API_does_the_same_and_shows_all_of_it()
    {
        var hold = (await shared.HeldAsync())[0];
        var (clerk, reviewer) = (await shared.ClerkAsync(), await shared.ReviewerAsync());
        var path = $"/api/v1/holds/{hold.Id}";

        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"{path}/messages", new JsonObject { ["text"] = "Good morning." })).Status);
        var offered = await reviewer.PostAsync($"{path}/offers", new JsonObject { ["work"] = "Film, three turns.", ["cost"] = 85.5, ["validUntil"] = Tomorrow });
        Assert.Equal(("standing", "shipper"), (offered.Json.At("offers.0.state"), offered.Json.At("waitsFor")));
        var offer = offered.Json.At("offers.0.id");
        var authorised = await clerk.PostAsync($"{path}/answers", new JsonObject { ["answer"] = "authorise", ["offer"] = offer });
        Assert.Equal(("authorised", "terminal"), (authorised.Json.At("offers.0.state"), authorised.Json.At("waitsFor")));
        var twice = await clerk.PostAsync($"{path}/answers", new JsonObject { ["answer"] = "authorise", ["offer"] = offer });
        Assert.Equal((HttpStatusCode.Conflict, "urn:fettle:problem:offer-authorised"), (twice.Status, twice.Json.At("type")));
        var unit = Freight.Sound()["handlingUnits"]![0]!.DeepClone();
        unit.AsObject().Remove("quantity");
        var corrected = await clerk.PostAsync($"{path}/answers", new JsonObject { ["answer"] = "correct", ["handlingUnit"] = unit });
        Assert.True(corrected.Status == HttpStatusCode.Created, corrected.ToString());
        Assert.Equal(("940", "B1", "0"), (corrected.Json.At("handlingUnit.grossWeight"), corrected.Json.At("handlingUnit.reference"), corrected.Json["findings"]!.AsArray().Count(finding => finding.At("severity") == "stop").ToString(CultureInfo.InvariantCulture)));

        var read = (await reviewer.ReadAsync(path)).Json;
        Assert.Equal(["authorise", "correct"], read["answers"]!.AsArray().Select(answer => answer.At("answer")));
        Assert.Equal(("Good morning.", "shipper"), (read.At("messages.0.text"), read.At("messages.0.from")));
        Assert.Equal("open", read.At("state"));
    }

    [Theory]
    [InlineData("""{"answer":"shrug"}""", "answer")]
    [InlineData("""{}""", "answer")]
    [InlineData("""{"answer":"authorise"}""", "offer")]
    [InlineData("""{"answer":"exception","text":"no"}""", "text")]
    [InlineData("""{"answer":"dispute"}""", "text")]
    [InlineData("""{"answer":"correct"}""", "handlingUnit.grossWeight")]
    [InlineData("""{"answer":"correct","handlingUnit":{"grossWeight":-4}}""", "handlingUnit.grossWeight")]
    public async Task An_answer_that_cannot_be_read_names_its_field(string body, string field)
    {
        var hold = (await shared.HeldAsync())[0];

        var answer = await (await shared.ClerkAsync()).PostAsync($"/api/v1/holds/{hold.Id}/answers", JsonNode.Parse(body)!);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Contains(field, answer.Json["errors"]!.AsObject().Select(error => error.Key));
    }

    [Fact]
    public async Task Several_holds_are_decided_at_once_and_each_answers_for_itself()
    {
        var (first, second) = ((await shared.HeldAsync())[0], (await shared.HeldAsync())[0]);
        var reviewer = await shared.ReviewerAsync();
        await reviewer.PostAsync($"/api/v1/holds/{second.Id}/decisions", new JsonObject { ["decision"] = "return", ["reason"] = "It leans." });
        var unknown = Guid.CreateVersion7();

        var answer = await reviewer.PostAsync("/api/v1/holds/decisions", new JsonObject
        {
            ["holds"] = new JsonArray(first.Id.ToString(), second.Id.ToString(), unknown.ToString()),
            ["decision"] = new JsonObject { ["decision"] = "release", ["reason"] = "Measured: it is flush." },
        });

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        var results = answer.Json["results"]!.AsArray();
        Assert.Equal(["decided", "refused", "not-found"], results.Select(result => result.At("result")));
        Assert.Equal("return", results[1].At("decision.decision"));
        Assert.Equal((HoldDecision.Release, HoldDecision.Return), ((await LoadAsync(first)).Decided!.Decision, (await LoadAsync(second)).Decided!.Decision));
    }

    private async Task<Answer> SendAsync(string who, Hold hold, string place, params (string, string)[] fields)
    {
        var browser = await shared.PersonAsync(who);
        var page = await (await browser.GetAsync($"/holds/{hold.Id}")).PageAsync();
        var token = ((IHtmlInputElement)page.QuerySelector("input[name=__RequestVerificationToken]")!).Value;
        return await browser.PostAsync($"/holds/{hold.Id}/{place}", [("__RequestVerificationToken", token), .. fields]);
    }

    /// <summary>Sends the correction page's form with some fields of the line changed.</summary>
    private static async Task<Answer> CorrectAsync(Browser browser, Hold hold, AngleSharp.Dom.IDocument page, params (string Field, string Value)[] changed)
    {
        var fields = new List<(string, string)>();
        foreach (var field in page.QuerySelectorAll("#declaration [name]"))
        {
            var name = field.GetAttribute("name")!;
            if (changed.Any(change => name == $"handlingUnits[0].{change.Field}"))
                continue;
            if (field is IHtmlInputElement input && (input.Type != "checkbox" || input.IsChecked))
                fields.Add((name, input.Value));
            else if (field is IHtmlSelectElement select)
                fields.Add((name, select.Value ?? ""));
        }

        return await browser.PostAsync($"/holds/{hold.Id}/correction", [.. fields, .. changed.Select(change => ($"handlingUnits[0].{change.Field}", change.Value)), ("do", "correct")]);
    }

    private async Task<Hold> LoadAsync(Hold hold)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return (await session.LoadAsync<Hold>(hold.Id))!;
    }

    private async Task<IReadOnlyList<Notice>> NoticesAsync(Hold hold)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await session.Query<Notice>().Where(notice => notice.HoldId == hold.Id).OrderBy(notice => notice.CreatedAt).ToListAsync();
    }
}
