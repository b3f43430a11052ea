using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Fettle.Web.Evidence;
using Fettle.Web.Notices;
using Fettle.Web.Tests.Identity;
using Marten;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Web.Tests.Claims;

/// <summary>A claim: filed by the shipper upon a record of delivery, answered by the carrier, and nobody's step lost or made twice.</summary>
public sealed class ClaimTests(SharedPortal shared)
{
    private static string Today => DateTimeOffset.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [Fact]
    public async Task A_claim_is_filed_answered_and_taken_by_the_API_and_each_side_is_told_of_the_others_steps()
    {
        var (id, outcome) = await HarmedAsync();
        var (clerk, reviewer) = (await shared.ClerkAsync(), await shared.ReviewerAsync());

        var filed = await clerk.PostAsync($"/api/v1/pickups/{id}/claims", Claim(outcome, ("A1", 2, 500.25m)));
        Assert.Equal(HttpStatusCode.Created, filed.Status);
        var path = filed.Headers.Location!.ToString();
        Assert.Equal(("filed", "500.25", "1", "false"), (filed.Json.At("state"), filed.Json.At("amount"), filed.Json.At("revision"), filed.Json.At("isLate")));
        // 49 CFR 370.5 and 370.9, from memory.
        var day = DateOnly.Parse(filed.Json.At("filedOn")!, CultureInfo.InvariantCulture);
        Assert.Equal((day.AddDays(30), day.AddDays(120)), (DateOnly.Parse(filed.Json.At("acknowledgeBy")!, CultureInfo.InvariantCulture), DateOnly.Parse(filed.Json.At("answerBy")!, CultureInfo.InvariantCulture)));

        Assert.Equal("offered", (await reviewer.PostAsync($"{path}/answers", Answer(1, "offered", 300))).Json.At("state"));
        Assert.Equal("agreed", (await clerk.PostAsync($"{path}/acceptance", new JsonObject { ["seen"] = 2 })).Json.At("state"));
        var paid = await reviewer.PostAsync($"{path}/answers", Answer(3, "paid", 300));

        Assert.Equal((HttpStatusCode.Created, "paid", "300"), (paid.Status, paid.Json.At("state"), paid.Json.At("answers.1.amount")));
        Assert.Equal(paid.Text, (await clerk.ReadAsync(path)).Text);
        Assert.Equal("paid", (await clerk.ReadAsync($"/api/v1/pickups/{id}")).Json.At("claims.0.state"));
        var notices = await NoticesAsync(id);
        Assert.Equal(2, notices[NoticeKind.ClaimForTerminal].Count());
        Assert.Equal(2, notices[NoticeKind.ClaimForShipper].Count());
        Assert.Equal(day.AddDays(120 - 21), DateOnly.FromDateTime(Assert.Single(notices[NoticeKind.ClaimAnswerDeadline]).DueAt.UtcDateTime));
        Assert.Empty(notices[NoticeKind.SuitDeadline]);

        // All of it stands in the pickup's chained file.
        var (chain, records) = await (await shared.PortalAsync()).Services.GetRequiredService<EvidenceDesk>().SealAsync(id, [], CancellationToken.None);
        Assert.Equal(["claim_filed", "claim_answered", "claim_offer_accepted", "claim_answered"], chain.Links.Select(link => records[link.Source].Kind).Where(what => what.StartsWith("claim", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_disallowance_needs_a_reason_begins_the_time_for_a_suit_and_reminds_the_shipper_before_it_ends()
    {
        var (id, path) = await FiledAsync();
        var reviewer = await shared.ReviewerAsync();

        Assert.NotNull((await reviewer.PostAsync($"{path}/answers", Answer(1, "disallowed", null))).Json["errors"]!["reason"]);
        var disallowed = await reviewer.PostAsync($"{path}/answers", Answer(1, "disallowed", null, "The cartons were over the deck."));

        var day = DateOnly.Parse(Today, CultureInfo.InvariantCulture);
        Assert.Equal(("disallowed", day.AddYears(2)), (disallowed.Json.At("state"), DateOnly.Parse(disallowed.Json.At("suitBy")!, CultureInfo.InvariantCulture)));
        var reminder = Assert.Single((await NoticesAsync(id))[NoticeKind.SuitDeadline]);
        Assert.Equal(day.AddYears(2).AddDays(-90), DateOnly.FromDateTime(reminder.DueAt.UtcDateTime));
        // Neither are the carrier's own reminders sent any more, nor the one to file; that to the shipper is, until the claim is paid.
        foreach (var kind in (NoticeKind[])[NoticeKind.ClaimAcknowledgeDeadline, NoticeKind.ClaimAnswerDeadline, NoticeKind.ClaimDeadline])
            Assert.Equal(NoticeState.Overtaken, await SentAsync(Assert.Single((await NoticesAsync(id))[kind])));
        Assert.Equal(HttpStatusCode.Created, (await reviewer.PostAsync($"{path}/answers", Answer(2, "paid", 10, "Settled."))).Status);
        Assert.Equal(NoticeState.Overtaken, await SentAsync(reminder));
    }

    [Fact]
    public async Task A_reminder_that_is_due_is_sent_and_says_what_stands()
    {
        var (id, _) = await FiledAsync();
        var notice = Assert.Single((await NoticesAsync(id))[NoticeKind.ClaimAcknowledgeDeadline]);
        Assert.Equal(NoticeState.Sent, await SentAsync(notice));
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        var letter = await (await shared.PortalAsync()).Services.GetRequiredService<LetterDesk>().WriteAsync(notice, session, CancellationToken.None);
        Assert.Contains("acknowledge the claim by", letter.Subject, StringComparison.Ordinal);
        Assert.Contains("500.25 USD", letter.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whoever_had_not_seen_the_last_step_is_told_whose_it_was()
    {
        var (_, path) = await FiledAsync();
        var reviewer = await shared.ReviewerAsync();
        Assert.Equal(HttpStatusCode.Created, (await reviewer.PostAsync($"{path}/answers", Answer(1, "acknowledged", null))).Status);

        var late = await reviewer.PostAsync($"{path}/answers", Answer(1, "disallowed", null, "No."));

        Assert.Equal((HttpStatusCode.Conflict, "urn:fettle:problem:claim-moved-on"), (late.Status, late.Json.At("type")));
        Assert.Equal("urn:fettle:problem:claim-stands-so", (await reviewer.PostAsync($"{path}/answers", Answer(2, "acknowledged", null))).Json.At("type"));
    }

    [Fact]
    public async Task A_claim_that_is_sent_twice_with_one_key_is_filed_once()
    {
        var (id, outcome) = await HarmedAsync();
        var clerk = await shared.ClerkAsync();
        var key = Guid.NewGuid().ToString();
        var first = await clerk.PostAsync($"/api/v1/pickups/{id}/claims", Claim(outcome, ("A1", 1, 10)), key);
        Assert.Equal(first.Text, (await clerk.PostAsync($"/api/v1/pickups/{id}/claims", Claim(outcome, ("A1", 1, 10)), key)).Text);
        Assert.Single(await StoredAsync(id));
    }

    [Theory]
    [InlineData("""{"lines":[{"reference":"A1","count":1,"amount":10}],"grounds":"Crushed."}""", "outcomeId")]
    [InlineData("""{"outcomeId":"OUTCOME","grounds":"Crushed."}""", "lines")]
    [InlineData("""{"outcomeId":"OUTCOME","lines":[null],"grounds":"Crushed."}""", "lines[0].reference")]
    [InlineData("""{"outcomeId":"OUTCOME","lines":[{"reference":"A1","count":0,"amount":10}],"grounds":"Crushed."}""", "lines[0].count")]
    [InlineData("""{"outcomeId":"OUTCOME","lines":[{"reference":"A1","count":1,"amount":0}],"grounds":"Crushed."}""", "lines[0].amount")]
    [InlineData("""{"outcomeId":"OUTCOME","lines":[{"reference":"A1","count":1,"amount":10.001}],"grounds":"Crushed."}""", "lines[0].amount")]
    [InlineData("""{"outcomeId":"OUTCOME","lines":[{"reference":"A1","count":1,"amount":79228162514264337593543950335}],"grounds":"Crushed."}""", "lines[0].amount")]
    [InlineData("""{"outcomeId":"OUTCOME","lines":[{"reference":"A1","count":1,"amount":10}]}""", "grounds")]
    [InlineData("""{"outcomeId":"OUTCOME","lines":[{"reference":"A1","count":1,"amount":10}],"grounds":"Crus\u0000hed"}""", "grounds")]
    public async Task What_cannot_be_read_is_named_by_its_field(string body, string field)
    {
        var (id, outcome) = await HarmedAsync();
        var answer = await (await shared.ClerkAsync()).PostAsync($"/api/v1/pickups/{id}/claims", JsonNode.Parse(body.Replace("OUTCOME", outcome, StringComparison.Ordinal))!);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.NotNull(answer.Json["errors"]![field]);
        Assert.Empty(await StoredAsync(id));
    }

    [Theory]
    [InlineData("A1", 3, HttpStatusCode.UnprocessableEntity, "more-than-harmed")]
    [InlineData("Z9", 1, HttpStatusCode.UnprocessableEntity, "more-than-harmed")]
    [InlineData("A1", 1, HttpStatusCode.Conflict, "delivery-changed")]
    public async Task What_was_not_harmed_or_rests_on_another_record_is_refused(string reference, int count, HttpStatusCode status, string code)
    {
        var (id, outcome) = await HarmedAsync();
        var rests = code == "delivery-changed" ? Guid.NewGuid().ToString() : outcome;
        var answer = await (await shared.ClerkAsync()).PostAsync($"/api/v1/pickups/{id}/claims", Claim(rests, (reference, count, 10)));
        Assert.Equal((status, $"urn:fettle:problem:{code}"), (answer.Status, answer.Json.At("type")));
    }

    [Theory]
    [InlineData("""{"seen":1,"answer":"refused","answeredOn":"TODAY"}""", "answer")]
    [InlineData("""{"seen":1,"answer":"paid","answeredOn":"TODAY"}""", "amount")]
    [InlineData("""{"seen":1,"answer":"paid","answeredOn":"soon","amount":5}""", "answeredOn")]
    [InlineData("""{"answer":"acknowledged","answeredOn":"TODAY"}""", "seen")]
    public async Task An_answer_that_cannot_be_read_is_named_by_its_field(string body, string field)
    {
        var (_, path) = await FiledAsync();
        var answer = await (await shared.ReviewerAsync()).PostAsync($"{path}/answers", JsonNode.Parse(body.Replace("TODAY", Today, StringComparison.Ordinal))!);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.NotNull(answer.Json["errors"]![field]);
    }

    [Fact]
    public async Task The_list_has_what_is_open_and_what_is_closed_apart()
    {
        var (_, open) = await FiledAsync();
        var (_, closed) = await FiledAsync();
        var clerk = await shared.ClerkAsync();
        var withdrawal = new JsonObject { ["seen"] = 1, ["reason"] = "Found." };
        var (first, again) = (await clerk.PostAsync($"{closed}/withdrawal", withdrawal), await clerk.PostAsync($"{closed}/withdrawal", withdrawal));
        Assert.Equal(HttpStatusCode.Created, first.Status);
        // Who asks twice, without a key, is told the same twice.
        Assert.Equal((first.Status, first.Headers.Location, first.Json.ToJsonString()), (again.Status, again.Headers.Location, again.Json.ToJsonString()));

        Assert.Equal((true, false), await HasAsync("open"));
        Assert.Equal((false, true), await HasAsync("closed"));
        Assert.Equal((true, true), await HasAsync("all"));
        Assert.Equal(HttpStatusCode.BadRequest, (await clerk.ReadAsync("/api/v1/claims?state=mine")).Status);

        async Task<(bool, bool)> HasAsync(string state)
        {
            var text = (await clerk.ReadAsync($"/api/v1/claims?state={state}")).Text;
            return (text.Contains(open.Split('/')[^1], StringComparison.Ordinal), text.Contains(closed.Split('/')[^1], StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task On_the_pages_a_clerk_files_and_withdraws_and_a_form_sent_twice_files_once()
    {
        var (id, _) = await HarmedAsync();
        var clara = await shared.PersonAsync("clara");
        Assert.Contains("File a claim", (await (await clara.GetAsync($"/pickups/{id}")).PageAsync()).Body!.TextContent, StringComparison.Ordinal);
        var page = await (await clara.GetAsync($"/pickups/{id}/claims/new")).PageAsync();
        Assert.Equal("2", page.QuerySelector("input[name='Lines[0].Count']")!.GetAttribute("value"));
        var form = $"form[action='/pickups/{id}/claims']";

        var wrong = await clara.SubmitAsync(page, form, ("Lines[0].Sum", "ten"), ("Grounds", "Crushed at the corner."));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        var again = await wrong.PageAsync();
        Assert.StartsWith("An amount in US dollars above 0", again.QuerySelector(".field--wrong .field__error")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(("ten", "Crushed at the corner."), (again.QuerySelector("input[name='Lines[0].Sum']")!.GetAttribute("value"), again.QuerySelector("textarea[name=Grounds]")!.TextContent.Trim()));

        string? location = null;
        foreach (var _ in (int[])[1, 2])
            location = (await clara.SubmitAsync(again, form, ("Lines[0].Sum", "$1,200.50"))).Location;

        var claim = Assert.Single(await StoredAsync(id));
        Assert.Equal((1200.50m, $"/pickups/{id}/claims/{claim.Id}"), (claim.Filed.Total.Amount, location));
        var shown = await (await clara.GetAsync(location!)).PageAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await clara.SubmitAsync(shown, $"form[action='{location}/withdrawal']")).Status);
        Assert.Equal(location, (await clara.SubmitAsync(shown, $"form[action='{location}/withdrawal']", ("why", "Found behind the racks."))).Location);
        Assert.Equal(ClaimState.Withdrawn, Assert.Single(await StoredAsync(id)).State);
    }

    [Fact]
    public async Task On_the_pages_more_than_was_harmed_stands_at_its_field_and_a_new_record_of_delivery_is_shown_first()
    {
        var (id, outcome) = await HarmedAsync();
        var clara = await shared.PersonAsync("clara");
        var page = await (await clara.GetAsync($"/pickups/{id}/claims/new")).PageAsync();
        var form = $"form[action='/pickups/{id}/claims']";
        var more = await (await clara.SubmitAsync(page, form, ("Lines[0].Count", "3"), ("Lines[0].Sum", "30"), ("Grounds", "Crushed."))).PageAsync();
        Assert.Contains("the claim is for 3", more.QuerySelector(".field--wrong .field__error")!.TextContent, StringComparison.Ordinal);

        await RecordAsync(id, outcome, 1);
        var late = await clara.SubmitAsync(page, form, ("Lines[0].Count", "2"), ("Lines[0].Sum", "30"), ("Grounds", "Crushed."));

        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        var told = await late.PageAsync();
        Assert.Contains("has recorded the delivery anew", told.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("30", told.QuerySelector("input[name='Lines[0].Sum']")!.GetAttribute("value"));
        Assert.Equal(HttpStatusCode.Redirect, (await clara.SubmitAsync(told, form, ("Lines[0].Count", "1"))).Status);
    }

    [Fact]
    public async Task On_the_page_the_carrier_answers_what_is_wrong_stands_at_its_field_and_whoever_is_second_keeps_their_words()
    {
        var (id, path) = await FiledAsync();
        var page = path["/api/v1".Length..];
        var (rita, rolf) = (await shared.PersonAsync("rita"), await shared.PersonAsync("rolf"));
        var form = $"form[action='{page}/answers']";
        var (first, second) = (await (await rita.GetAsync(page)).PageAsync(), await (await rolf.GetAsync(page)).PageAsync());

        var wrong = await (await rita.SubmitAsync(first, form, ("Answer", "offered"), ("Sum", "9999"), ("Reason", "Half."))).PageAsync();
        Assert.Contains("up to the 500.25 USD", wrong.QuerySelector(".field__error")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("Half.", wrong.QuerySelector("textarea[name=Reason]")!.TextContent.Trim());
        Assert.Equal(page, (await rita.SubmitAsync(wrong, form, ("Sum", "250"))).Location);

        var late = await rolf.SubmitAsync(second, form, ("Answer", "disallowed"), ("Reason", "Not ours."));

        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        var told = await late.PageAsync();
        Assert.Contains("Rita Reviewer has done something about this claim", told.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("Not ours.", told.QuerySelector("textarea[name=Reason]")!.TextContent.Trim());
        var clara = await shared.PersonAsync("clara");
        var offer = await (await clara.GetAsync(page)).PageAsync();
        Assert.Equal(page, (await clara.SubmitAsync(offer, $"form[action='{page}/acceptance']")).Location);
        Assert.Equal(ClaimState.Agreed, Assert.Single(await StoredAsync(id)).State);
        Assert.Contains(page, (await (await rita.GetAsync("/claims")).PageAsync()).Body!.InnerHtml, StringComparison.Ordinal);
    }

    private static JsonObject Claim(string outcome, params (string Reference, int Count, decimal Amount)[] lines) => new()
    {
        ["outcomeId"] = outcome,
        ["lines"] = new JsonArray([.. lines.Select(line => new JsonObject { ["reference"] = line.Reference, ["count"] = line.Count, ["amount"] = line.Amount })]),
        ["grounds"] = "Crushed at the corner; invoice follows.",
    };

    private static JsonObject Answer(int seen, string answer, decimal? amount, string? reason = null) => new()
    {
        ["seen"] = seen,
        ["answer"] = answer,
        ["answeredOn"] = Today,
        ["amount"] = amount,
        ["reason"] = reason,
    };

    /// <summary>The claim's id comes from the page, so that anybody can use it for two pickups.</summary>
    [Fact]
    public async Task One_id_for_the_claims_of_two_pickups_files_both_and_tells_the_carrier_of_both()
    {
        var clara = await shared.PersonAsync("clara");
        var claim = ("ClaimId", Guid.NewGuid().ToString());
        foreach (var (id, _) in (List<(Guid, string)>)[await HarmedAsync(), await HarmedAsync()])
        {
            var page = await (await clara.GetAsync($"/pickups/{id}/claims/new")).PageAsync();
            foreach (var _ in (int[])[1, 2])
                Assert.Equal($"/pickups/{id}/claims/{claim.Item2}", (await clara.SubmitAsync(page, $"form[action='/pickups/{id}/claims']", claim, ("Lines[0].Sum", "30"), ("Grounds", "Crushed."))).Location);
            Assert.Single(await StoredAsync(id));
            Assert.Single((await NoticesAsync(id))[NoticeKind.ClaimForTerminal]);
        }
    }

    [Fact]
    public async Task Two_claims_about_one_pickup_never_have_one_number()
    {
        var portal = await shared.PortalAsync();
        var (id, outcome) = await HarmedAsync();
        foreach (var _ in (int[])[1, 2])
        {
            await using var session = portal.Store.QuerySession();
            var pickup = (await session.LoadAsync<Pickup>(id))!;
            var command = new FileClaim(Guid.NewGuid(), "C-234567", Guid.Parse(outcome), default, [new("A1", 1, Fettle.Readiness.Money.Dollars(10))], "Crushed.", new(), pickup.SubmittedBy, DateTimeOffset.UtcNow);
            Assert.Null((await portal.Services.GetRequiredService<Fettle.Web.Claims.ClaimDesk>().FileAsync(pickup, command, null, CancellationToken.None)).Refusal);
        }

        var numbers = (await StoredAsync(id)).Select(claim => claim.Filed.Number).ToArray();
        Assert.Equal(2, numbers.Distinct().Count());
        Assert.Contains("C-234567", numbers);
    }

    /// <summary>Four pallets, of which one came crushed and one is missing.</summary>
    private async Task<(Guid Id, string Outcome)> HarmedAsync()
    {
        var clerk = await shared.ClerkAsync();
        var id = Guid.Parse((await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        return (id, await RecordAsync(id, null, 2));
    }

    private async Task<string> RecordAsync(Guid id, string? supersedes, int harmed)
    {
        var units = new JsonArray(
            new JsonObject { ["reference"] = "A1", ["count"] = 4 - harmed, ["kind"] = "clean" },
            new JsonObject { ["reference"] = "A1", ["count"] = 1, ["kind"] = "damaged", ["where"] = "corner", ["how"] = "crushed" });
        if (harmed > 1)
            units.Add(new JsonObject { ["reference"] = "A1", ["count"] = 1, ["kind"] = "short" });
        var answer = await (await shared.ReviewerAsync()).PostAsync($"/api/v1/pickups/{id}/outcome", new JsonObject { ["deliveredOn"] = Today, ["units"] = units, ["supersedes"] = supersedes, ["reason"] = supersedes is null ? null : "Counted again." });
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        return answer.Json.At("id")!;
    }

    private async Task<(Guid Id, string Path)> FiledAsync()
    {
        var (id, outcome) = await HarmedAsync();
        var filed = await (await shared.ClerkAsync()).PostAsync($"/api/v1/pickups/{id}/claims", Claim(outcome, ("A1", 2, 500.25m)));
        Assert.Equal(HttpStatusCode.Created, filed.Status);
        return (id, filed.Headers.Location!.ToString());
    }

    private async Task<IReadOnlyList<Claim>> StoredAsync(Guid id)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return (await session.LoadAsync<Pickup>(id))!.Claims;
    }

    private async Task<ILookup<NoticeKind, Notice>> NoticesAsync(Guid id)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return (await session.Query<Notice>().Where(notice => notice.PickupId == id).ToListAsync()).ToLookup(notice => notice.Kind);
    }

    /// <summary>What becomes of a notice once its time has come.</summary>
    private async Task<NoticeState> SentAsync(Notice notice)
    {
        var portal = await shared.PortalAsync();
        await using (var session = portal.Store.LightweightSession())
        {
            notice.DueAt = DateTimeOffset.UtcNow.AddMinutes(-1);
            session.Store(notice);
            await session.SaveChangesAsync();
        }

        await portal.Services.GetRequiredService<SendNoticeJob>().RunAsync(notice.Id, CancellationToken.None);
        await using var reading = portal.Store.QuerySession();
        return (await reading.LoadAsync<Notice>(notice.Id))!.State;
    }
}
