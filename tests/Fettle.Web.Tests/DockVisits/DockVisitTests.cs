using System.Net;
using System.Text.Json.Nodes;
using Fettle.Readiness.DockVisits;
using Fettle.Testing;
using Fettle.Web.Notices;
using Fettle.Web.Tests.Identity;
using Marten;

namespace Fettle.Web.Tests.DockVisits;

/// <summary>Asked for by the shipper, planned and concluded by the terminal; what was agreed is found again where it matters.</summary>
public sealed class DockVisitTests(SharedPortal shared)
{
    private static readonly string Tomorrow = DateTimeOffset.UtcNow.AddDays(2).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    [Fact]
    public async Task A_build_that_is_approved_on_the_dock_is_marked_in_the_catalogue_and_on_later_declarations_like_it()
    {
        var name = $"Tumblers {Guid.CreateVersion7():N}";
        var clerkApi = await shared.ClerkAsync();
        var kept = await clerkApi.PostAsync("/api/v1/catalogue/builds", new JsonObject
        {
            ["name"] = name,
            ["handlingUnit"] = Freight.Sound()["handlingUnits"]![0]!.DeepClone(),
            ["lane"] = Freight.Sound()["lane"]!.DeepClone(),
            ["terminal"] = "Millbrook",
        });
        Assert.Equal(HttpStatusCode.Created, kept.Status);
        var (clara, rita) = (await shared.PersonAsync("clara"), await shared.PersonAsync("rita"));

        var id = await AskAsync(clara, kept.Json.At("id")!);
        Assert.Equal(HttpStatusCode.Redirect, (await DoAsync(rita, id, "plan", ("date", Tomorrow), ("from", "09:00"), ("to", "10:00"), ("visitor", "Rita Reviewer"))).Status);
        var concluded = await DoAsync(rita, id, "conclusion", ("agreed", "Four high travels; five do not."), ($"verdicts[{kept.Json.At("id")}].Verdict", "approved"), ($"verdicts[{kept.Json.At("id")}].Why", "Seen and shaken."));
        Assert.Equal(HttpStatusCode.Redirect, concluded.Status);

        var catalogue = await (await clara.GetAsync("/catalogue")).PageAsync();
        Assert.Contains("Approved on the dock", catalogue.QuerySelectorAll("tr").Single(row => row.TextContent.Contains(name, StringComparison.Ordinal)).TextContent, StringComparison.Ordinal);
        var pickup = Guid.Parse((await clerkApi.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")!);
        await clerkApi.PostAsync($"/api/v1/pickups/{pickup}/submission", new JsonObject());
        foreach (var browser in (Browser[])[clara, rita])
            Assert.Contains($"Declared like {name}, which Rita Reviewer approved on the dock. Seen and shaken.", Flat(await browser.GetAsync($"/pickups/{pickup}")), StringComparison.Ordinal);
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Equal(
            [(NoticeKind.DockVisitAsked, "millbrook@larkspur.example"), (NoticeKind.DockVisitPlanned, (await shared.PortalAsync()).Parties.Shipper.Email), (NoticeKind.DockVisitConcluded, (await shared.PortalAsync()).Parties.Shipper.Email)],
            (await session.Query<Notice>().Where(notice => notice.VisitId == id).OrderBy(notice => notice.CreatedAt).ToListAsync()).Select(notice => (notice.Kind, notice.To)));
    }

    [Fact]
    public async Task Photos_of_a_visit_are_kept_with_what_was_agreed_and_a_broken_one_keeps_what_was_typed()
    {
        var (clara, rita) = (await shared.PersonAsync("clara"), await shared.PersonAsync("rita"));
        var id = await AskAsync(clara, null);
        var form = $"form[action='/dock-visits/{id}/conclusion']";
        var page = await (await rita.GetAsync($"/dock-visits/{id}")).PageAsync();

        var broken = await rita.SubmitFilesAsync(page, form, "photos", [("side.jpg", [])], ("agreed", "It travels."));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, broken.Status);
        Assert.Equal("It travels.", (await broken.PageAsync()).QuerySelector("#agreed")!.TextContent);

        Assert.Equal(HttpStatusCode.Redirect, (await rita.SubmitFilesAsync(page, form, "photos", [("side.jpg", Photos.Pictures.Jpeg()), ("end.png", Photos.Pictures.Png())], ("agreed", "It travels."))).Status);
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        var kept = (await session.LoadAsync<DockVisit>(id))!.Concluded!.Photos;
        Assert.Equal(2, kept.Count);
        Assert.Equal(HttpStatusCode.OK, (await clara.GetAsync($"/photos/{kept[0].PhotoId}/thumbnail")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("olaf")).GetAsync($"/photos/{kept[0].PhotoId}")).Status);
    }

