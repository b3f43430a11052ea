using System.Net;
using System.Text.Json.Nodes;
using Fettle.Engineering.Units;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.Identity;
using Fettle.Web.RuleSets;
using Marten;
using Npgsql;

namespace Fettle.Web.Tests.RuleSets;

/// <summary>Which rules judge what is declared.</summary>
public sealed class RulesInForceTests(SharedPortal shared)
{
    private static readonly (string, string) FourTurns = ("Limits[wrap.turns]", "4");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_is_submitted_is_judged_by_the_version_in_force_and_what_was_keeps_its_own()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var clerk = await shared.ClerkAsync();
        var before = await desk.SubmitAsync(Freight.Sound());

        await desk.PublishAsync(FourTurns);
        var after = await desk.SubmitAsync(Freight.Sound());

        var old = (await clerk.ReadAsync($"/api/v1/pickups/{before}")).Json;
        var now = (await clerk.ReadAsync($"/api/v1/pickups/{after}")).Json;
        Assert.Equal(("Common practice", "booked"), (old.At("ruleSet.name"), old.At("state")));
        Assert.Equal((desk.Carrier.Name, "1", "held"), (now.At("ruleSet.name"), now.At("ruleSet.version"), now.At("state")));
        Assert.Contains($"Carrier's rule: {desk.Carrier.Name}, version 1", now["handlingUnits"]!.ToJsonString().Replace("\\u0027", "'", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal("1", (await clerk.ReadAsync($"/api/v1/pickups/{after}")).Json.At("ruleSet.version"));
    }

    [Fact]
    public async Task A_draft_pickup_is_checked_by_the_rules_of_the_chosen_terminals_carrier()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.PublishAsync(FourTurns);
        var clerk = await shared.ClerkAsync();

        var theirs = (await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow, desk.Carrier.Terminals[0].Name))).Json;
        var others = (await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow, "Reedham"))).Json;

        Assert.Equal(("hold", desk.Carrier.Name), (theirs.At("verdict"), theirs.At("ruleSet.name")));
        Assert.Equal("ready", others.At("verdict"));
        var page = await (await (await shared.PersonAsync("clara")).GetAsync($"/pickups/{theirs.At("id")}")).PageAsync();
        Assert.Contains("4 full turns", page.QuerySelector("#m-handlingUnits-0-protection-wrapTurns")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_check_names_a_carrier_by_name_or_id_or_none()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.PublishAsync(FourTurns);
        var clerk = await shared.ClerkAsync();

        var byName = await clerk.PostAsync("/api/v1/checks", With(desk.Carrier.Name.ToUpperInvariant()));
        var byId = await clerk.PostAsync("/api/v1/checks", With(desk.Carrier.Id.ToString()));
        var none = await clerk.PostAsync("/api/v1/checks", Freight.Sound());

        Assert.Equal(("hold", desk.Carrier.Name), (byName.Json.At("verdict"), byName.Json.At("ruleSet.name")));
        Assert.Equal("hold", byId.Json.At("verdict"));
        Assert.Equal(("ready", "Common practice"), (none.Json.At("verdict"), none.Json.At("ruleSet.name")));
    }

    [Theory]
    [InlineData("Nobody's Freight")]
    [InlineData("")]
    [InlineData("00000000-0000-0000-0000-000000000000")]
    public async Task A_carrier_that_is_not_known_is_told_at_its_field(string carrier)
    {
        var answer = await (await shared.ClerkAsync()).PostAsync("/api/v1/checks", With(carrier));

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Contains("Name a carrier by id or name", answer.Json["errors"]!["carrier"]!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_carriers_people_neither_check_by_nor_read_another_carriers_rules()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.PublishAsync(FourTurns);
        var reviewer = await shared.ReviewerAsync();

        var check = await reviewer.PostAsync("/api/v1/checks", With(desk.Carrier.Name));
        var list = await reviewer.ReadAsync("/api/v1/rule-sets");

        Assert.Equal(HttpStatusCode.BadRequest, check.Status);
        Assert.DoesNotContain(desk.Carrier.Name, check.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(desk.Carrier.Name, list.Text, StringComparison.Ordinal);
        Assert.Equal([null, "Larkspur Motor Freight"], list.Json["ruleSets"]!.AsArray().Select(one => one.At("carrier")));
    }

    [Fact]
    public async Task Rule_sets_are_listed_with_versions_and_limits()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.PublishAsync(FourTurns, ("Limits[overhang.clearance]", "3 in"));
        await using var session = desk.Portal.Store.QuerySession();

        var list = (await (await shared.ClerkAsync()).ReadAsync("/api/v1/rule-sets")).Json["ruleSets"]!.AsArray();
        var own = (await (await desk.Portal.ApiAsync(Rights.Administrator(desk.Carrier.Id))).ReadAsync("/api/v1/rule-sets")).Json["ruleSets"]!.AsArray();

        var listed = list.Single(one => one.At("carrierId") == desk.Carrier.Id.ToString());
        Assert.Equal((desk.Carrier.Name, "1", null), (listed.At("inForce.name"), listed.At("versions.0.version"), listed.At("versions.0.until")));
        Assert.Equal(Limit.All.Count, listed!["limits"]!.AsArray().Count);
        var clearance = listed["limits"]!.AsArray().Single(limit => limit.At("limit") == "overhang.clearance");
        Assert.Equal(("3", "INH", "true"), (clearance.At("figure.value"), clearance.At("figure.unit"), clearance.At("differsFromBuiltIn")));
        Assert.DoesNotContain("Lower doors", list.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal(2, own.Count);
    }

    [Fact]
    public async Task Another_node_judges_by_what_has_just_been_published()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        var node = new CarrierRuleBook(desk.Portal.Store);
        Assert.Same(RuleSet.BuiltIn, await node.InForceAsync(desk.Carrier.Id, DateTimeOffset.UtcNow, Cancel));

        await desk.PublishAsync(FourTurns);
        var first = await node.InForceAsync(desk.Carrier.Id, DateTimeOffset.UtcNow, Cancel);
        var again = await node.InForceAsync(desk.Carrier.Id, DateTimeOffset.UtcNow, Cancel);
        await desk.PublishAsync(("Limits[wrap.turns]", "5"));
        var second = await node.InForceAsync(desk.Carrier.Id, DateTimeOffset.UtcNow, Cancel);

        Assert.Equal((4, 5), (first.Wrap.Turns, second.Wrap.Turns));
        Assert.Same(first, again);
        Assert.Same(RuleSet.BuiltIn, await node.InForceAsync(null, DateTimeOffset.UtcNow, Cancel));
    }

    [Fact]
    public async Task Rules_stored_before_a_limit_was_thought_of_take_its_default()
    {
        var desk = await CarrierDesk.OpenAsync(shared);
        await desk.PublishAsync(FourTurns, ("Limits[height.doubleStack]", "100"));
        await using (var connection = (NpgsqlConnection)desk.Portal.Store.Storage.Database.CreateConnection())
        {
            await connection.OpenAsync(Cancel);
            await using var old = new NpgsqlCommand("update fettle.mt_doc_carrierrules set data = data #- '{versions,0,rules,height,doubleStack}' #- '{versions,0,rules,tipping}' where id = $1", connection) { Parameters = { new() { Value = desk.Carrier.Id } } };
            Assert.Equal(1, await old.ExecuteNonQueryAsync(Cancel));
        }

        var read = await new CarrierRuleBook(desk.Portal.Store).InForceAsync(desk.Carrier.Id, DateTimeOffset.UtcNow, Cancel);

        Assert.Equal((4, RuleSet.BuiltIn.Height.DoubleStack, RuleSet.BuiltIn.Tipping), (read.Wrap.Turns, read.Height.DoubleStack, read.Tipping));
    }

    private static JsonObject With(string carrier)
    {
        var check = Freight.Sound();
        check["carrier"] = carrier;
        return check;
    }
}
