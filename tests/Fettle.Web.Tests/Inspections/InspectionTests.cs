using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Testing;
using Fettle.Web.Inspections;
using Fettle.Web.Notices;
using Fettle.Web.Tests.Identity;
using Fettle.Web.Tests.Photos;
using Marten;
using Browser = Fettle.Web.Tests.Identity.Browser;

namespace Fettle.Web.Tests.Inspections;

/// <summary>What is found at the terminal is recorded once, by whoever works there, and becomes a hold when they say so.</summary>
public sealed class InspectionTests(SharedPortal shared)
{
    [Fact]
    public async Task Four_inches_higher_and_300_lb_heavier_propose_a_hold_and_one_press_places_it_with_its_reason()
    {
        var pickup = await shared.SoundAsync();
        var rita = await shared.PersonAsync("rita");
        var form = await FormAsync(rita, pickup.Id);

        var recorded = await rita.SubmitAsync(form, "form#inspection", ("measured.height", "57.5"), ("measured.grossWeight", "1240"), ("takenAt", "2026-03-05T10:00:00Z"));
        Assert.Equal(HttpStatusCode.Redirect, recorded.Status);
        var page = await (await rita.GetAsync(recorded.Location!)).PageAsync();
        var proposal = page.QuerySelector(".decision")!.TextContent;
        Assert.Contains("It should be held", proposal);
        Assert.Contains("Height: 57.5\u00a0in measured, 53.5\u00a0in declared. Gross weight: 1,240\u00a0lb measured, 940\u00a0lb declared.", proposal);

        var held = await rita.SubmitAsync(page, ".decision form");

        Assert.Equal(HttpStatusCode.Redirect, held.Status);
        var holdPage = await (await rita.GetAsync(held.Location!)).PageAsync();
        Assert.Contains("57.5\u00a0in measured, 53.5\u00a0in declared", holdPage.Body!.TextContent);
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        var hold = Assert.Single(await session.Query<Hold>().Where(hold => hold.Placed.PickupId == pickup.Id).ToListAsync(TestContext.Current.CancellationToken));
        Assert.Equal((Guid.Parse(recorded.Location!.Split('/')[^1]), 57.5), (hold.Placed.InspectionId, hold.Placed.HandlingUnit.Outer.Height.Inches));
        Assert.StartsWith("Height: 57.5", hold.Placed.Reason.Say(Engineering.Units.UnitSystem.Imperial, english => english), StringComparison.Ordinal);
        var notice = Assert.Single(await session.Query<Notice>().Where(notice => notice.HoldId == hold.Id).ToListAsync(TestContext.Current.CancellationToken));
        Assert.Equal(NoticeKind.HoldPlacedForShipper, notice.Kind);
        // Pressed twice it is the same hold.
        Assert.Equal(held.Location, (await rita.SubmitAsync(page, ".decision form")).Location);
    }

    [Fact]
    public async Task What_measures_as_declared_is_recorded_and_nothing_is_proposed()
    {
        var pickup = await shared.SoundAsync();

        var answer = await (await shared.ReviewerAsync()).PostAsync("/api/v1/inspections", Dock.Inspection(pickup, body => body["measured"] = new JsonObject { ["height"] = 54, ["grossWeight"] = 955, ["wrapTurns"] = 3 }));

        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.Equal(("ready", null, null), (answer.Json.At("verdict"), answer.Json.At("proposedHold"), answer.Json.At("holdId")));
        Assert.Empty(answer.Json["differences"]!.AsArray());
        Assert.Equal("53.5", answer.Json.At("found.outer.height"));
        var refused = await (await shared.ReviewerAsync()).PostAsync($"/api/v1/inspections/{answer.Json.At("id")}/hold", new JsonObject());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
    }

