using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Fettle.Web.Notices;
using Fettle.Web.Tests.Identity;
using Marten;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Web.Tests.Outcomes;

/// <summary>How freight was delivered: recorded by the carrier's people, once, and replaced only knowingly.</summary>
public sealed class OutcomeTests(SharedPortal shared)
{
    private static string Today => DateTimeOffset.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [Fact]
    public async Task Damage_is_recorded_with_its_deadlines_and_the_shipper_is_told_now_and_before_they_end()
    {
        var id = await SubmittedAsync();

        var answer = await RecordAsync(id, Of(("clean", 3), ("damaged", 1)));

        Assert.Equal(HttpStatusCode.Created, answer.Status);
        var day = DateOnly.ParseExact(Today, "yyyy-MM-dd", CultureInfo.InvariantCulture);
        Assert.Equal(day.AddMonths(9).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), answer.Json.At("claimBy"));
        var read = await (await shared.ClerkAsync()).ReadAsync($"/api/v1/pickups/{id}");
        Assert.Equal("corner", read.Json.At("outcome.units.1.where"));
        var notices = await NoticesAsync(id);
        Assert.Equal(NoticeState.Due, notices[NoticeKind.OutcomeForShipper].State);
        Assert.Equal(day.AddMonths(9).AddDays(-30), DateOnly.FromDateTime(notices[NoticeKind.ClaimDeadline].DueAt.UtcDateTime));
        Assert.True(notices[NoticeKind.ConcealedDamageDeadline].DueAt > DateTimeOffset.UtcNow);
    }

    [Fact]
    public async Task Held_freight_is_decided_about_before_it_is_delivered()
    {
        var hold = (await shared.HeldAsync())[0];
        var line = hold.Placed.HandlingUnit;
        var pickup = await LoadAsync();
        JsonArray units = [.. pickup.Declaration.HandlingUnits.Select(unit => new JsonObject { ["reference"] = unit.Reference, ["count"] = unit.Quantity, ["kind"] = "clean" })];

        var early = await RecordAsync(pickup.Id, (JsonArray)units.DeepClone());
        Assert.Equal((HttpStatusCode.Conflict, "urn:fettle:problem:held-undecided"), (early.Status, early.Json.At("type")));
        Assert.Contains(line.Reference, early.Json.At("detail"), StringComparison.Ordinal);
        Assert.Empty(await RecordedAsync(pickup.Id));

        foreach (var open in (await (await shared.ReviewerAsync()).ReadAsync($"/api/v1/holds?pickup={pickup.Id}")).Json["holds"]!.AsArray())
            await (await shared.ReviewerAsync()).PostAsync($"/api/v1/holds/{open.At("id")}/decisions", new JsonObject { ["decision"] = "release", ["reason"] = "Rewrapped." });
        Assert.Equal(HttpStatusCode.Created, (await RecordAsync(pickup.Id, units)).Status);

        async Task<Pickup> LoadAsync()
        {
            await using var session = (await shared.PortalAsync()).Store.QuerySession();
            return (await session.LoadAsync<Pickup>(hold.Placed.PickupId))!;
        }
    }

    [Fact]
    public async Task Freight_that_came_whole_bothers_nobody()
    {
        var id = await SubmittedAsync();
        Assert.Equal(HttpStatusCode.Created, (await RecordAsync(id, Of(("clean", 4)))).Status);
        Assert.DoesNotContain(NoticeKind.OutcomeForShipper, (await NoticesAsync(id)).Keys);
    }

    [Fact]
    public async Task A_second_record_is_refused_until_it_names_the_first_and_says_why_and_a_reminder_of_the_first_is_never_sent()
    {
        var id = await SubmittedAsync();
        var first = (await RecordAsync(id, Of(("clean", 3), ("damaged", 1)))).Json.At("id")!;

        var unknowing = await RecordAsync(id, Of(("clean", 4)));
        Assert.Equal((HttpStatusCode.Conflict, "urn:fettle:problem:outcome-recorded"), (unknowing.Status, unknowing.Json.At("type")));
        Assert.Equal(HttpStatusCode.BadRequest, (await RecordAsync(id, Of(("clean", 4)), first)).Status);
        var replaced = await RecordAsync(id, Of(("clean", 4)), first, "It was another shipper's pallet.");

        Assert.Equal(HttpStatusCode.Created, replaced.Status);
        var reminder = (await NoticesAsync(id))[NoticeKind.ClaimDeadline];
        var portal = await shared.PortalAsync();
        await using (var session = portal.Store.LightweightSession())
        {
            reminder.DueAt = DateTimeOffset.UtcNow.AddMinutes(-1);
            session.Store(reminder);
            await session.SaveChangesAsync();
        }

        await portal.Services.GetRequiredService<SendNoticeJob>().RunAsync(reminder.Id, CancellationToken.None);
        Assert.Equal(NoticeState.Overtaken, (await NoticesAsync(id))[NoticeKind.ClaimDeadline].State);
        Assert.Equal(2, (await RecordedAsync(id)).Count);
    }

    [Theory]
    [InlineData("""{"deliveredOn":"tomorrow","units":[{"reference":"A1","count":4,"kind":"clean"}]}""", "deliveredOn")]
    [InlineData("""{"deliveredOn":"TODAY"}""", "units")]
    [InlineData("""{"deliveredOn":"TODAY","units":[null]}""", "units[0].reference")]
    [InlineData("""{"deliveredOn":"TODAY","units":[{"reference":"A1","count":0,"kind":"clean"}]}""", "units[0].count")]
    [InlineData("""{"deliveredOn":"TODAY","units":[{"reference":"A1","count":4,"kind":"lost"}]}""", "units[0].kind")]
    [InlineData("""{"deliveredOn":"TODAY","units":[{"reference":"A1","count":4,"kind":"damaged","where":"top"}]}""", "units[0].how")]
    [InlineData("""{"deliveredOn":"TODAY","units":[{"reference":"A1","count":4,"kind":"damaged","where":"roof","how":"wet"}]}""", "units[0].where")]
    [InlineData("""{"deliveredOn":"TODAY","units":[{"reference":"A1","count":4,"kind":"clean","note":"\u0000"}]}""", "units[0].note")]
    public async Task What_cannot_be_read_is_named_by_its_field(string body, string field)
    {
        var id = await SubmittedAsync();
        var answer = await (await shared.ReviewerAsync()).PostAsync($"/api/v1/pickups/{id}/outcome", JsonNode.Parse(body.Replace("TODAY", Today, StringComparison.Ordinal))!.AsObject());
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.NotNull(answer.Json["errors"]![field]);
        Assert.Empty(await RecordedAsync(id));
    }

    [Theory]
    [InlineData(3, "A1", "units-unaccounted")]
    [InlineData(4, "Z9", "units-unaccounted")]
    public async Task What_does_not_account_for_every_unit_is_refused(int count, string reference, string code)
    {
        var id = await SubmittedAsync();
        var answer = await RecordAsync(id, [new JsonObject { ["reference"] = reference, ["count"] = count, ["kind"] = "clean" }]);
        Assert.Equal((HttpStatusCode.UnprocessableEntity, $"urn:fettle:problem:{code}"), (answer.Status, answer.Json.At("type")));
    }

    [Fact]
    public async Task On_the_page_only_what_is_amiss_is_typed_and_a_form_sent_twice_is_recorded_once()
    {
        var id = await SubmittedAsync();
        var rita = await shared.PersonAsync("rita");
        var page = await (await rita.GetAsync($"/pickups/{id}/outcome")).PageAsync();

        foreach (var _ in (int[])[1, 2])
        {
            var answer = await rita.SubmitAsync(page, $"form[action='/pickups/{id}/outcome']", ("Lines[0].Damaged", "1"), ("Lines[0].Where", "top"), ("Lines[0].How", "crushed"), ("Lines[0].CarriedFreight", "yes"));
            Assert.Equal($"/pickups/{id}", answer.Location);
        }

        var recorded = Assert.Single(await RecordedAsync(id));
        Assert.Equal([new("A1", 3, OutcomeKind.Clean, CarriedFreight: true), new("A1", 1, OutcomeKind.Damaged, DamagePlace.Top, DamageManner.Crushed, CarriedFreight: true)], recorded.Units);
        Assert.Contains("3 whole, 1 damaged", (await (await rita.GetAsync($"/pickups/{id}")).PageAsync()).Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task On_the_page_what_is_wrong_stands_at_its_field_and_what_was_typed_stays()
    {
        var id = await SubmittedAsync();
        var rita = await shared.PersonAsync("rita");
        var page = await (await rita.GetAsync($"/pickups/{id}/outcome")).PageAsync();

        var answer = await rita.SubmitAsync(page, $"form[action='/pickups/{id}/outcome']", ("Lines[0].Damaged", "9"), ("Lines[0].Note", "Fell off"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var again = await answer.PageAsync();
        Assert.Equal("A whole number, 0 to 4.", again.QuerySelector(".field--wrong .field__error")!.TextContent);
        Assert.Equal("Fell off", again.QuerySelector("input[name='Lines[0].Note']")!.GetAttribute("value"));
        Assert.Empty(await RecordedAsync(id));
    }

    [Fact]
    public async Task Whoever_is_second_on_the_page_sees_the_first_record_keeps_their_words_and_may_replace_it_with_a_reason()
    {
        var id = await SubmittedAsync();
        var (rita, rolf) = (await shared.PersonAsync("rita"), await shared.PersonAsync("rolf"));
        var form = $"form[action='/pickups/{id}/outcome']";
        var (first, second) = (await (await rita.GetAsync($"/pickups/{id}/outcome")).PageAsync(), await (await rolf.GetAsync($"/pickups/{id}/outcome")).PageAsync());
        await rita.SubmitAsync(first, form);

        var late = await rolf.SubmitAsync(second, form, ("Lines[0].Short", "2"));

        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        var told = await late.PageAsync();
        Assert.Contains("Rita Reviewer has recorded an outcome meanwhile", told.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("2", told.QuerySelector("input[name='Lines[0].Short']")!.GetAttribute("value"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await rolf.SubmitAsync(told, form)).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await rolf.SubmitAsync(told, form, ("Reason", "Counted again at the consignee."))).Status);
        Assert.Equal(["4 Clean", "2 Clean, 2 Short"], (await RecordedAsync(id)).Select(recorded => string.Join(", ", recorded.Units.Select(unit => $"{unit.Count} {unit.Kind}"))));
    }

    /// <summary>The record's id comes from the page, so that anybody can use it again.</summary>
    [Fact]
    public async Task One_id_for_the_records_of_two_pickups_or_for_one_that_comes_back_keeps_and_tells_of_each()
    {
        var rita = await shared.PersonAsync("rita");
        var (one, two) = (("OutcomeId", Guid.NewGuid().ToString()), ("OutcomeId", Guid.NewGuid().ToString()));
        foreach (var id in (Guid[])[await SubmittedAsync(), await SubmittedAsync()])
        {
            foreach (var (name, missing) in (((string, string), string)[])[(one, "1"), (two, "2"), (one, "3")])
            {
                var page = await (await rita.GetAsync($"/pickups/{id}/outcome")).PageAsync();
                foreach (var _ in (int[])[1, 2])
                    Assert.Equal($"/pickups/{id}", (await rita.SubmitAsync(page, $"form[action='/pickups/{id}/outcome']", name, ("Lines[0].Short", missing), ("Reason", "Counted again."))).Location);
            }

            Assert.Equal([1, 2, 3], (await RecordedAsync(id)).Select(recorded => recorded.Units.Single(unit => unit.Kind == OutcomeKind.Short).Count));
            await using var session = (await shared.PortalAsync()).Store.QuerySession();
            var told = await session.Query<Notice>().Where(notice => notice.PickupId == id && notice.Kind == NoticeKind.OutcomeForShipper).OrderBy(notice => notice.CreatedAt).ToListAsync();
            Assert.Equal(3, told.Count);
            foreach (var (notice, missing) in told.Zip((int[])[1, 2, 3]))
                Assert.Contains($"{missing} missing", (await rita.GetAsync($"/messages/{notice.Id}/body")).Text, StringComparison.Ordinal);
        }
    }

    private async Task<Guid> SubmittedAsync()
    {
        var clerk = await shared.ClerkAsync();
        var id = Guid.Parse((await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        return id;
    }

    private static JsonArray Of(params (string Kind, int Count)[] units) =>
    [
        .. units.Select(unit => unit.Kind == "damaged"
            ? new JsonObject { ["reference"] = "A1", ["count"] = unit.Count, ["kind"] = unit.Kind, ["where"] = "corner", ["how"] = "crushed", ["concealed"] = true }
            : new JsonObject { ["reference"] = "A1", ["count"] = unit.Count, ["kind"] = unit.Kind }),
    ];

    private async Task<ApiAnswer> RecordAsync(Guid id, JsonArray units, string? supersedes = null, string? reason = null) =>
        await (await shared.ReviewerAsync()).PostAsync($"/api/v1/pickups/{id}/outcome", new JsonObject { ["deliveredOn"] = Today, ["units"] = units, ["supersedes"] = supersedes, ["reason"] = reason });

    private async Task<IReadOnlyList<OutcomeRecorded>> RecordedAsync(Guid id)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return [.. (await session.Events.FetchStreamAsync(id)).Select(e => e.Data).OfType<OutcomeRecorded>()];
    }

    private async Task<Dictionary<NoticeKind, Notice>> NoticesAsync(Guid id)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return (await session.Query<Notice>().Where(notice => notice.PickupId == id).ToListAsync()).GroupBy(notice => notice.Kind).ToDictionary(same => same.Key, same => same.OrderBy(notice => notice.CreatedAt).First());
    }
}
