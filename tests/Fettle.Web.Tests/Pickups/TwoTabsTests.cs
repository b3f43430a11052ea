using System.Net;
using System.Text.Json.Nodes;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Fettle.Web.Tests.Identity;
using Marten;

namespace Fettle.Web.Tests.Pickups;

/// <summary>One pickup open twice: nothing that was typed gets lost, and nobody overwrites somebody else unknowingly.</summary>
public sealed class TwoTabsTests(SharedPortal shared) : IAsyncLifetime
{
    private const string Height = "handlingUnits[0].outer.height";
    private const string Weight = "handlingUnits[0].grossWeight";

    private EditorTab first = null!;
    private EditorTab second = null!;
    private Browser own = null!;
    private Browser colleague = null!;

    public async ValueTask InitializeAsync()
    {
        own = await NewPersonAsync("Owner");
        colleague = await NewPersonAsync("Colleague");
        first = await EditorTab.StartAsync(own);
        await first.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0)]);
        second = await EditorTab.OpenAsync(colleague, first.Id);
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Fact]
    public async Task The_second_to_change_is_told_who_when_and_what_and_loses_nothing()
    {
        await second.PressAsync("check", (Weight, "950"));

        await first.PressAsync("check", (Height, "54"), ("destination", "Saltmarsh Cordials, Copper Fork"));

        Assert.True(first.HasConflict);
        Assert.Contains("Colleague changed this pickup since you opened it", first.Standing);
        Assert.Contains((await shared.DraftAsync(first.Id)).ChangedAt.ToString("HH:mm 'UTC'", System.Globalization.CultureInfo.InvariantCulture), first.Standing);
        var differences = first.Page.QuerySelectorAll("#standing tbody tr").Select(row => string.Join('|', row.QuerySelectorAll("td").Select(cell => cell.TextContent))).ToArray();
        Assert.Contains("A1, outer height|53 1/2|54", differences);
        Assert.Contains("A1, gross weight|950|940", differences);
        Assert.Contains("consignee and town|Quillfeather Paper, Saltgrass|Saltmarsh Cordials, Copper Fork", differences);
        Assert.Equal(3, differences.Length);
        Assert.Equal("54", first.Value(Height));
        Assert.Equal("950", (await shared.DraftAsync(first.Id)).Form.HandlingUnits[0].GrossWeight);
    }

    [Fact]
    public async Task Keep_mine_saves_what_the_page_shows()
    {
        await second.PressAsync("check", (Weight, "950"));
        await first.PressAsync("check", (Height, "54"));
        Assert.True(first.HasConflict);

        await first.PressAsync("keep-mine");

        Assert.False(first.HasConflict);
        var saved = (await shared.DraftAsync(first.Id)).Form.HandlingUnits[0];
        Assert.Equal(("54", "940"), (saved.Outer.Height, saved.GrossWeight));
        await first.PressAsync("check", (Height, "55"));
        Assert.False(first.HasConflict);
        // Now the other one is behind.
        await second.PressAsync("check", (Weight, "960"));
        Assert.True(second.HasConflict);
    }

    [Fact]
    public async Task Take_saved_shows_what_was_saved_and_works_on()
    {
        await second.PressAsync("check", (Weight, "950"));
        await first.PressAsync("check", (Height, "54"));

        var taken = await first.PressAsync("take-saved");
        Assert.Equal($"/pickups/{first.Id}", taken.Location);
        var fresh = await EditorTab.OpenAsync(own, first.Id);

        Assert.Equal(("53 1/2", "950"), (fresh.Value(Height), fresh.Value(Weight)));
        await fresh.PressAsync("check", (Height, "54"));
        Assert.False(fresh.HasConflict);
    }

    [Fact]
    public async Task A_change_that_was_under_way_when_a_button_was_pressed_does_not_undo_the_button()
    {
        var before = first.AsItIs();
        await first.PressAsync("add");

        await before.TypeAsync((Weight, "950"));

        var saved = (await shared.DraftAsync(first.Id)).Form.HandlingUnits;
        Assert.Equal((2, "940"), (saved.Count, saved[0].GrossWeight));
        await first.PressAsync("check", (Weight, "960"));
        Assert.False(first.HasConflict);
    }

    [Fact]
    public async Task A_button_whose_answer_got_lost_is_pressed_again()
    {
        var before = first.AsItIs();
        await first.PressAsync("add");

        await before.PressAsync("add");

        Assert.False(before.HasConflict);
        Assert.Equal(2, (await shared.DraftAsync(first.Id)).Form.HandlingUnits.Count);
    }

    [Theory]
    [InlineData("add")]
    [InlineData("duplicate:0")]
    [InlineData("submit")]
    public async Task Every_button_tells_of_the_conflict_and_saves_nothing(string button)
    {
        await second.PressAsync("check", (Weight, "950"));

        await first.PressAsync(button, (Height, "54"));

        Assert.True(first.HasConflict);
        Assert.Equal("54", first.Value(Height));
        var saved = await shared.DraftAsync(first.Id);
        Assert.Null(saved.SubmittedAt);
        Assert.Equal("53 1/2", Assert.Single(saved.Form.HandlingUnits).Outer.Height);
    }

    [Fact]
    public async Task A_change_by_htmx_in_the_second_tab_is_told_of_in_the_part_that_stands_above()
    {
        await second.TakeAsync(await second.TypeAsync((Weight, "950")));

        var answer = await first.TypeAsync((Height, "54"));

        var page = await answer.PageAsync();
        Assert.Contains("changed this pickup since you opened it", page.QuerySelector("#standing [role=alert]")!.TextContent);
        Assert.Equal("53 1/2", (await shared.DraftAsync(first.Id)).Form.HandlingUnits[0].Outer.Height);
    }

    [Fact]
    public async Task A_tab_whose_last_answer_got_lost_has_no_conflict_with_itself()
    {
        await first.TypeAsync((Height, "54"));
        // The answer never arrived: the page still has the old version.
        var answer = await first.TypeAsync((Height, "55"));

        Assert.Null((await answer.PageAsync()).QuerySelector("[role=alert]"));
        Assert.Equal("55", (await shared.DraftAsync(first.Id)).Form.HandlingUnits[0].Outer.Height);
    }

    [Fact]
    public async Task Of_changes_in_the_same_moment_one_is_saved_and_the_others_are_told()
    {
        for (var round = 0; round < 20; round++)
        {
            EditorTab[] tabs = [await EditorTab.OpenAsync(own, first.Id), await EditorTab.OpenAsync(colleague, first.Id), await EditorTab.OpenAsync(own, first.Id)];

            var answers = await Task.WhenAll(tabs.Select((tab, i) => tab.TypeAsync(("destination", $"Round {round}, tab {i}"))));

            var told = await Task.WhenAll(answers.Select(async answer => (await answer.PageAsync()).QuerySelector("[role=alert]") is not null));
            Assert.Single(told, conflict => !conflict);
            Assert.Equal($"Round {round}, tab {Array.IndexOf(told, false)}", (await shared.DraftAsync(first.Id)).Form.Destination);
        }
    }

    [Fact]
    public async Task A_second_press_on_submit_leads_to_the_submitted_pickup()
    {
        var answers = await Task.WhenAll(first.PressAsync("submit"), first.PressAsync("submit"), first.PressAsync("submit"));
        var late = await first.PressAsync("submit");

        Assert.Equal($"/pickups/{first.Id}", late.Location);
        Assert.Contains(answers, answer => answer.Location == $"/pickups/{first.Id}");
        Assert.All(answers, answer => Assert.True(answer.Status is HttpStatusCode.Redirect or HttpStatusCode.OK));
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Single(await session.Events.FetchStreamAsync(first.Id));
    }

    [Fact]
    public async Task A_tab_that_changes_what_has_been_submitted_meanwhile_is_told()
    {
        await second.PressAsync("submit");

        var typed = await first.TypeAsync((Height, "54"));
        var pressed = await first.PressAsync("check", (Height, "54"));

        Assert.Equal(HttpStatusCode.Conflict, typed.Status);
        Assert.Contains("has been submitted already", (await typed.PageAsync()).QuerySelector(".notice")!.TextContent);
        Assert.Equal($"/pickups/{first.Id}", pressed.Location);
        Assert.Contains("has been submitted already", (await own.GetAsync(pressed.Location!)).Text);
    }

    /// <summary>Submitted is what was saved last, and whoever came too late knows it.</summary>
    [Fact]
    public async Task A_submission_while_somebody_edits_takes_the_edit_along_or_tells_of_it()
    {
        var clerk = await shared.ClerkAsync();
        var outcomes = new HashSet<string>();
        for (var round = 0; round < 20; round++)
        {
            var tab = await EditorTab.StartAsync(own);
            await tab.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0), ("destination", "Before")]);

            var editing = tab.TypeAsync(("destination", "After"));
            var submitting = clerk.PostAsync($"/api/v1/pickups/{tab.Id}/submission", new JsonObject());
            var (edited, submitted) = (await editing, await submitting);

            await using var session = (await shared.PortalAsync()).Store.QuerySession();
            var pickup = await session.LoadAsync<Pickup>(tab.Id);
            var saved = edited.Status == HttpStatusCode.OK && (await edited.PageAsync()).QuerySelector("[role=alert]") is null;
            Assert.True(submitted.Status is HttpStatusCode.Created or HttpStatusCode.Conflict, submitted.ToString());
            Assert.Equal(submitted.Status == HttpStatusCode.Created, pickup is not null);
            if (pickup is not null)
                Assert.Equal(saved ? "After" : "Before", pickup.Header.Destination);
            else
                Assert.True(saved);
            outcomes.Add($"{saved}, {submitted.Status}");
        }

        Assert.NotEmpty(outcomes);
    }

    private async Task<Browser> NewPersonAsync(string surname)
    {
        var portal = await shared.PortalAsync();
        var name = $"T{Guid.CreateVersion7():N}";
        await portal.AddUserAsync($"{name} {surname}", portal.Parties.Clerk);
        return await shared.PersonAsync(name.ToLowerInvariant());
    }
}
