using System.Net;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Web.Tests.RuleSets;

public sealed class DraftPageTests(SharedPortal shared)
{
    private const string Height = "Limits[height.limit]";
    private const string Clearance = "Limits[overhang.clearance]";

    [Fact]
    public async Task A_draft_shows_every_limit_with_the_built_in_one_beside_it_and_marks_what_differs()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.SendAsync(await desk.DraftPageAsync(), "save", (Height, "100"));

        var page = await (await desk.Browser.GetAsync($"{desk.Path}/draft")).PageAsync();

        Assert.Equal(Limit.All.Count, page.QuerySelectorAll("[name^='Limits[']").Length);
        var row = page.QuerySelector($"[name='{Height}']")!.ParentElement!.Closest("tr")!;
        Assert.Contains("table__own", row.ClassName, StringComparison.Ordinal);
        Assert.Contains("105 in", row.TextContent, StringComparison.Ordinal);
        Assert.Equal(1, page.QuerySelectorAll("tr.table__own").Length);
        // What the code says of it is the hint.
        Assert.Contains("Bare deck wanted on each side", page.QuerySelector("#limit-overhang-clearance-hint")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("One limit differs", page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("100", 100)]
    [InlineData("8' 4\"", 100)]
    [InlineData("254 cm", 100)]
    [InlineData(" 99 1/2 ", 99.5)]
    public async Task Inches_are_typed_and_other_units_named(string typed, double inches)
    {
        var desk = await CarrierDesk.OpenAsync(shared);

        await desk.SendAsync(await desk.DraftPageAsync(), "save", (Height, typed));

        Assert.Equal(Length.FromInches(inches), (await desk.RulesAsync()).Draft!.Rules.Height.Limit);
    }

    [Fact]
    public async Task Saving_without_a_change_changes_nothing_to_the_last_digit()
    {
        var desk = await CarrierDesk.OpenAsync(shared);

        await desk.SendAsync(await desk.DraftPageAsync(), "save");

        var rules = await desk.RulesAsync();
        Assert.Equal(1, rules.Revision);
        Assert.Equal(RuleSet.BuiltIn.Strength.SafetyFactor, rules.Draft!.Rules.Strength.SafetyFactor);
    }

    [Fact]
    public async Task Wrong_fields_are_told_at_their_place_and_nothing_typed_is_lost()
    {
        var desk = await CarrierDesk.OpenAsync(shared);

        var answer = await desk.SendAsync(
            await desk.DraftPageAsync(), "save", (Height, "high"), (Clearance, "3"), ("Limits[weight.heavy]", "-5"), ("Limits[tipping.lateral]", "NaN"), ("Limits[wrap.turns]", ""), ("Limits[weight.ratingSeverity]", "tip"), ("Note", "Typed <already>"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        Assert.Equal("A length, for example 2, 2 1/2 or 5 cm.", page.QuerySelector("#limit-height-limit-error")!.TextContent);
        Assert.Equal("From 100 lb to 20,000 lb.", page.QuerySelector("#limit-weight-heavy-error")!.TextContent);
        Assert.Equal("A number, for example 1.5.", page.QuerySelector("#limit-tipping-lateral-error")!.TextContent);
        Assert.Equal("A whole number.", page.QuerySelector("#limit-wrap-turns-error")!.TextContent);
        Assert.StartsWith("At least a stop: over what its maker rates it", page.QuerySelector("#limit-weight-ratingSeverity-error")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(("high", "3", "-5", ""), (Typed("height-limit"), Typed("overhang-clearance"), Typed("weight-heavy"), Typed("wrap-turns")));
        Assert.Equal("Typed <already>", page.QuerySelector("#note")!.GetAttribute("value"));
        Assert.Equal(1, (await desk.RulesAsync()).Revision);

        string? Typed(string id) => page.QuerySelector($"#limit-{id}")!.GetAttribute("value");
    }

    [Theory]
    [InlineData("99999999999999999999999999999999999999999999")]
    [InlineData("1e5")]
    [InlineData("\u0000")]
    [InlineData("٣")]
    public async Task Nonsense_is_refused_and_not_a_failure(string typed)
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var page = await desk.DraftPageAsync();

        foreach (var limit in (string[])["height.limit", "weight.heavy", "tipping.lateral", "wrap.turns", "strength.deckGaps", "wrap.turnsSeverity"])
            IsRefused(await desk.SendAsync(page, "save", ($"Limits[{limit}]", typed)));
        IsRefused(await desk.SendAsync(page, "publish", ("From", typed), ("Note", typed)));
        Assert.Equal(1, (await desk.RulesAsync()).Revision);

        // A form with a zero character in it is refused before it is read.
        void IsRefused(Identity.Answer answer) => Assert.Equal(typed == "\0" ? HttpStatusCode.BadRequest : HttpStatusCode.UnprocessableEntity, answer.Status);
    }

    [Fact]
    public async Task Who_saves_over_a_colleagues_change_sees_both_and_chooses()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var colleague = await desk.ColleagueAsync();
        var mine = await desk.DraftPageAsync();
        var theirs = await desk.DraftPageAsync(colleague);
        await desk.SendAsync(colleague, theirs, "save", (Height, "98"));

        var answer = await desk.SendAsync(mine, "save", (Height, "100"), (Clearance, "3"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        var told = page.QuerySelector(".notice--caution")!.TextContent;
        Assert.Contains("saved this draft while you had it open", told, StringComparison.Ordinal);
        Assert.Contains("98 in", told, StringComparison.Ordinal);
        Assert.Contains("100 in", told, StringComparison.Ordinal);
        Assert.Equal("100", page.QuerySelector("#limit-height-limit")!.GetAttribute("value"));
        Assert.Equal(Length.FromInches(98), (await desk.RulesAsync()).Draft!.Rules.Height.Limit);

        await desk.SendAsync(page, "keep-mine");

        var kept = (await desk.RulesAsync()).Draft!.Rules;
        Assert.Equal((Length.FromInches(100), Length.FromInches(3)), (kept.Height.Limit, kept.Overhang.Clearance));
    }

    [Fact]
    public async Task A_version_needs_a_day_that_is_not_over_a_reason_and_a_difference()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var page = await desk.DraftPageAsync();

        var empty = await (await desk.SendAsync(page, "publish", ("From", ""), ("Note", ""))).PageAsync();
        var past = await (await desk.SendAsync(page, "publish", ("From", "2020-01-01"), ("Note", "Why"))).PageAsync();
        var far = await (await desk.SendAsync(page, "publish", ("From", "9999-12-31"), ("Note", new string('x', 501)))).PageAsync();
        var same = await (await desk.SendAsync(page, "publish", ("From", CarrierDesk.Today), ("Note", "Why"))).PageAsync();

        Assert.Equal(("The day on which it starts, for example 2026-12-01.", "Say in a few words why the rules change: shippers will ask."), (empty.QuerySelector("#from-error")?.TextContent, empty.QuerySelector("#note-error")?.TextContent));
        Assert.StartsWith("A version starts today or later", past.QuerySelector("#from-error")?.TextContent, StringComparison.Ordinal);
        Assert.Equal("Why", past.QuerySelector("#note")!.GetAttribute("value"));
        Assert.Equal(("Within the next two years.", "At most 500 readable characters."), (far.QuerySelector("#from-error")?.TextContent, far.QuerySelector("#note-error")?.TextContent));
        Assert.Contains("Nothing differs from Common practice, version 1", same.QuerySelector(".notice--stop")!.TextContent, StringComparison.Ordinal);
        Assert.Empty((await desk.RulesAsync()).Versions);
    }

    [Fact]
    public async Task Two_who_publish_in_one_moment_publish_once()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var colleague = await desk.ColleagueAsync();
        await desk.SendAsync(await desk.DraftPageAsync(), "save", (Height, "100"));
        var mine = await desk.DraftPageAsync();
        var theirs = await desk.DraftPageAsync(colleague);

        var answers = await Task.WhenAll(
            desk.SendAsync(mine, "publish", ("From", CarrierDesk.Today), ("Note", "Mine.")),
            desk.SendAsync(colleague, theirs, "publish", ("From", CarrierDesk.Today), ("Note", "Theirs.")));

        Assert.Single((await desk.RulesAsync()).Versions);
        Assert.All(answers, answer => Assert.True(answer.Location == desk.Path || answer.Status == HttpStatusCode.UnprocessableEntity, answer.Text));
        var page = await (await desk.Browser.GetAsync(desk.Path)).PageAsync();
        Assert.Equal("In force", page.QuerySelector("tbody .verdict")!.TextContent);
    }

    [Fact]
    public async Task A_start_in_the_future_waits_for_its_day()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var day = DateTimeOffset.UtcNow.AddDays(10).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

        await desk.PublishAsync((Height, "100"), ("From", day));

        var rules = await desk.RulesAsync();
        Assert.Null(rules.InForce(DateTimeOffset.UtcNow));
        // The day begins at the carrier's terminal: at six or five in the morning by universal time.
        Assert.InRange(rules.Versions[0].From.UtcDateTime.Hour, 5, 6);
        Assert.Equal("To come", (await (await desk.Browser.GetAsync(desk.Path)).PageAsync()).QuerySelector("tbody .verdict")!.TextContent);
    }

    [Fact]
    public async Task History_tells_who_did_what_and_two_versions_can_be_compared()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.PublishAsync((Height, "100"));
        await desk.PublishAsync((Height, "98"), ("Limits[wrap.turnsSeverity]", "caution"));

        var history = (await (await desk.Browser.GetAsync(desk.Path)).PageAsync()).QuerySelector(".history")!.TextContent;
        var second = await (await desk.Browser.GetAsync($"{desk.Path}/versions/2")).PageAsync();
        var againstBuiltIn = await (await desk.Browser.GetAsync($"{desk.Path}/versions/2?against=0")).PageAsync();

        Assert.Contains("Version 2 published", history, StringComparison.Ordinal);
        Assert.Contains("Door, or your limit: 100 in → 98 in", history, StringComparison.Ordinal);
        Assert.Contains("“Lower doors.”", history, StringComparison.Ordinal);
        Assert.Equal(["100 in", "98 in"], Cells(second, "Door, or your limit"));
        Assert.Equal(["105 in", "98 in"], Cells(againstBuiltIn, "Door, or your limit"));
        Assert.Equal(["Stop", "Caution"], Cells(second, "Too few turns"));
        Assert.Equal(HttpStatusCode.NotFound, (await desk.Browser.GetAsync($"{desk.Path}/versions/3")).Status);
        Assert.Equal(HttpStatusCode.OK, (await desk.Browser.GetAsync($"{desk.Path}/versions/2?against=-7")).Status);

        static string[] Cells(AngleSharp.Html.Dom.IHtmlDocument page, string title) =>
            [.. page.QuerySelectorAll("tr").First(row => row.TextContent.Contains(title, StringComparison.Ordinal)).QuerySelectorAll("td").Select(cell => cell.TextContent.Trim())];
    }