    [Fact]
    public async Task In_the_API_metric_figures_are_read_as_such_and_the_hold_is_placed_by_one_call()
    {
        var pickup = await shared.SoundAsync();
        var reviewer = await shared.ReviewerAsync();

        var answer = await reviewer.PostAsync("/api/v1/inspections", Dock.Inspection(pickup, body => { body["units"] = "metric"; body["measured"] = new JsonObject { ["height"] = 146.05, ["grossWeight"] = 562.5 }; }));
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.Equal(["outer.height", "grossWeight"], answer.Json["differences"]!.AsArray().Select(difference => difference.At("subject")));
        Assert.Equal("4", answer.Json.At("differences.0.apart.value"));

        var held = await reviewer.PostAsync($"/api/v1/inspections/{answer.Json.At("id")}/hold", new JsonObject());
        Assert.Equal(HttpStatusCode.Created, held.Status);
        var hold = await reviewer.ReadAsync(held.Headers.Location!.ToString());
        Assert.Equal((HttpStatusCode.OK, "open"), (hold.Status, hold.Json.At("state")));
        Assert.Null((await reviewer.ReadAsync($"/api/v1/inspections/{answer.Json.At("id")}")).Json.At("proposedHold"));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("{\"hold\":true}")]
    public async Task The_call_itself_says_hold_and_needs_no_body(string? body)
    {
        var reviewer = await shared.ReviewerAsync();
        var id = (await reviewer.PostAsync("/api/v1/inspections", Dock.Inspection(await shared.SoundAsync(), made => made["measured"] = new JsonObject { ["wrapTurns"] = 0 }))).Json.At("id");
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/v1/inspections/{id}/hold");
        if (body is not null)
            request.Content = new StringContent(body, System.Text.Encoding.UTF8, "application/json");

        var held = await reviewer.AnswerAsync(request);

        Assert.Equal(HttpStatusCode.Created, held.Status);
        Assert.NotNull(held.Json.At("holdId"));
    }

    [Fact]
    public async Task A_call_that_says_not_to_hold_is_refused()
    {
        var reviewer = await shared.ReviewerAsync();
        var id = (await reviewer.PostAsync("/api/v1/inspections", Dock.Inspection(await shared.SoundAsync(), made => made["measured"] = new JsonObject { ["wrapTurns"] = 0 }))).Json.At("id");

        var refused = await reviewer.PostAsync($"/api/v1/inspections/{id}/hold", new JsonObject { ["hold"] = false });

        Assert.Equal((HttpStatusCode.BadRequest, "Send true, or nothing."), (refused.Status, refused.Json.At("errors.hold.0")));
    }

    [Theory]
    [InlineData("rita", true)]
    [InlineData("clara", false)]
    [InlineData("ada", false)]
    public async Task Its_page_leads_back_to_where_the_reader_may_go(string person, bool toScan)
    {
        var pickup = await shared.SoundAsync();
        var id = await shared.InspectedAsync(pickup);
        var reader = await shared.PersonAsync(person);

        var back = (await (await reader.GetAsync($"/inspections/{id}")).PageAsync()).QuerySelector(".back a")!.GetAttribute("href")!;

        Assert.Equal(toScan ? "/scan" : $"/pickups/{pickup.Id}", back);
        Assert.Equal(HttpStatusCode.OK, (await reader.GetAsync(back)).Status);
    }

    [Fact]
    public async Task Of_freight_under_a_hold_the_inspection_goes_to_that_hold()
    {
        var pickup = await shared.SubmittedAsync(Freight.Troubled());
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        var hold = Assert.Single(await session.Query<Hold>().Where(hold => hold.Placed.PickupId == pickup.Id).ToListAsync(TestContext.Current.CancellationToken));

        var id = await shared.InspectedAsync(pickup, body => body["measured"] = new JsonObject { ["wrapTurns"] = 0 }, "B1");

        var inspection = await shared.InspectionAsync(id);
        Assert.Equal((hold.Id, false), (inspection.HoldId, inspection.ProposesHold));
        await using var after = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Equal(id, Assert.Single((await after.LoadAsync<Hold>(hold.Id, TestContext.Current.CancellationToken))!.Inspections).InspectionId);
        var page = await (await (await shared.PersonAsync("rita")).GetAsync($"/holds/{hold.Id}")).PageAsync();
        Assert.NotNull(page.QuerySelector($"a[href='/inspections/{id}']"));
    }

