using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.RuleSets;
using Marten;

namespace Fettle.Web.Tests.RuleSets;

public sealed class RulePreviewTests(SharedPortal shared)
{
    private static readonly (string, string) FourTurns = ("Limits[wrap.turns]", "4");

    [Fact]
    public async Task What_the_draft_would_have_held_is_counted_and_shown()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.SubmitAsync(Freight.Sound());
        await desk.SubmitAsync(Freight.Sound());
        await desk.SubmitAsync(Freight.Troubled());
        var asked = await desk.AskAsync(FourTurns);
        var waiting = await (await desk.Browser.GetAsync($"{desk.Path}/previews/{asked.Id}")).PageAsync();

        var counted = await desk.CountAsync(asked.Id);

        Assert.Equal((RulePreviewState.Done, 3, 3), (counted.State, counted.Counted, counted.All));
        Assert.Equal((new HeldCount(3, 1, 2, 0), new HeldCount(9, 1, 8, 0)), (counted.Effect!.Pickups, counted.Effect.Units));
        Assert.Equal(new FindingEffect(FindingCodes.WrapTurns, Severity.Stop, 1, 8, 0), counted.Effect.Findings.Single(finding => finding.Code == FindingCodes.WrapTurns));
        Assert.Equal(desk.Portal.Parties.Shipper.Id, Assert.Single(counted.Effect.Shippers).ShipperId);
        // The page asks again by itself until it is counted, and then no more.
        Assert.Equal("every 1s", waiting.QuerySelector("#preview")!.GetAttribute("hx-trigger"));
        var page = await (await desk.Browser.GetAsync($"{desk.Path}/previews/{asked.Id}/state")).PageAsync();
        Assert.Null(page.QuerySelector("[hx-trigger]"));
        Assert.Contains("8 more units held, 0 let go", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Bramblewick Glassware", page.Body.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Counted_twice_at_once_or_late_it_is_the_same()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.SubmitAsync(Freight.Sound());
        var asked = await desk.AskAsync(FourTurns);
        // Submitted after it was asked for: not part of it, however late it is counted.
        await desk.SubmitAsync(Freight.Sound());

        await Task.WhenAll(desk.CountAsync(asked.Id), desk.CountAsync(asked.Id));
        var first = await desk.PreviewAsync(asked.Id);
        var again = await desk.CountAsync(asked.Id);

        Assert.Equal((1, 4), (first.Effect!.Pickups.All, first.Effect.Units.Caught));
        Assert.Equal((first.Version, first.EndedAt), (again.Version, again.EndedAt));
    }

    [Fact]
    public async Task A_cancelled_preview_is_not_counted()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.SubmitAsync(Freight.Sound());
        var asked = await desk.AskAsync(FourTurns);
        await desk.Browser.PostAsync($"{desk.Path}/previews/{asked.Id}/cancel", [("__RequestVerificationToken", await CarrierDesk.TokenAsync(desk.Browser))]);

        var after = await desk.CountAsync(asked.Id);

        Assert.Equal((RulePreviewState.Cancelled, null), (after.State, after.Effect));
        Assert.Contains("Cancelled", (await desk.Browser.GetAsync($"{desk.Path}/previews/{asked.Id}/state")).Text, StringComparison.Ordinal);
        // What is counted already stays.
        var other = await desk.AskAsync(("Limits[wrap.turns]", "5"));
        await desk.CountAsync(other.Id);
        await desk.Browser.PostAsync($"{desk.Path}/previews/{other.Id}/cancel", [("__RequestVerificationToken", await CarrierDesk.TokenAsync(desk.Browser))]);
        Assert.Equal(RulePreviewState.Done, (await desk.PreviewAsync(other.Id)).State);
    }

    [Fact]
    public async Task A_run_that_is_alive_is_left_alone_and_a_dead_one_is_replaced()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.SubmitAsync(Freight.Sound());
        var asked = await desk.AskAsync(FourTurns);
        await LeaseAsync(DateTimeOffset.UtcNow.AddMinutes(1));

        Assert.Equal(RulePreviewState.Running, (await desk.CountAsync(asked.Id)).State);
        await LeaseAsync(DateTimeOffset.UtcNow.AddMinutes(-1));
        Assert.Equal(RulePreviewState.Done, (await desk.CountAsync(asked.Id)).State);

        async Task LeaseAsync(DateTimeOffset until)
        {
            await using var session = desk.Portal.Store.LightweightSession();
            var preview = (await session.LoadAsync<RulePreview>(asked.Id))!;
            (preview.State, preview.Run, preview.RunningUntil) = (RulePreviewState.Running, Guid.CreateVersion7(), until);
            session.Store(preview);
            await session.SaveChangesAsync();
        }
    }

    [Fact]
    public async Task Asking_again_shows_the_same_and_a_changed_draft_asks_anew()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var first = await desk.AskAsync(FourTurns);

        var same = await desk.AskAsync();
        var changed = await desk.AskAsync(("Limits[wrap.turns]", "5"));

        Assert.Equal(first.Id, same.Id);
        Assert.NotEqual(first.Id, changed.Id);
        Assert.Equal(RulePreviewState.Cancelled, (await desk.PreviewAsync(first.Id)).State);
        Assert.Contains("The draft was changed since", (await desk.Browser.GetAsync($"{desk.Path}/previews/{first.Id}")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task With_nothing_submitted_it_says_so_and_with_no_such_preview_nothing_happens()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var asked = await desk.AskAsync(FourTurns);

        await desk.CountAsync(asked.Id);

        Assert.Contains("Nothing was submitted in these 90 days", (await desk.Browser.GetAsync($"{desk.Path}/previews/{asked.Id}")).Text, StringComparison.Ordinal);
        Assert.Null(await desk.CountAsync(Guid.CreateVersion7()));
    }
}