    [Fact]
    public async Task Giving_a_draft_up_leaves_versions_and_a_stale_page_cannot()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.PublishAsync((Height, "100"));
        var page = await desk.DraftPageAsync();
        var seen = page.QuerySelector("[name=Seen]")!.GetAttribute("value")!;
        await desk.SendAsync(page, "save", (Height, "97"));
        var token = await CarrierDesk.TokenAsync(desk.Browser);

        await desk.Browser.PostAsync($"{desk.Path}/draft/drop", [("__RequestVerificationToken", token), ("seen", seen)]);
        Assert.NotNull((await desk.RulesAsync()).Draft);
        await desk.Browser.PostAsync($"{desk.Path}/draft/drop", [("__RequestVerificationToken", token), ("seen", (await desk.RulesAsync()).Revision.ToString(System.Globalization.CultureInfo.InvariantCulture))]);

        Assert.Null((await desk.RulesAsync()).Draft);
        Assert.Single((await desk.RulesAsync()).Versions);
        Assert.Equal(desk.Path, (await desk.Browser.GetAsync($"{desk.Path}/draft")).Location);
    }

    [Fact]
    public async Task Another_carriers_administrator_sees_and_changes_nothing()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var preview = await desk.AskAsync((Height, "100"));
        var other = await CarrierDesk.OpenAsync(shared);
        var token = await CarrierDesk.TokenAsync(other.Browser);

        foreach (var path in (string[])["", "/draft", "/versions/1", $"/previews/{preview.Id}", $"/previews/{preview.Id}/state"])
            Assert.Equal(HttpStatusCode.NotFound, (await other.Browser.GetAsync(desk.Path + path)).Status);
        foreach (var path in (string[])["/draft/start", "/draft", "/draft/drop", $"/previews/{preview.Id}/cancel"])
            Assert.Equal(HttpStatusCode.NotFound, (await other.Browser.PostAsync(desk.Path + path, [("__RequestVerificationToken", token), ("seen", "2"), ("Seen", "2"), (Height, "90"), ("do", "save")])).Status);
        // Nor by an own carrier's path.
        Assert.Equal(HttpStatusCode.NotFound, (await other.Browser.GetAsync($"{other.Path}/previews/{preview.Id}")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await other.Browser.PostAsync($"{other.Path}/previews/{preview.Id}/cancel", [("__RequestVerificationToken", token)])).Status);
        Assert.Equal(other.Path, (await other.Browser.GetAsync("/admin/rules")).Location);
        Assert.Equal((Length.FromInches(100), 2), ((await desk.RulesAsync()).Draft!.Rules.Height.Limit, (await desk.RulesAsync()).Revision));
        Assert.Equal(Web.RuleSets.RulePreviewState.Due, (await desk.PreviewAsync(preview.Id)).State);
    }

    [Fact]
    public async Task The_whole_portals_administrator_has_all_carriers()
    {
        var desk = await CarrierDesk.OpenAsync(shared);

        var page = await (await (await shared.PersonAsync("ada")).GetAsync("/admin/rules")).PageAsync();

        Assert.NotNull(page.QuerySelector($"a[href='{desk.Path}']"));
    }

    [Fact]
    public void A_severity_is_chosen_and_never_typed() =>
        Assert.All(Limit.All.Where(limit => limit.Kind == LimitKind.Severity), limit => Assert.Equal(["stop", "caution", "tip"], Web.RuleSets.LimitText.Choices(limit)!.Select(choice => choice.Value)));

    [Fact]
    public void Every_limit_is_read_back_as_it_is_shown() => Assert.All(Limit.All, limit =>
    {
        var value = limit.Of(RuleSet.BuiltIn);
        var other = limit.Kind == LimitKind.Severity ? (object)Severity.Stop : value;
        Assert.Equal((value, (string?)null), Web.RuleSets.LimitText.Read(limit, Web.RuleSets.LimitText.Field(value), other));
    });
}
