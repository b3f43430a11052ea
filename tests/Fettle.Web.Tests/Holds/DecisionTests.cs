using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using Fettle.Readiness.Holds;
using Fettle.Testing;
using Fettle.Web.Notices;
using Fettle.Web.Tests.Identity;
using Marten;

namespace Fettle.Web.Tests.Holds;

/// <summary>A hold is decided once, whoever comes at the same time; and what the loser wrote is not lost.</summary>
public sealed class DecisionTests(SharedPortal shared)
{
    private const int Rounds = 25;

    [Fact]
    public async Task Of_reviewers_who_decide_in_the_same_moment_one_wins_and_the_others_are_told_by_whom_when_and_how()
    {
        var portal = await shared.PortalAsync();
        HttpClient[] reviewers = [await shared.ReviewerAsync(), await portal.ApiAsync(portal.Parties.Reviewer), await portal.ApiAsync(portal.Parties.Reviewer)];
        var holds = await ManyAsync(Rounds);

        foreach (var hold in holds)
        {
            var before = DateTimeOffset.UtcNow.AddSeconds(-1);
            var answers = await Task.WhenAll(reviewers.Select((reviewer, i) => reviewer.PostAsync(
                $"/api/v1/holds/{hold.Id}/decisions",
                new JsonObject { ["decision"] = i == 0 ? "release" : "refuse", ["reason"] = $"Reviewer {i} looked at it." })));

            var won = Assert.Single(answers, answer => answer.Status == HttpStatusCode.Created).Json["decision"]!;
            foreach (var lost in answers.Where(answer => answer.Status != HttpStatusCode.Created))
            {
                Assert.Equal(HttpStatusCode.Conflict, lost.Status);
                Assert.Equal("application/problem+json", lost.ContentType);
                Assert.Equal("urn:fettle:problem:already-decided", lost.Json.At("type"));
                foreach (var name in (string[])["id", "decision", "reason", "by"])
                    Assert.Equal(won.At(name), lost.Json.At($"decision.{name}"));
                Assert.Equal(Moment(won), Moment(lost.Json["decision"]!));
                Assert.InRange(Moment(won), before, DateTimeOffset.UtcNow.AddSeconds(1));
                Assert.Contains("already decided", lost.Json.At("detail"));
            }

            await using var session = portal.Store.QuerySession();
            Assert.Equal(2, (await session.Events.FetchStreamAsync(hold.Id)).Count);
            Assert.Equal(1, await session.Query<Notice>().CountAsync(notice => notice.HoldId == hold.Id));
        }
    }

    [Fact]
    public async Task On_the_page_one_wins_and_the_other_sees_the_decision_and_keeps_their_words()
    {
        Browser[] browsers = [await shared.PersonAsync("rita"), await shared.PersonAsync("rolf")];
        string[] names = ["Rita Reviewer", "Rolf Reviewer"];
        foreach (var hold in await ManyAsync(Rounds))
        {
            var answers = await Task.WhenAll(browsers.Select((browser, i) => DecideAsync(browser, hold.Id, i == 0 ? "rework" : "return", $"As {names[i]} saw it.")));

            Assert.Single(answers, answer => answer.Status == HttpStatusCode.Redirect && answer.Location == $"/holds/{hold.Id}");
            var loser = Array.FindIndex(answers, answer => answer.Status == HttpStatusCode.Conflict);
            var page = await answers[loser].PageAsync();
            var alert = page.QuerySelector("[role=alert]")!.TextContent;
            Assert.Contains($"{names[1 - loser]} has already decided", alert);
            Assert.Contains($"As {names[loser]} saw it.", alert);
            var decision = page.QuerySelector(".decision")!.TextContent;
            Assert.Contains(loser == 1 ? "To be reworked here" : "Returned to the shipper", decision);
            Assert.Contains($"As {names[1 - loser]} saw it.", decision);
            Assert.Contains(names[1 - loser], decision);
            Assert.Null(page.QuerySelector("form textarea[name=reason]"));
        }
    }

    [Fact]
    public async Task Who_comes_later_is_told_the_same_by_page_and_API()
    {
        var hold = (await shared.HeldAsync())[0];
        await DecideAsync(await shared.PersonAsync("rita"), hold.Id, "release-as-exception", "Rides alone at the nose.");

        var api = await (await shared.ReviewerAsync()).PostAsync($"/api/v1/holds/{hold.Id}/decisions", new JsonObject { ["decision"] = "refuse", ["reason"] = "Too late." });
        var page = await DecideAsync(await shared.PersonAsync("rolf"), hold.Id, "refuse", "Too late as well.");

        Assert.Equal(HttpStatusCode.Conflict, api.Status);
        Assert.Equal(("release-as-exception", "Rita Reviewer", "Rides alone at the nose."), (api.Json.At("decision.decision"), api.Json.At("decision.by"), api.Json.At("decision.reason")));
        Assert.Equal(HttpStatusCode.Conflict, page.Status);
        Assert.Contains("Too late as well.", page.Text);
    }

