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
            // What they wrote stands in the form, which would override a decision: not without saying so.
            Assert.Equal($"As {names[loser]} saw it.", ((IHtmlTextAreaElement)page.QuerySelector("form textarea[name=reason]")!).Value);
            Assert.NotNull(page.QuerySelector("form input[name=supersedes]"));
            Assert.False(((IHtmlInputElement)page.QuerySelector("form input[name=supersede]")!).IsChecked);
        }
    }

    [Fact]
    public async Task Who_comes_later_is_told_the_same_by_page_and_API()
    {
        var hold = (await shared.HeldAsync())[0];
        await DecideAsync(await shared.PersonAsync("rita"), hold.Id, "release-as-exception", "Rides alone at the nose.", Terms);

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
            // Before both sides' hours are over: the truck decides how urgent it is.
            var to = DateTimeOffset.UtcNow.AddMinutes(hours * 20);
            // A window lies within one day at the site.
            if (TimeZoneInfo.ConvertTimeBySystemTimeZoneId(to, "America/Chicago").TimeOfDay < TimeSpan.FromMinutes(31))
                to = to.AddMinutes(31);
            body["window"] = new JsonObject { ["from"] = $"{to.AddMinutes(-30):yyyy-MM-ddTHH:mm:ss}Z", ["to"] = $"{to:yyyy-MM-ddTHH:mm:ss}Z" };
            var id = (await clerk.PostAsync("/api/v1/pickups", body)).Json.At("id")!;
            await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject());
            await shared.OpenHoldsAsync(Guid.Parse(id));
            pickups.Add(id);
        }

        // A message hands the turn on, and its end with it: then that says how urgent it is, not the first deadline.
        var talked = (await clerk.ReadAsync($"/api/v1/holds?pickup={pickups[2]}")).Json.At("holds.0.id")!;
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/holds/{talked}/messages", new JsonObject { ["text"] = "We can send film." })).Status);
        var holds = (await (await shared.ReviewerAsync()).ReadAsync("/api/v1/holds")).Json["holds"]!.AsArray();
        var ends = holds.Select(hold => DateTimeOffset.Parse(hold.At("actBy")!, CultureInfo.InvariantCulture)).ToArray();
        Assert.Equal(ends.Order(), ends);
        var listed = holds.Select(hold => hold.At("pickupId")!).Where(pickups.Contains).ToArray();
        var rows = (await (await (await shared.PersonAsync("rita")).GetAsync("/holds")).PageAsync()).QuerySelectorAll("tbody tr td:first-child").Select(cell => cell.TextContent).ToArray();
        var numbers = await Task.WhenAll(listed.Select(async id => (await clerk.ReadAsync($"/api/v1/pickups/{id}")).Json.At("number")!));

        Assert.Equal([pickups[1], pickups[2], pickups[0]], listed);
        var order = numbers.Select(number => Array.FindIndex(rows, row => row.Contains(number, StringComparison.Ordinal))).ToArray();
        Assert.Equal(order.Order(), order);
        Assert.DoesNotContain(-1, order);
    }

    [Fact]
    public async Task A_release_as_an_exception_says_who_accepts_which_risk_until_when_and_has_a_number()
    {
        var hold = (await shared.HeldAsync())[0];
        var rita = await shared.PersonAsync("rita");

        var bare = await DecideAsync(rita, hold.Id, "release-as-exception", "Rides alone at the nose.");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, bare.Status);
        Assert.Equal(4, (await bare.PageAsync()).QuerySelectorAll("fieldset[data-with] .field__error").Length);
        var past = await DecideAsync(rita, hold.Id, "release-as-exception", "Rides alone at the nose.", [.. Terms.Where(field => field.Item1 != "until"), ("until", "2020-01-01")]);
        Assert.Equal("Larkspur Motor Freight", ((IHtmlInputElement)(await past.PageAsync()).QuerySelector("input[name=acceptedBy]")!).Value);
        Assert.Single((await past.PageAsync()).QuerySelectorAll("fieldset[data-with] .field__error"));

        Assert.Equal(HttpStatusCode.Redirect, (await DecideAsync(rita, hold.Id, "release-as-exception", "Rides alone at the nose.", Terms)).Status);

        var api = (await (await shared.ClerkAsync()).ReadAsync($"/api/v1/holds/{hold.Id}")).Json;
        Assert.Equal(($"X-{hold.Placed.Number}", "Crushed corners."), (api.At("decision.exception.number"), api.At("decision.exception.risk")));
        var page = await (await (await shared.PersonAsync("clara")).GetAsync($"/holds/{hold.Id}")).PageAsync();
        Assert.Contains($"X-{hold.Placed.Number}", page.QuerySelector(".decision")!.TextContent);
        Assert.Contains("Nothing on top.", page.QuerySelector(".decision")!.TextContent);
    }

    [Fact]
    public async Task A_decision_is_superseded_only_expressly_and_both_stay_in_the_history()
    {
        var hold = (await shared.HeldAsync())[0];
        var rolf = await shared.PersonAsync("rolf");
        await DecideAsync(await shared.PersonAsync("rita"), hold.Id, "rework", "It leans: straighten it.");
        var first = (await (await shared.ReviewerAsync()).ReadAsync($"/api/v1/holds/{hold.Id}")).Json.At("decision.id")!;

        // The box is not ticked.
        var silent = await DecideAsync(rolf, hold.Id, "return", "It cannot be straightened.", ("supersedes", first));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, silent.Status);
        Assert.Equal("It cannot be straightened.", ((IHtmlTextAreaElement)(await silent.PageAsync()).QuerySelector("textarea[name=reason]")!).Value);
        // Another decision than the one that stands.
        Assert.Equal(HttpStatusCode.Conflict, (await DecideAsync(rolf, hold.Id, "return", "It cannot be straightened.", ("supersedes", Guid.CreateVersion7().ToString()), ("supersede", "true"))).Status);

        Assert.Equal(HttpStatusCode.Redirect, (await DecideAsync(rolf, hold.Id, "return", "It cannot be straightened.", ("supersedes", first), ("supersede", "true"))).Status);

        var after = (await (await shared.ClerkAsync()).ReadAsync($"/api/v1/holds/{hold.Id}")).Json;
        Assert.Equal(("return", first, "2"), (after.At("decision.decision"), after.At("decision.supersedes"), after["decisions"]!.AsArray().Count.ToString(CultureInfo.InvariantCulture)));
        var story = (await (await rolf.GetAsync($"/holds/{hold.Id}")).PageAsync()).QuerySelector(".talk")!.TextContent;
        Assert.Contains("It leans: straighten it.", story);
        Assert.Contains("It cannot be straightened.", story);
    }

    [Fact]
    public async Task Of_reviewers_who_supersede_in_the_same_moment_one_wins()
    {
        var reviewer = await shared.ReviewerAsync();
        foreach (var hold in await ManyAsync(5))
        {
            var first = (await reviewer.PostAsync($"/api/v1/holds/{hold.Id}/decisions", new JsonObject { ["decision"] = "release", ["reason"] = "Looks well." })).Json.At("decision.id")!;
            var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(i => reviewer.PostAsync(
                $"/api/v1/holds/{hold.Id}/decisions", new JsonObject { ["decision"] = "refuse", ["reason"] = $"Reviewer {i} saw the other side.", ["supersedes"] = first })));

            var won = Assert.Single(answers, answer => answer.Status == HttpStatusCode.Created);
            Assert.All(answers.Where(answer => answer != won), lost => Assert.Equal(won.Json.At("decision.id"), lost.Json.At("decision.id")));
        }
    }

    [Fact]
    public async Task Freight_to_be_reworked_is_decided_and_still_waits_for_an_inspection()
    {
        var hold = (await shared.HeldAsync())[0];
        var reviewer = await shared.ReviewerAsync();

        var decided = (await reviewer.PostAsync($"/api/v1/holds/{hold.Id}/decisions", new JsonObject { ["decision"] = "rework", ["reason"] = "Wrap it again." })).Json;

        Assert.Equal(("decided", "true", "terminal"), (decided.At("state"), decided.At("awaitsInspection"), decided.At("waitsFor")));
        Assert.Contains("waits for an inspection", (await (await (await shared.PersonAsync("clara")).GetAsync($"/holds/{hold.Id}")).PageAsync()).QuerySelector(".decision")!.TextContent);
        var open = (await reviewer.ReadAsync("/api/v1/holds")).Json["holds"]!.AsArray();
        Assert.DoesNotContain(open, listed => listed.At("id") == hold.Id.ToString());
    }

    [Fact]
    public async Task A_decision_from_the_API_that_lacks_its_terms_names_the_fields()
    {
        var hold = (await shared.HeldAsync())[0];

        var answer = await (await shared.ReviewerAsync()).PostAsync($"/api/v1/holds/{hold.Id}/decisions", new JsonObject { ["decision"] = "release-as-exception", ["reason"] = "Rides alone." });

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(
            ["exception.acceptedBy", "exception.conditions", "exception.risk", "exception.until"],
            answer.Json["errors"]!.AsObject().Select(error => error.Key).Order(StringComparer.Ordinal));
    }

    private static readonly (string, string)[] Terms =
        [("acceptedBy", "Larkspur Motor Freight"), ("risk", "Crushed corners."), ("until", DateTimeOffset.UtcNow.AddDays(9).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), ("conditions", "Nothing on top.")];

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
