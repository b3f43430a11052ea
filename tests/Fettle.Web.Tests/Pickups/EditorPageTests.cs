using System.Net;
using AngleSharp.Dom;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Fettle.Web.Areas.Shipper.Pickups;
using Fettle.Web.Tests.Identity;
using Fettle.Web.Tests.Inspections;
using Marten;

namespace Fettle.Web.Tests.Pickups;

/// <summary>The declaration page worked without JavaScript, and the parts that htmx swaps.</summary>
public sealed class EditorPageTests(SharedPortal shared)
{
    [Fact]
    public async Task Ready_freight_is_started_filled_checked_and_submitted()
    {
        var tab = await StartAsync();
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0), ("driverOnDock", "true")]);
        Assert.Contains("Ready", tab.Standing);
        Assert.Empty(tab.Page.QuerySelectorAll(".field__error"));

        var submitted = await tab.PressAsync("submit");

        Assert.Equal($"/pickups/{tab.Id}", submitted.Location);
        var pickup = await PickupAsync(tab.Id);
        Assert.Equal(Verdict.Ready, pickup!.Verdict);
        Assert.Equal("Clara Clerk", pickup.SubmittedBy.Name);
        Assert.Equal("Quillfeather Paper, Saltgrass", pickup.Header.Destination);
        var page = await (await (await shared.PersonAsync("clara")).GetAsync(submitted.Location!)).PageAsync();
        Assert.Contains("Booked", page.QuerySelector(".page__head")!.TextContent);
    }

    [Fact]
    public async Task A_new_pickup_says_what_is_missing_only_after_a_button_was_pressed()
    {
        var tab = await StartAsync();
        Assert.Empty(tab.Page.QuerySelectorAll(".field__error"));
        Assert.Contains("Nothing checked yet", tab.Standing);

        await tab.PressAsync("check");

        Assert.Equal("Who receives it, and where?", tab.Error("destination"));
        Assert.NotNull(tab.Error("terminal"));
        Assert.NotNull(tab.Error("lane.miles"));
        Assert.NotNull(tab.Error("handlingUnits[0].outer.length"));
        Assert.Null(tab.Error("handlingUnits[0].platform.length"));
    }

    [Fact]
    public async Task Units_are_added_duplicated_and_removed_and_nothing_else_changes()
    {
        var tab = await StartAsync();
        await tab.PressAsync("add", [.. Typed.Head, .. Typed.Sound(0)]);
        Assert.Equal(["A1", "A2"], tab.References());
        await tab.PressAsync("add", [.. Typed.Troubled(1)]);
        Assert.Equal(["A1", "B1", "A2"], tab.References());
        await tab.PressAsync("duplicate:1", ("handlingUnits[1].outer.height", "77 1/2"));
        Assert.Equal(["A1", "B1", "A3", "A2"], tab.References());
        Assert.Equal("77 1/2", tab.Value("handlingUnits[2].outer.height"));
        Assert.Equal("2056", tab.Value("handlingUnits[2].grossWeight"));

        await tab.PressAsync("remove:1");

        Assert.Equal(["A1", "A3", "A2"], tab.References());
        Assert.Contains("B1 was removed", tab.Notice);
        Assert.Equal("53 1/2", tab.Value("handlingUnits[0].outer.height"));
        Assert.Equal(["A1", "A3", "A2"], (await shared.DraftAsync(tab.Id)).Form.HandlingUnits.Select(unit => unit.Reference));
    }

    [Fact]
    public async Task An_alternative_is_applied_with_one_press_and_cures_what_it_says()
    {
        var tab = await StartAsync();
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Troubled(0)]);
        Assert.Contains("would be held", tab.Standing, StringComparison.OrdinalIgnoreCase);
        var apply = tab.Buttons("apply:0:").First();

        await tab.PressAsync(apply);

        Assert.Contains("Done: ", tab.Notice);
        Assert.DoesNotContain("would be held", tab.Standing, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Ready", tab.Standing);
        Assert.Equal(HttpStatusCode.Redirect, (await tab.PressAsync("submit")).Status);
        Assert.NotEqual(Verdict.Hold, (await PickupAsync(tab.Id))!.Verdict);
    }

    [Fact]
    public async Task Figures_stay_as_they_were_typed_when_an_alternative_is_applied()
    {
        var tab = await StartAsync();
        // Only the film and what holds it are wrong, so the sizes stay.
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0), ("handlingUnits[0].outer.length", "4 ft"), ("handlingUnits[0].outer.height", "53 1/2"), ("handlingUnits[0].protection.wrapTurns", "1")]);

        await tab.PressAsync(tab.Buttons("apply:0:").First());

        Assert.Equal("4 ft", tab.Value("handlingUnits[0].outer.length"));
        Assert.Equal("53 1/2", tab.Value("handlingUnits[0].outer.height"));
        Assert.True(int.Parse(tab.Value("handlingUnits[0].protection.wrapTurns")!, System.Globalization.CultureInfo.InvariantCulture) >= 2);
    }

    [Fact]
    public async Task An_alternative_that_is_no_longer_offered_changes_nothing()
    {
        var tab = await StartAsync();
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Troubled(0)]);
        var apply = tab.Buttons("apply:0:").First();

        await tab.PressAsync(apply, [.. Typed.Sound(0)]);

        Assert.Contains("Look again", tab.Notice);
        Assert.Equal("940", tab.Value("handlingUnits[0].grossWeight"));
    }

    [Fact]
    public async Task Held_freight_without_a_reason_is_told_at_the_field_and_everything_is_kept()
    {
        var tab = await StartAsync();

        await tab.PressAsync("submit", [.. Typed.Head, .. Typed.Troubled(0)]);

        Assert.Contains("Say why", tab.Error("exceptionRequest"));
        Assert.Contains("Not submitted yet", tab.Notice);
        Assert.Equal("77 1/2", tab.Value("handlingUnits[0].outer.height"));
        Assert.Equal("Quillfeather Paper, Saltgrass", tab.Value("destination"));
        Assert.Equal(Typed.Millbrook, tab.Value("terminal"));
        Assert.Null(await PickupAsync(tab.Id));
        Assert.Equal("77 1/2", (await shared.DraftAsync(tab.Id)).Form.HandlingUnits[0].Outer.Height);
    }

    [Theory]
    [InlineData("submit")]
    [InlineData("check")]
    public async Task A_pickup_without_a_unit_says_where_units_are_listed_that_it_needs_one(string button)
    {
        var tab = await StartAsync();
        await tab.PressAsync("remove:0", [.. Typed.Head]);
        Assert.Equal(("A1 was removed.", "good", null), (tab.Notice, tab.NoticeTone, tab.Error("handlingUnits")));

        await tab.PressAsync(button);

        Assert.Equal("Add at least one unit.", tab.Error("handlingUnits"));
        if (button == "submit")
        {
            Assert.Equal(("Not submitted yet: the marked fields need you first.", "stop"), (tab.Notice, tab.NoticeTone));
            Assert.Equal("alert", tab.Page.QuerySelector("#editor > .notice")!.GetAttribute("role"));
        }

        Assert.Null(await PickupAsync(tab.Id));
        await tab.PressAsync("add");
        Assert.Null(tab.Error("handlingUnits"));
    }

    [Fact]
    public async Task What_was_not_done_is_not_told_in_the_tone_of_what_was()
    {
        var tab = await StartAsync();
        await tab.PressAsync("add-build");
        Assert.Equal(("Choose a build from your catalogue first.", "stop"), (tab.Notice, tab.NoticeTone));

        await tab.PressAsync("apply:0:nothing-like-it");

        Assert.Equal("stop", tab.NoticeTone);
    }

    [Theory]
    [InlineData("imperial", "1,210\u00a0mi, 3 changes of trailer")]
    [InlineData("metric", "1,947\u00a0km, 3 changes of trailer")]
    public async Task The_way_of_a_submitted_pickup_is_written_as_its_letters_and_findings_write_it(string units, string way)
    {
        var freight = Freight.Sound();
        freight["units"] = units;
        freight["lane"]!["miles"] = 1210;
        var pickup = await shared.SubmittedAsync(freight);

        var page = await (await (await shared.PersonAsync("clara")).GetAsync($"/pickups/{pickup.Id}")).PageAsync();

        Assert.Contains(way, page.QuerySelectorAll("dl.figures dd").Select(figure => figure.TextContent));
    }

    [Fact]
    public async Task Held_freight_with_a_reason_is_submitted_and_held_with_it()
    {
        var tab = await StartAsync();

        var submitted = await tab.PressAsync("submit", [.. Typed.Head, .. Typed.Troubled(0), ("exceptionRequest", "The consignee's line stops tonight.\nNobody else has these.")]);

        Assert.Equal($"/pickups/{tab.Id}", submitted.Location);
        var hold = Assert.Single(await shared.OpenHoldsAsync(tab.Id));
        Assert.Equal("The consignee's line stops tonight.\nNobody else has these.", hold.Placed.ExceptionRequest!.ReplaceLineEndings("\n"));
        var page = await (await shared.PersonAsync("clara")).GetAsync($"/pickups/{tab.Id}");
        Assert.Contains("Held", page.Text);
        Assert.Contains(hold.Placed.Number, page.Text);
    }

    [Fact]
    public async Task A_request_that_cannot_be_kept_is_told_and_stays_in_its_field()
    {
        var tab = await StartAsync();
        await tab.PressAsync("submit", [.. Typed.Head, .. Typed.Troubled(0), ("exceptionRequest", new string('x', 2001))]);

        Assert.Contains("2000", tab.Error("exceptionRequest")!.Replace(",", "", StringComparison.Ordinal));
        Assert.Equal(2001, tab.Value("exceptionRequest")!.Length);
    }

    [Fact]
    public async Task A_pickup_begins_as_a_copy_of_an_earlier_one_with_a_number_and_a_day_of_its_own()
    {
        var tab = await StartAsync();
        await tab.PressAsync("submit", [.. Typed.Head, .. Typed.Sound(0), ("handlingUnits[0].outer.length", "4 ft")]);
        var earlier = (await PickupAsync(tab.Id))!;

        var copy = await EditorTab.StartAsync(await shared.PersonAsync("clara"), tab.Id);

        Assert.NotEqual(tab.Id, copy.Id);
        Assert.Equal("Quillfeather Paper, Saltgrass", copy.Value("destination"));
        Assert.Equal("4 ft", copy.Value("handlingUnits[0].outer.length"));
        Assert.DoesNotContain(earlier.Header.Number, copy.Page.QuerySelector("h1")!.TextContent);
        await copy.PressAsync("submit", ("handlingUnits[0].quantity", "2"));
        Assert.Equal(2, (await PickupAsync(copy.Id))!.Units[0].Quantity);
        Assert.Equal(4, (await PickupAsync(tab.Id))!.Units[0].Quantity);
    }

    [Fact]
    public async Task Metric_entry_stays_metric_and_stays_as_typed()
    {
        var tab = await StartAsync();
        await tab.PressAsync(
            "check",
            [
                .. Typed.Head, .. Typed.Sound(0), ("units", "metric"), ("handlingUnits[0].outer.length", "121,92"), ("handlingUnits[0].outer.width", "1.016 m"), ("handlingUnits[0].outer.height", "53 1/2 in"),
                ("handlingUnits[0].grossWeight", "940 lb"), ("handlingUnits[0].platform.rating", "1134"), ("handlingUnits[0].contents.carton.length", "40.64"), ("handlingUnits[0].contents.carton.width", "30.48"),
                ("handlingUnits[0].contents.carton.height", "30.48"), ("handlingUnits[0].contents.carton.grossWeight", "9.98"),
            ]);

        Assert.Contains("Ready", tab.Standing);
        Assert.Equal("121,92", tab.Value("handlingUnits[0].outer.length"));
        Assert.Equal("53 1/2 in", tab.Value("handlingUnits[0].outer.height"));
        // The pallet that every new unit begins with is written with its unit: it is no longer nor shorter for that.
        Assert.Equal("48 in", tab.Value("handlingUnits[0].platform.length"));
        Assert.Contains(tab.Page.QuerySelectorAll("label"), label => label.TextContent == "Length over all, cm");
        await tab.PressAsync("submit");
        Assert.Equal(48, (await PickupAsync(tab.Id))!.Declaration.HandlingUnits[0].Outer.Length.Inches, 6);
    }

    [Fact]
    public async Task A_figure_that_cannot_be_read_is_told_beside_it_and_stays()
    {
        var tab = await StartAsync();

        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0), ("handlingUnits[0].outer.height", "about 50"), ("handlingUnits[0].contents.layers", "four"), ("lane.miles", "far")]);

        Assert.Contains("This is not a length", tab.Error("handlingUnits[0].outer.height"));
        Assert.Equal("about 50", tab.Value("handlingUnits[0].outer.height"));
        Assert.NotNull(tab.Error("handlingUnits[0].contents.layers"));
        Assert.Equal("four", tab.Value("handlingUnits[0].contents.layers"));
        Assert.Contains("10,000", tab.Error("lane.miles"));
        Assert.Equal("far", tab.Value("lane.miles"));
    }

    /// <summary>The API and the page say the same, the page beside the field that the API names.</summary>
    [Fact]
    public async Task Each_finding_stands_beside_the_field_it_concerns()
    {
        var checkedByApi = (await (await shared.ClerkAsync()).PostAsync("/api/v1/checks", Freight.Troubled())).Json;
        var findings = checkedByApi["handlingUnits"]![0]!["findings"]!.AsArray();
        Assert.NotEmpty(findings);
        var tab = await StartAsync();

        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Troubled(0), ("driverOnDock", "true")]);

        foreach (var finding in findings)
        {
            var beside = tab.Findings($"handlingUnits[0].{LinePage.FieldOf(finding.At("subject")!)}");
            Assert.Contains(beside, text => text.Contains(finding.At("message")!, StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Every_field_that_a_finding_can_concern_has_a_place_on_the_page()
    {
        var tab = await StartAsync();

        foreach (var field in LinePage.FixedFields)
            Assert.Empty(tab.Findings($"handlingUnits[0].{field}"));
        foreach (var field in EditorFields.OfHead)
            Assert.Null(tab.Error(field));
    }

    [Fact]
    public async Task A_change_brings_back_only_the_parts_of_the_line_that_changed_and_the_new_version()
    {
        var tab = await StartAsync();
        await tab.PressAsync("add", [.. Typed.Head, .. Typed.Sound(0)]);
        await tab.PressAsync("add", [.. Typed.Sound(1, "A2")]);
        var before = tab.Value("version");

        var answer = await tab.TypeAsync(("handlingUnits[1].grossWeight", "1400"));

        var parts = (await answer.PageAsync()).QuerySelectorAll("[hx-swap-oob=true]").Select(part => part.Id!).ToArray();
        Assert.Contains("standing", parts);
        Assert.Contains("result-1", parts);
        Assert.Contains("m-handlingUnits-1-grossWeight", parts);
        Assert.DoesNotContain(parts, part => part.Contains("-0", StringComparison.Ordinal) || part.Contains("-2", StringComparison.Ordinal));
        await tab.TakeAsync(answer);
        Assert.NotEqual(before, tab.Value("version"));
        Assert.Equal(tab.Value("version"), (await shared.DraftAsync(tab.Id)).Version.ToString());
        Assert.Equal("1400", (await shared.DraftAsync(tab.Id)).Form.HandlingUnits[1].GrossWeight);
    }

    [Fact]
    public async Task A_change_of_the_lane_or_of_a_name_brings_back_every_line()
    {
        var tab = await StartAsync();
        await tab.PressAsync("add", [.. Typed.Head, .. Typed.Sound(0)]);

        foreach (var (name, value) in ((string, string)[])[("lane.miles", "120"), ("handlingUnits[1].reference", "A1")])
        {
            var answer = await tab.TypeAsync((name, value));
            await tab.TakeAsync(answer);
            var parts = (await answer.PageAsync()).QuerySelectorAll("[hx-swap-oob=true]").Select(part => part.Id!).ToArray();
            Assert.Contains("result-0", parts);
            Assert.Contains("result-1", parts);
            Assert.Contains("m-lane-miles", parts);
        }
    }

    [Fact]
    public async Task Every_part_that_comes_back_has_its_place_in_the_page()
    {
        var tab = await StartAsync();
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Troubled(0)]);

        var answer = await tab.TypeAsync(("lane.miles", "300"));

        foreach (var part in (await answer.PageAsync()).QuerySelectorAll("[hx-swap-oob=true]"))
            Assert.True(tab.Page.GetElementById(part.Id!) is not null, $"The page has no {part.Id}.");
    }

    [Fact]
    public async Task A_pickup_holds_a_hundred_lines_and_says_so_at_the_next()
    {
        var body = Freight.Tall().AsPickup(DateTimeOffset.UtcNow);
        for (var line = 2; line < 100; line++)
        {
            var next = Freight.Sound()["handlingUnits"]![0]!;
            body["handlingUnits"]!.AsArray().Add(next.DeepClone());
            body["handlingUnits"]![line - 1]!["reference"] = $"A{line}";
        }

        var declared = await (await shared.ClerkAsync()).PostAsync("/api/v1/pickups", body);
        var tab = await EditorTab.OpenAsync(await shared.PersonAsync("clara"), Guid.Parse(declared.Json.At("id")!));
        await tab.PressAsync("duplicate:0");
        Assert.Equal(100, tab.References().Count());

        await tab.PressAsync("add");
        Assert.Contains("at most 100 lines", tab.Notice);
        await tab.PressAsync("duplicate:0");
        Assert.Contains("at most 100 lines", tab.Notice);
        // An alternative that takes the place of one line with two has no room either.
        var split = declared.Json["handlingUnits"]![0]!["alternatives"]!.AsArray().First(alternative => alternative!["handlingUnits"]!.AsArray().Count > 1);
        await tab.PressAsync($"apply:0:{split.At("key")}");
        Assert.Contains("this would make more", tab.Notice);
        Assert.Equal(100, tab.References().Count());
        Assert.Equal(100, (await shared.DraftAsync(tab.Id)).Form.HandlingUnits.Count);
    }

    [Fact]
    public async Task A_form_sent_after_the_session_ended_is_carried_through_signing_in_and_then_submitted()
    {
        var portal = await shared.PortalAsync();
        await portal.AddUserAsync("Carlo Clerk", portal.Parties.Clerk);
        using var client = portal.Anonymous();
        var browser = new Browser(client);
        await browser.SignInAsync("carlo@fettle.example", Portal.Password);
        var tab = await EditorTab.StartAsync(browser);
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Troubled(0)]);
        browser.Cookies[Fettle.Web.Identity.People.SessionCookie]!.Expired = true;

        var stopped = await tab.PressAsync("submit", ("handlingUnits[0].outer.height", "77.5 in"), ("exceptionRequest", "The line stops „tonight“."));
        Assert.Equal(HttpStatusCode.Unauthorized, stopped.Status);
        var signedIn = await browser.SubmitAsync(await stopped.PageAsync(), "form[action='/sign-in']", ("Form.UserName", "carlo@fettle.example"), ("Form.Password", Portal.Password));
        var sent = await browser.SubmitAsync(await signedIn.PageAsync(), $"form[action='/pickups/{tab.Id}']");

        Assert.Equal($"/pickups/{tab.Id}", sent.Location);
        var pickup = (await PickupAsync(tab.Id))!;
        Assert.Equal("The line stops „tonight“.", pickup.ExceptionRequest);
        Assert.Equal("77.5 in", (await shared.DraftAsync(tab.Id)).Form.HandlingUnits[0].Outer.Height);
    }

    [Fact]
    public async Task A_change_sent_by_htmx_after_the_session_ended_is_told_in_a_sentence()
    {
        var tab = await StartAsync();
        using var client = (await shared.PortalAsync()).Anonymous();

        var answer = await new Browser(client).PostAsync($"/pickups/{tab.Id}/check", [.. tab.Fields()], ("HX-Request", "true"), ("Sec-Fetch-Site", "same-origin"));

        Assert.Equal(HttpStatusCode.Unauthorized, answer.Status);
        Assert.Contains("signed out", (await answer.PageAsync()).QuerySelector(".notice")!.TextContent);
    }

    private async Task<EditorTab> StartAsync() => await EditorTab.StartAsync(await shared.PersonAsync("clara"));

    private async Task<Pickup?> PickupAsync(Guid id)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await session.LoadAsync<Pickup>(id);
    }
}
