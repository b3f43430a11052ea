using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using Fettle.Testing;

namespace Fettle.Web.Tests.FloorPlans;

/// <summary>The page that shows how a pickup stands in its trailer.</summary>
public sealed class FloorPlanPageTests(SharedPortal shared)
{
    [Fact]
    public async Task All_who_may_see_a_pickup_see_its_plan_and_are_led_there()
    {
        var id = await SubmitAsync(Freight.Sound());
        foreach (var who in (string[])["clara", "rita", "mona"])
        {
            var browser = await shared.PersonAsync(who);
            var pickup = await (await browser.GetAsync($"/pickups/{id}")).PageAsync();
            Assert.NotNull(pickup.QuerySelector($"a[href='/pickups/{id}/floor-plan']"));
            var page = await (await browser.GetAsync($"/pickups/{id}/floor-plan")).PageAsync();

            // Four pallets of 48 × 40 in, two side by side across the trailer: two rows of 40 in, 6.7 ft; or one row if they stack.
            Assert.Equal(4, page.QuerySelectorAll("tbody tr").Length);
            Assert.All(page.QuerySelectorAll("tbody tr td[data-label='Unit']"), cell => Assert.Equal("A1", cell.TextContent));
            Assert.NotNull(page.QuerySelector("figure svg[role=img] title"));
            Assert.Contains("for the carrier and the driver to verify", page.QuerySelector(".care")!.TextContent);
            // 23 CFR 658.17: a tandem carries 34,000 lb on the Interstate.
            Assert.Equal(2, page.QuerySelectorAll("dd").Count(figure => figure.TextContent.Replace('\u00a0', ' ').Contains("(limit 34,000 lb)", StringComparison.Ordinal)));
            Assert.Contains("23 CFR 658.17", page.QuerySelector(".care")!.TextContent);
        }
    }

    [Fact]
    public async Task Somebody_elses_plan_and_one_of_a_draft_are_not_there()
    {
        var id = await SubmitAsync(Freight.Sound());
        foreach (var who in (string[])["olaf", "otto", "owen"])
        {
            foreach (var query in (string[])["", "?decks=true"])
                Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync(who)).GetAsync($"/pickups/{id}/floor-plan{query}")).Status);
        }

        var draft = await DeclareAsync(Freight.Sound());
        var clara = await shared.PersonAsync("clara");
        Assert.Equal(HttpStatusCode.NotFound, (await clara.GetAsync($"/pickups/{draft}/floor-plan")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await clara.GetAsync($"/pickups/{Guid.NewGuid()}/floor-plan")).Status);
    }

    [Theory]
    [InlineData(null, true)]
    [InlineData("strap", true)]
    [InlineData("no-top-load", false)]
    [InlineData("decking", false)]
    public async Task Nothing_stands_on_stackable_freight_that_asks_for_no_top_load_or_for_decking(string? request, bool stacked)
    {
        var freight = Freight.Sound();
        if (request is not null)
            freight["handlingUnits"]![0]!["requests"] = new JsonArray(request);
        var id = await SubmitAsync(freight);
        var clara = await shared.PersonAsync("clara");

        Assert.Equal(stacked ? 2 : 0, await StandingOnAnotherAsync(""));
        // On beams they stand on the deck or under it, and still nothing on them.
        if (!stacked)
            Assert.Equal(0, await StandingOnAnotherAsync("?decks=true"));

        async Task<int> StandingOnAnotherAsync(string query)
        {
            var page = await (await clara.GetAsync($"/pickups/{id}/floor-plan{query}")).PageAsync();
            string[] stands = [.. page.QuerySelectorAll("tbody tr td[data-label='Stands']").Select(cell => cell.TextContent)];
            Assert.Equal(4, stands.Length);
            return stands.Count(where => where.StartsWith("on no.", StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData("?decks=perhaps", false)]
    [InlineData("?decks=%00", false)]
    [InlineData("?decks=true", true)]
    public async Task Decking_is_on_when_asked_for_and_else_off(string query, bool on)
    {
        var page = await (await (await shared.PersonAsync("clara")).GetAsync($"/pickups/{await SubmitAsync(Freight.Sound())}/floor-plan{query}")).PageAsync();

        Assert.Equal(on ? "With decking beams" : "One floor", page.QuerySelector(".tabs [aria-current=page]")!.TextContent);
    }

    [Fact]
    public async Task What_does_not_fit_is_told_and_hundreds_are_not_planned()
    {
        var clara = await shared.PersonAsync("clara");
        var many = Freight.Sound();
        many["handlingUnits"]![0]!["quantity"] = 70;
        many["handlingUnits"]![0]!["stackable"] = false;
        var page = await (await clara.GetAsync($"/pickups/{await SubmitAsync(many)}/floor-plan")).PageAsync();
        Assert.Equal("Not everything fits", page.QuerySelector(".page__head .verdict")!.TextContent);
        Assert.Equal("40 × A1. What goes in before it leaves no room.", page.QuerySelector(".notice--stop li")!.TextContent);

        many["handlingUnits"]![0]!["quantity"] = 201;
        page = await (await clara.GetAsync($"/pickups/{await SubmitAsync(many)}/floor-plan")).PageAsync();
        Assert.Contains("more than 200 handling units", page.QuerySelector("main")!.TextContent);
    }

    private async Task<Guid> SubmitAsync(JsonObject freight)
    {
        var id = await DeclareAsync(freight);
        var submitted = await (await shared.ClerkAsync()).PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject());
        Assert.Equal(HttpStatusCode.Created, submitted.Status);
        return id;
    }

    private async Task<Guid> DeclareAsync(JsonObject freight)
    {
        var declared = await (await shared.ClerkAsync()).PostAsync("/api/v1/pickups", freight.AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        return Guid.Parse(declared.Json.At("id")!);
    }
}