    [Fact]
    public async Task A_form_sent_twice_asks_once()
    {
        var clara = await shared.PersonAsync("clara");
        var page = await (await clara.GetAsync("/dock-visits/ask")).PageAsync();
        (string, string)[] typed = [("Terminal", (await shared.PortalAsync()).Parties.Carrier.Terminals[0].Id.ToString()), ("Question", "Does it travel?")];
        var first = await clara.SubmitAsync(page, "form[action='/dock-visits/ask']", typed);
        var second = await clara.SubmitAsync(page, "form[action='/dock-visits/ask']", typed);

        Assert.Equal((HttpStatusCode.Redirect, first.Location), (second.Status, second.Location));
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Single(await session.Events.FetchStreamAsync(Guid.Parse(first.Location!.Split('/')[^1])));
    }

    [Fact]
    public async Task Of_two_who_conclude_the_second_keeps_their_words_and_sees_what_stands()
    {
        var (clara, rita, rolf) = (await shared.PersonAsync("clara"), await shared.PersonAsync("rita"), await shared.PersonAsync("rolf"));
        var id = await AskAsync(clara, null);
        var form = $"form[action='/dock-visits/{id}/conclusion']";
        var (first, second) = (await (await rita.GetAsync($"/dock-visits/{id}")).PageAsync(), await (await rolf.GetAsync($"/dock-visits/{id}")).PageAsync());
        await rita.SubmitAsync(first, form, ("agreed", "It travels."));

        var late = await rolf.SubmitAsync(second, form, ("agreed", "It does not travel."));

        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        var told = await late.PageAsync();
        Assert.Contains("Rita Reviewer changed this visit meanwhile", told.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("It does not travel.", told.QuerySelector("#agreed")!.TextContent);
        Assert.Contains("It travels.", told.QuerySelector(".decision")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await rolf.SubmitAsync(told, form, ("agreed", "It does not travel after all."))).Status);
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Equal(2, (await session.LoadAsync<DockVisit>(id))!.Conclusions.Count);
    }

    [Theory]
    [InlineData("plan", "date", "The day and both clock times, where the dock is.")]
    [InlineData("conclusion", "agreed", "Say what was agreed: what travels, what does not, and why.")]
    [InlineData("call-off", "reason", "Say why, in a few words.")]
    public async Task What_is_missing_is_said_at_its_field(string action, string field, string message)
    {
        var id = await AskAsync(await shared.PersonAsync("clara"), null);
        Assert.Null((await (await (await shared.PersonAsync("rita")).GetAsync($"/dock-visits/{id}")).PageAsync()).QuerySelector(".field__error"));
        var answer = await DoAsync(await shared.PersonAsync("rita"), id, action);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Equal(message, (await answer.PageAsync()).QuerySelector($"[data-valmsg-for='{field}']")!.TextContent.Trim());
    }

    [Fact]
    public async Task Nobody_takes_over_a_visit_by_its_id()
    {
        var id = await AskAsync(await shared.PersonAsync("clara"), null);
        var olaf = await shared.PersonAsync("olaf");
        var page = await (await olaf.GetAsync("/dock-visits/ask")).PageAsync();
        var answer = await olaf.SubmitAsync(page, "form[action='/dock-visits/ask']", ("VisitId", id.ToString()), ("Terminal", (await shared.PortalAsync()).Parties.Carrier.Terminals[0].Id.ToString()), ("Question", "Mine now?"));
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(HttpStatusCode.NotFound, (await olaf.GetAsync($"/dock-visits/{id}")).Status);
    }

    private async Task<Guid> AskAsync(Browser clerk, string? build)
    {
        var page = await (await clerk.GetAsync($"/dock-visits/ask{(build is null ? "" : $"?build={build}")}")).PageAsync();
        var asked = await clerk.SubmitAsync(page, "form[action='/dock-visits/ask']", ("Terminal", (await shared.PortalAsync()).Parties.Carrier.Terminals[0].Id.ToString()), ("Question", "Does this travel to Saltgrass?"));
        Assert.Equal(HttpStatusCode.Redirect, asked.Status);
        return Guid.Parse(asked.Location!.Split('/')[^1]);
    }

    private static async Task<Answer> DoAsync(Browser person, Guid id, string action, params (string, string)[] typed)
    {
        var page = await (await person.GetAsync($"/dock-visits/{id}")).PageAsync();
        return await person.SubmitAsync(page, $"form[action='/dock-visits/{id}/{action}']", typed);
    }

    private static string Flat(Answer answer) => string.Join(' ', answer.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