    [Fact]
    public async Task After_a_rework_the_inspection_goes_to_the_hold_that_asked_for_it()
    {
        var pickup = await shared.SubmittedAsync(Freight.Troubled());
        var reviewer = await shared.ReviewerAsync();
        var hold = (await reviewer.ReadAsync($"/api/v1/holds?pickup={pickup.Id}")).Json.At("holds.0.id");
        Assert.Equal(HttpStatusCode.Created, (await reviewer.PostAsync($"/api/v1/holds/{hold}/decisions", new JsonObject { ["decision"] = "rework", ["reason"] = "Rebuilt on our dock." })).Status);

        var id = await shared.InspectedAsync(pickup, body => body["measured"] = new JsonObject { ["wrapTurns"] = 3 }, "B1");

        Assert.Equal(hold, (await shared.InspectionAsync(id)).HoldId.ToString());
    }

    [Fact]
    public async Task The_same_form_many_times_at_once_is_one_inspection_and_every_answer_is_the_first()
    {
        var pickup = await shared.SoundAsync();
        var reviewer = await shared.ReviewerAsync();
        var body = Dock.Inspection(pickup, body => body["measured"] = new JsonObject { ["wrapTurns"] = 1 });

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => reviewer.PostAsync("/api/v1/inspections", body)));
        var changed = (JsonObject)body.DeepClone();
        changed["measured"] = new JsonObject { ["wrapTurns"] = 2 };
        var later = await reviewer.PostAsync("/api/v1/inspections", changed);

        Assert.All([.. answers, later], answer => Assert.Equal(HttpStatusCode.Created, answer.Status));
        Assert.Single(answers.Append(later).Select(answer => answer.Text).Distinct());
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Single(await session.Events.FetchStreamAsync(Guid.Parse(body.At("id")!), token: TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Two_inspections_of_one_line_held_in_one_moment_make_one_hold()
    {
        var reviewer = await shared.ReviewerAsync();
        for (var round = 0; round < 4; round++)
        {
            var pickup = await shared.SoundAsync();
            var inspections = new List<string>();
            foreach (var turns in (int[])[0, 1])
                inspections.Add((await reviewer.PostAsync("/api/v1/inspections", Dock.Inspection(pickup, body => body["measured"] = new JsonObject { ["wrapTurns"] = turns }))).Json.At("id")!);

            var held = await Task.WhenAll(inspections.Select(id => reviewer.PostAsync($"/api/v1/inspections/{id}/hold", new JsonObject())));

            Assert.All(held, answer => Assert.Equal(HttpStatusCode.Created, answer.Status));
            var hold = Assert.Single(held.Select(answer => answer.Json.At("holdId")).Distinct());
            await using var session = (await shared.PortalAsync()).Store.QuerySession();
            Assert.Equal([Guid.Parse(hold!)], (await InspectionDesk.HoldsAsync(session, pickup.Id, "A1", TestContext.Current.CancellationToken)).Select(one => one.Id));
        }
    }

    [Fact]
    public async Task With_an_idempotency_key_record_photo_and_hold_are_answered_as_the_first_time()
    {
        var pickup = await shared.SoundAsync();
        var reviewer = await shared.ReviewerAsync();
        var body = Dock.Inspection(pickup, body => body["measured"] = new JsonObject { ["wrapTurns"] = 0 });
        var (record, photo, hold) = (Guid.NewGuid().ToString(), Guid.NewGuid().ToString(), Guid.NewGuid().ToString());

        var recorded = await reviewer.PostAsync("/api/v1/inspections", body, record);
        var id = Guid.Parse(recorded.Json.At("id")!);
        var photographed = await reviewer.SendPhotoAsync(id, Pictures.Png(), key: photo);
        var held = await reviewer.PostAsync($"/api/v1/inspections/{id}/hold", new JsonObject(), hold);

        Assert.Equal(recorded.Text, (await reviewer.PostAsync("/api/v1/inspections", body, record)).Text);
        Assert.Equal(photographed.Text, (await reviewer.SendPhotoAsync(id, Pictures.Png(), key: photo)).Text);
        Assert.Equal(held.Text, (await reviewer.PostAsync($"/api/v1/inspections/{id}/hold", new JsonObject(), hold)).Text);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await reviewer.SendPhotoAsync(id, Pictures.Jpeg(), key: photo)).Status);
        Assert.Equal(held.Json.At("holdId"), (await reviewer.ReadAsync($"/api/v1/inspections/{id}")).Json.At("holdId"));
    }

    [Fact]
    public async Task A_page_sent_twice_with_its_photos_is_one_inspection_with_each_photo_once()
    {
        var pickup = await shared.SoundAsync();
        var rita = await shared.PersonAsync("rita");
        var form = await FormAsync(rita, pickup.Id);

        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => SendAsync(rita, form, [Pictures.Jpeg(), Pictures.Png(), Pictures.Png()], ("measured.wrapTurns", "3"))));

        Assert.All(answers, answer => Assert.Equal(HttpStatusCode.Redirect, answer.Status));
        var location = Assert.Single(answers.Select(answer => answer.Location).Distinct());
        var inspection = await shared.InspectionAsync(Guid.Parse(location!.Split('/')[^1]));
        Assert.Equal(2, inspection.Photos.Count);
        Assert.Equal(2, (await shared.PhotosAsync(pickup.Id)).Count);
    }

    [Fact]
    public async Task With_a_bad_photo_nothing_is_recorded_and_what_was_typed_is_kept()
    {
        var pickup = await shared.SoundAsync();
        var rita = await shared.PersonAsync("rita");
        var form = await FormAsync(rita, pickup.Id);

        var answer = await SendAsync(rita, form, [Pictures.Jpeg(), "no picture"u8.ToArray()], ("measured.height", "53 1/2"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        Assert.Equal("53 1/2", ((IHtmlInputElement)page.QuerySelector("input[name='measured.height']")!).Value);
        Assert.Contains("whatever it is called", page.QuerySelector("[data-field=photos] .field__error")!.TextContent);
        Assert.Empty(await shared.PhotosAsync(pickup.Id));
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Equal(0, await session.Query<Inspection>().CountAsync(inspection => inspection.Recorded.PickupId == pickup.Id, TestContext.Current.CancellationToken));
    }

    public static TheoryData<string, string, string> Bad => new()
    {
        { "measured.height", "tall", "A length such as" },
        { "measured.height", "-4", "A length such as" },
        { "measured.height", "0", "A length such as" },
        { "measured.height", "99999", "A length such as" },
        { "measured.height", "NaN", "A length such as" },
        { "measured.grossWeight", "heavy", "A weight such as" },
        { "measured.grossWeight", "0", "A weight such as" },
        { "measured.grossWeight", "1e99", "A weight such as" },
        { "measured.wrapTurns", "2.5", "A whole number" },
        { "measured.wrapTurns", "-1", "A whole number" },
        { "measured.wrapOverPlatform", "perhaps", "Choose one of" },
        { "measured.cornerBoards", "gold", "Choose one of" },
        { "measured.overhangAtEnds", "some", "A length such as" },
        { "damage[0].kind", "eaten", "Choose one of" },
        { "damage[0].note", "only a note", "Choose one of" },
        { "stackTest", "maybe", "Choose one of" },
        { "alike", "0", "A whole number" },
        { "alike", "5", "A whole number" },
        { "index", "9", "A whole number" },
        { "note", "It \u0007 rang.", "readable" },
    };

    [Theory]
    [MemberData(nameof(Bad))]
    public async Task What_cannot_be_read_is_told_at_its_field(string field, string typed, string said)
    {
        var pickup = await shared.SoundAsync();
        var rita = await shared.PersonAsync("rita");

        var answer = await rita.SubmitAsync(await FormAsync(rita, pickup.Id), "form#inspection", (field, typed));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains((await answer.PageAsync()).QuerySelectorAll(".field__error").Select(error => error.TextContent), error => error.Contains(said, StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_inspection_without_anything_in_it_is_refused()
    {
        var pickup = await shared.SoundAsync();
        var rita = await shared.PersonAsync("rita");

        var answer = await rita.SubmitAsync(await FormAsync(rita, pickup.Id), "form#inspection");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("says nothing", (await answer.PageAsync()).QuerySelector("#measured-error")!.TextContent);
    }

    public static TheoryData<string> BadJson =>
    [
        """{}""",
        """{"measured":null}""",
        """{"measured":{"height":-1}}""",
        """{"measured":{"height":1e308}}""",
        """{"damage":[null]}""",
        """{"damage":[{"kind":"crushed"}]}""",
        """{"units":"cubits","measured":{"height":50}}""",
        """{"measured":{"height":50},"sscc":"123"}""",
        """{"measured":{"height":50},"index":0}""",
        """{"measured":{"height":50},"alike":1000}""",
        """{"measured":{"height":50},"reference":"ZZ"}""",
        """{"measured":{"height":50},"reference":null}""",
        """{"measured":{"height":50},"id":"00000000-0000-0000-0000-000000000000"}""",
        """{"measured":{"height":50},"id":null}""",
        """{"measured":{"height":"tall"}}""",
        """{"note":"a\u0000b"}""",
        """{"measured":{"height":50},"takenAt":"yesterday"}""",
        """{"stackTest":"exploded"}""",
    ];

    [Theory]
    [MemberData(nameof(BadJson))]
    public async Task JSON_that_cannot_be_read_is_a_problem_with_its_fields(string json)
    {
        var pickup = await shared.SoundAsync();
        var body = Dock.Inspection(pickup, body => body.Remove("measured"));
        foreach (var (name, value) in (JsonObject)JsonNode.Parse(json)!)
            body[name] = value?.DeepClone();

        var answer = await (await shared.ReviewerAsync()).PostAsync("/api/v1/inspections", body);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.NotEmpty(answer.Json["errors"]!.AsObject());
    }

    [Fact]
    public async Task An_id_under_which_something_else_is_stored_is_refused_and_does_no_harm()
    {
        var pickup = await shared.SoundAsync();
        var portal = await shared.PortalAsync();
        foreach (var taken in (Guid[])[pickup.Id, (await shared.HeldAsync())[0].Id])
        {
            await using var before = portal.Store.QuerySession();
            var events = (await before.Events.FetchStreamAsync(taken, token: TestContext.Current.CancellationToken)).Count;

            var answer = await (await shared.ReviewerAsync()).PostAsync("/api/v1/inspections", Dock.Inspection(pickup, body => body["id"] = taken.ToString()));

            Assert.Equal((HttpStatusCode.Conflict, "urn:fettle:problem:id-taken"), (answer.Status, answer.Json.At("type")));
            await using var after = portal.Store.QuerySession();
            Assert.Equal(events, (await after.Events.FetchStreamAsync(taken, token: TestContext.Current.CancellationToken)).Count);
        }
    }

    [Fact]
    public async Task The_id_of_another_freights_inspection_is_refused()
    {
        var first = await shared.InspectedAsync(await shared.SoundAsync());

        var answer = await (await shared.ReviewerAsync()).PostAsync("/api/v1/inspections", Dock.Inspection(await shared.SoundAsync(), body => body["id"] = first.ToString()));

        Assert.Equal((HttpStatusCode.Conflict, "urn:fettle:problem:already-recorded"), (answer.Status, answer.Json.At("type")));
    }

    [Fact]
    public async Task Another_terminals_reviewer_finds_nothing_here()
    {
        var pickup = await shared.SoundAsync();
        var id = await shared.InspectedAsync(pickup);
        var otto = await shared.PersonAsync("otto");
        var portal = await shared.PortalAsync();
        var machine = await portal.ApiAsync(portal.Parties.OtherReviewer);

        Assert.Equal(HttpStatusCode.NotFound, (await otto.GetAsync($"/inspections/new?pickup={pickup.Id}&line=A1")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await otto.GetAsync($"/inspections/{id}")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await machine.ReadAsync($"/api/v1/inspections/{id}")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await machine.PostAsync("/api/v1/inspections", Dock.Inspection(pickup))).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await machine.PostAsync($"/api/v1/inspections/{id}/hold", new JsonObject())).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("rita")).GetAsync($"/inspections/new?pickup={pickup.Id}&line=ZZ")).Status);
    }

    [Fact]
    public async Task Shippers_read_what_was_found_and_record_nothing()
    {
        var pickup = await shared.SoundAsync();
        var id = await shared.InspectedAsync(pickup, body => body["measured"] = new JsonObject { ["wrapTurns"] = 1 });
        var clara = await shared.PersonAsync("clara");

        var page = await (await clara.GetAsync($"/inspections/{id}")).PageAsync();

        Assert.Contains("Too little film", page.Body!.TextContent);
        Assert.Null(page.QuerySelector("main form"));
        Assert.Equal(HttpStatusCode.Forbidden, (await clara.GetAsync($"/inspections/new?pickup={pickup.Id}&line=A1")).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await (await shared.ClerkAsync()).PostAsync("/api/v1/inspections", Dock.Inspection(pickup))).Status);
    }

    [Fact]
    public async Task A_script_is_answered_in_JSON_and_told_when_it_is_signed_out()
    {
        var pickup = await shared.SoundAsync();
        var rita = await shared.PersonAsync("rita");
        var form = await FormAsync(rita, pickup.Id);
        var fields = form.QuerySelectorAll<IHtmlInputElement>("form#inspection input[type=hidden]").Select(input => (Name: input.Name!, input.Value)).ToArray();

        var made = await rita.PostAsync("/inspections", [.. fields, ("measured.height", "53.5")], ("Accept", "application/json"), ("HX-Request", "true"));
        var wrong = await rita.PostAsync("/inspections", [.. fields, ("measured.height", "tall")], ("Accept", "application/json"), ("HX-Request", "true"));
        var nobody = await new Browser((await shared.PortalAsync()).Anonymous()).PostAsync("/inspections", fields, ("Accept", "application/json"), ("HX-Request", "true"));

        Assert.Equal(HttpStatusCode.Created, made.Status);
        Assert.Equal($"/inspections/{fields.Single(field => field.Name == "id").Value}", JsonNode.Parse(made.Text).At("location"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("A length such as", JsonNode.Parse(wrong.Text)!["errors"]!["measured.height"]!.ToString());
        Assert.Equal(HttpStatusCode.Unauthorized, nobody.Status);
    }

    [Fact]
    public async Task What_another_kept_on_the_device_is_not_recorded_in_the_name_of_who_is_signed_in()
    {
        var pickup = await shared.SoundAsync();
        var rita = await shared.PersonAsync("rita");
        var form = await FormAsync(rita, pickup.Id);
        var person = form.QuerySelector("#kept")!.GetAttribute("data-person")!;
        (string, string)[] fields = [.. form.QuerySelectorAll<IHtmlInputElement>("form#inspection input[type=hidden]").Select(input => (input.Name!, input.Value)), ("measured.height", "53.5")];

        var anothers = await rita.PostAsync("/inspections", fields, ("Accept", "application/json"), ("HX-Request", "true"), ("X-Kept-By", Guid.CreateVersion7().ToString()));
        await using (var session = (await shared.PortalAsync()).Store.QuerySession())
            Assert.Equal(0, await session.Query<Inspection>().CountAsync(inspection => inspection.Recorded.PickupId == pickup.Id));
        var own = await rita.PostAsync("/inspections", fields, ("Accept", "application/json"), ("HX-Request", "true"), ("X-Kept-By", person));
        var path = JsonNode.Parse(own.Text).At("location");
        var photo = await rita.PostAsync($"{path}/photos", fields, ("Accept", "application/json"), ("HX-Request", "true"), ("X-Kept-By", Guid.CreateVersion7().ToString()));

        Assert.Equal((HttpStatusCode.Unauthorized, HttpStatusCode.Created, HttpStatusCode.Unauthorized), (anothers.Status, own.Status, photo.Status));
    }

    private static async Task<IHtmlDocument> FormAsync(Browser reviewer, Guid pickup, string line = "A1")
    {
        var answer = await reviewer.GetAsync($"/inspections/new?pickup={pickup}&line={line}");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        return (IHtmlDocument)await answer.PageAsync();
    }

    /// <summary>As a browser without script sends it.</summary>
    private static Task<Answer> SendAsync(Browser browser, IHtmlDocument page, IReadOnlyList<byte[]> photos, params (string Name, string Value)[] typed)
    {
        var content = new MultipartFormDataContent();
        foreach (var input in page.QuerySelectorAll<IHtmlInputElement>("form#inspection input[type=hidden]"))
            content.Add(new StringContent(input.Value), input.Name!);
        foreach (var (name, value) in typed)
            content.Add(new StringContent(value), name);
        foreach (var photo in photos)
            content.Add(new ByteArrayContent(photo), "photos", "IMG_0001.jpg");
        var request = new HttpRequestMessage(HttpMethod.Post, "/inspections") { Content = content };
        request.Headers.Add("Sec-Fetch-Site", "same-origin");
        return browser.SendAsync(request);
    }
}