    [Theory]
    [InlineData("", "Seen on the floor.", "Choose one of", null)]
    [InlineData("shred", "Seen on the floor.", "Choose one of", null)]
    [InlineData("release", "", null, "Say why")]
    [InlineData("release", "    ", null, "Say why")]
    [InlineData("release", "no", null, "Say why")]
    [InlineData("release", "It \u0007 rang.", null, "readable")]
    public async Task A_decision_that_cannot_be_read_is_told_at_its_field_and_what_was_written_is_kept(string decision, string reason, string? aboutDecision, string? aboutReason)
    {
        var hold = (await shared.HeldAsync())[0];

        var answer = await DecideAsync(await shared.PersonAsync("rita"), hold.Id, decision, reason);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        var errors = page.QuerySelectorAll(".field__error").Select(error => error.TextContent).ToArray();
        Assert.Equal(aboutDecision is not null, errors.Any(error => error.Contains("Choose one of", StringComparison.Ordinal)));
        Assert.Equal(aboutReason is not null, errors.Any(error => aboutReason is not null && error.Contains(aboutReason, StringComparison.Ordinal)));
        var written = ((IHtmlTextAreaElement)page.QuerySelector("textarea[name=reason]")!).Value;
        Assert.Equal(reason.Replace("\0", "", StringComparison.Ordinal).Trim(), written.Replace("\ufffd", "", StringComparison.Ordinal).Trim());
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.True((await session.LoadAsync<Hold>(hold.Id))!.IsOpen);
    }

    [Fact]
    public async Task A_huge_reason_is_told_and_kept_and_five_thousand_further_fields_do_no_harm()
    {
        var hold = (await shared.HeldAsync())[0];
        var rita = await shared.PersonAsync("rita");

        var huge = await DecideAsync(rita, hold.Id, "release", new string('x', 1_000_000));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, huge.Status);
        Assert.Equal(1_000_000, ((IHtmlTextAreaElement)(await huge.PageAsync()).QuerySelector("textarea[name=reason]")!).Value.Length);

        var many = await DecideAsync(rita, hold.Id, "release", "Seen on the floor.", [.. Enumerable.Range(0, 5_000).Select(i => ($"x{i}", "y"))]);
        Assert.Equal($"/holds/{hold.Id}", many.Location);
    }

    [Fact]
    public async Task A_reason_of_several_lines_and_scripts_is_shown_as_written()
    {
        var hold = (await shared.HeldAsync())[0];
        const string Reason = "First line.\r\nZweite Zeile, ثالث.\r\n<b>Not bold</b> & \"quoted\".";

        Assert.Equal(HttpStatusCode.Redirect, (await DecideAsync(await shared.PersonAsync("rita"), hold.Id, "release", Reason)).Status);

        var page = await (await (await shared.PersonAsync("clara")).GetAsync($"/holds/{hold.Id}")).PageAsync();
        Assert.Contains("<b>Not bold</b> & \"quoted\".", page.QuerySelector(".decision")!.TextContent);
        Assert.Null(page.QuerySelector(".decision b"));
    }

    [Fact]
    public async Task What_must_be_decided_soonest_comes_first_in_the_API_and_on_the_page()
    {
        var clerk = await shared.ClerkAsync();
        var pickups = new List<string>();
        foreach (var hours in (int[])[30, 6, 18])
        {
            var body = Freight.Troubled().AsPickup(DateTimeOffset.UtcNow);
            var day = DateTimeOffset.UtcNow.Date.AddDays(2 + (hours / 10)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            body["window"] = new JsonObject { ["from"] = $"{day}T20:00:00Z", ["to"] = $"{day}T22:00:00Z" };
            var id = (await clerk.PostAsync("/api/v1/pickups", body)).Json.At("id")!;
            await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject());
            await shared.OpenHoldsAsync(Guid.Parse(id));
            pickups.Add(id);
        }

        var listed = (await (await shared.ReviewerAsync()).ReadAsync("/api/v1/holds")).Json["holds"]!.AsArray().Select(hold => hold.At("pickupId")!).Where(pickups.Contains).ToArray();
        var rows = (await (await (await shared.PersonAsync("rita")).GetAsync("/holds")).PageAsync()).QuerySelectorAll("tbody tr td:first-child").Select(cell => cell.TextContent).ToArray();
        var numbers = await Task.WhenAll(listed.Select(async id => (await clerk.ReadAsync($"/api/v1/pickups/{id}")).Json.At("number")!));

        Assert.Equal([pickups[1], pickups[2], pickups[0]], listed);
        var order = numbers.Select(number => Array.FindIndex(rows, row => row.Contains(number, StringComparison.Ordinal))).ToArray();
        Assert.Equal(order.Order(), order);
        Assert.DoesNotContain(-1, order);
    }

    /// <summary>One pickup with so many lines that are held.</summary>
    private async Task<IReadOnlyList<Hold>> ManyAsync(int count)
    {
        var clerk = await shared.ClerkAsync();
        var body = Freight.Troubled().AsPickup(DateTimeOffset.UtcNow);
        for (var line = 2; line <= count; line++)
        {
            var next = body["handlingUnits"]![0]!.DeepClone();
            next["reference"] = $"B{line}";
            body["handlingUnits"]!.AsArray().Add(next);
        }

        var id = (await clerk.PostAsync("/api/v1/pickups", body)).Json.At("id")!;
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        var holds = await shared.OpenHoldsAsync(Guid.Parse(id));
        Assert.Equal(count, holds.Count);
        return holds;
    }

    private static async Task<Answer> DecideAsync(Browser browser, Guid hold, string decision, string reason, params (string, string)[] further)
    {
        // The form as it stands while the hold is open; once it is decided it is gone from the page, but not from a tab.
        var page = await (await browser.GetAsync($"/holds/{hold}")).PageAsync();
        var token = ((IHtmlInputElement)page.QuerySelector("input[name=__RequestVerificationToken]")!).Value;
        return await browser.PostAsync($"/holds/{hold}", [("__RequestVerificationToken", token), ("decision", decision), ("reason", reason), .. further]);
    }

    private static DateTimeOffset Moment(JsonNode decision) => DateTimeOffset.Parse(decision.At("at")!, CultureInfo.InvariantCulture);
}
