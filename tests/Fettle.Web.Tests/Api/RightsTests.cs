using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.DockVisits;
using Fettle.Web.Identity;
using Fettle.Web.Inspections;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.Photos;
using Fettle.Web.Pickups;
using Fettle.Web.RuleSets;
using Fettle.Web.Scorecards;
using Marten;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Browser = Fettle.Web.Tests.Identity.Browser;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Api;

/// <summary>Who may come in where, for every route that the program has: a route without a row here fails a test.</summary>
public sealed class RightsTests(World world) : IClassFixture<World>
{
    /// <summary>
    /// Route; then the status for nobody; for the clerk, reviewer, account manager and administrator with something of their
    /// own; and for the same four with an id of somebody else's. A dash where the route takes no id of anybody's freight.
    /// 302 for nobody is the way to the sign-in page; 401 for nobody on a page is the sign-in page that keeps what was sent.
    /// </summary>
    private const string Table = """
        POST /api/v1/checks                          401   200 200 200 200   -
        POST /api/v1/patterns                        401   200 200 200 200   -
        POST /api/v1/floor-plans                     401   200 200 200 200   -
        POST /api/v1/pickups                         401   201 403 403 403   -
        GET  /api/v1/pickups/{id:guid}               401   200 200 200 200   404 404 404 200
        POST /api/v1/pickups/{id:guid}/submission    401   201 403 403 403   404 403 403 403
        GET  /api/v1/pickups/{id:guid}/build-sheets.pdf 401 200 200 200 200  404 404 404 200
        GET  /api/v1/pickups/{id:guid}/labels.pdf    401   200 200 200 200   404 404 404 200
        GET  /api/v1/pickups/{id:guid}/bill-of-lading.pdf 401 200 200 200 200 404 404 404 200
        GET  /api/v1/pickups/{id:guid}/manifest.pdf  401   200 200 200 200   404 404 404 200
        GET  /api/v1/holds/{id:guid}/exception.pdf   401   404 404 404 404   404 404 404 404
        GET  /api/v1/pickups/{id:guid}/evidence.zip  401   200 200 200 200   404 404 404 200
        POST /api/v1/pickups/{id:guid}/outcome       401   403 400 400 403   404 404 404 403
        GET  /api/v1/claims                          401   200 200 200 200   -
        POST /api/v1/pickups/{id:guid}/claims        401   400 403 403 403   404 404 404 403
        GET  /api/v1/pickups/{id:guid}/claims/{claim:guid}             401 200 200 200 200  404 404 404 200
        POST /api/v1/pickups/{id:guid}/claims/{claim:guid}/answers     401 403 400 400 403  404 404 404 403
        POST /api/v1/pickups/{id:guid}/claims/{claim:guid}/acceptance  401 400 403 403 403  404 404 404 403
        POST /api/v1/pickups/{id:guid}/claims/{claim:guid}/withdrawal  401 400 403 403 403  404 404 404 403
        GET  /api/v1/holds                           401   200 200 200 200   -
        GET  /api/v1/holds/{id:guid}                 401   200 200 200 200   404 404 404 200
        POST /api/v1/holds/{id:guid}/decisions       401   403 201 403 403   403 404 403 403
        POST /api/v1/holds/decisions                 401   403 200 403 403   -
        POST /api/v1/holds/{id:guid}/messages        401   201 201 403 403   404 404 403 403
        POST /api/v1/holds/{id:guid}/offers          401   403 201 403 403   403 404 403 403
        POST /api/v1/holds/{id:guid}/offers/{offer:guid}/withdrawal 401 403 404 403 403 403 404 403 403
        POST /api/v1/holds/{id:guid}/answers         401   201 403 403 403   404 403 403 403
        POST /api/v1/pickups/{id:guid}/arrival       401   403 200 403 403   403 404 403 403
        GET  /api/v1/catalogue/cartons               401   200 403 403 403   -
        POST /api/v1/catalogue/cartons               401   201 403 403 403   -
        GET  /api/v1/catalogue/platforms             401   200 403 403 403   -
        POST /api/v1/catalogue/platforms             401   201 403 403 403   -
        GET  /api/v1/catalogue/builds                401   200 403 403 403   -
        POST /api/v1/catalogue/builds                401   201 403 403 403   -
        GET  /api/v1/notices                         401   200 200 200 200   -
        GET  /api/v1/accounts                        401   403 403 200 403   -
        GET  /api/v1/accounts/{id:guid}              401   403 403 200 403   403 403 404 403
        GET  /api/v1/accounts/{id:guid}/floor-use        401 200 404 200 404  404 404 404 404
        GET  /api/v1/accounts/{id:guid}/negotiation.pdf  401 200 404 200 404  404 404 404 404
        GET  /api/v1/accounts/{id:guid}/negotiation.xlsx 401 200 404 200 404  404 404 404 404
        GET  /api/v1/rules/effect                    401   403 403 200 403   -
        GET  /api/v1/rule-sets                       401   200 200 200 200   -
        GET  /api/v1/handling-units                  401   200 200 200 200   -
        POST /api/v1/inspections                     401   403 201 403 403   403 404 403 403
        GET  /api/v1/inspections/{id:guid}           401   200 200 200 200   404 404 404 200
        POST /api/v1/inspections/{id:guid}/photos    401   403 415 403 403   403 404 403 403
        POST /api/v1/inspections/{id:guid}/hold      401   403 422 403 403   403 404 403 403
        GET  /api/v1/photos/{id:guid}.jpg            401   200 200 200 200   404 404 404 200
        GET  /api/{documentName}/openapi.json        200   200 200 200 200   -
        GET  /api/reference/{documentName?}          200   200 200 200 200   -
        GET  /api/reference/scalar.js                200   200 200 200 200   -
        GET  /api/reference/scalar.aspnetcore.js     200   200 200 200 200   -
        GET  /api/reference/favicon.svg              200   200 200 200 200   -

        GET  /                                       302   302 302 302 302   -
        GET  /pickups                                302   200 200 200 200   -
        POST /pickups                                401   302 403 403 403   404 403 403 403
        GET  /pickups/{id:guid}                      302   200 200 200 200   404 404 404 200
        GET  /pickups/{id:guid}/labels.pdf           302   200 200 200 200   404 404 404 200
        GET  /pickups/{id:guid}/bill-of-lading.pdf   302   200 200 200 200   404 404 404 200
        GET  /pickups/{id:guid}/manifest.pdf         302   200 200 200 200   404 404 404 200
        GET  /holds/{id:guid}/exception.pdf          302   404 404 404 404   404 404 404 404
        GET  /pickups/{id:guid}/evidence.zip         302   200 200 200 200   404 404 404 200
        GET  /pickups/{id:guid}/floor-plan           302   200 200 200 200   404 404 404 200
        POST /pickups/{id:guid}                      401   200 403 403 403   404 403 403 403
        POST /pickups/{id:guid}/check                401   200 403 403 403   404 403 403 403
        GET  /pickups/{id:guid}/outcome              302   404 200 200 404   404 404 404 404
        POST /pickups/{id:guid}/outcome              401   404 400 400 404   404 404 404 404
        GET  /claims                                 302   200 200 200 200   -
        GET  /pickups/{id:guid}/claims/new           302   200 403 403 403   404 403 403 403
        POST /pickups/{id:guid}/claims               401   400 403 403 403   404 403 403 403
        GET  /pickups/{id:guid}/claims/{claim:guid}              302 200 200 200 200  404 404 404 200
        POST /pickups/{id:guid}/claims/{claim:guid}/answers      401 404 400 400 404  404 404 404 404
        POST /pickups/{id:guid}/claims/{claim:guid}/acceptance   401 409 404 404 404  404 404 404 404
        POST /pickups/{id:guid}/claims/{claim:guid}/withdrawal   401 422 404 404 404  404 404 404 404
        GET  /pickups/{id:guid}/lines/{line:int}/build-sheet      302 200 200 200 200  404 404 404 200
        GET  /pickups/{id:guid}/lines/{line:int}/build-sheet.pdf  302 200 200 200 200  404 404 404 200
        GET  /pickups/{id:guid}/build-sheets.pdf     302   200 200 200 200   404 404 404 200
        GET  /catalogue                              302   200 403 403 403   -
        GET  /catalogue/cartons/add                  302   200 403 403 403   -
        POST /catalogue/cartons/add                  401   422 403 403 403   -
        GET  /catalogue/platforms/add                302   200 403 403 403   -
        POST /catalogue/platforms/add                401   422 403 403 403   -
        POST /catalogue/{id:guid}/name               401   422 403 403 403   404 403 403 403
        POST /catalogue/{id:guid}/retire             401   302 403 403 403   404 403 403 403
        POST /catalogue/{id:guid}/return             401   302 403 403 403   404 403 403 403
        GET  /catalogue/{id:guid}/build-sheet        302   200 403 403 403   404 403 403 403
        GET  /catalogue/{id:guid}/build-sheet.pdf    302   200 403 403 403   404 403 403 403
        GET  /holds                                  302   200 200 200 200   -
        GET  /holds/{id:guid}                        302   200 200 200 200   404 404 404 200
        POST /holds/{id:guid}                        401   403 302 403 403   403 404 403 403
        GET  /dock-visits                            302   200 200 200 200   -
        GET  /dock-visits/ask                        302   200 403 403 403   -
        POST /dock-visits/ask                        401   400 403 403 403   -
        GET  /dock-visits/{id:guid}                  302   200 200 200 200   404 404 404 200
        POST /dock-visits/{id:guid}/plan             401   403 422 403 403   403 404 403 403
        POST /dock-visits/{id:guid}/call-off         401   422 422 404 404   404 404 404 404
        POST /dock-visits/{id:guid}/conclusion       401   403 422 403 403   403 404 403 403
        POST /holds/{id:guid}/messages               401   302 302 403 403   404 404 403 403
        POST /holds/{id:guid}/offers                 401   403 302 403 403   403 404 403 403
        POST /holds/{id:guid}/offers/{offer:guid}/withdrawal 401 403 409 403 403 403 404 403 403
        POST /holds/{id:guid}/authorisation          401   409 403 403 403   404 403 403 403
        POST /holds/{id:guid}/exception-request      401   302 403 403 403   404 403 403 403
        POST /holds/{id:guid}/dispute                401   302 403 403 403   404 403 403 403
        GET  /holds/{id:guid}/correction             302   200 403 403 403   404 403 403 403
        POST /holds/{id:guid}/correction             401   400 403 403 403   404 403 403 403
        GET  /board                                  302   403 200 403 403   -
        GET  /board/list                             302   403 200 403 403   -
        POST /board/arrivals/{id:guid}               401   403 302 403 403   403 404 403 403
        POST /board/decisions                        401   403 422 403 403   -
        GET  /scan                                   302   403 200 403 403   -
        GET  /inspections/new                        302   403 200 403 403   403 404 403 403
        POST /inspections                            401   403 302 403 403   403 404 403 403
        GET  /inspections/{id:guid}                  302   200 200 200 200   404 404 404 200
        POST /inspections/{id:guid}/photos           401   403 422 403 403   403 404 403 403
        POST /inspections/{id:guid}/hold             401   403 422 403 403   403 404 403 403
        GET  /photos/{id:guid}                       302   200 200 200 200   404 404 404 200
        GET  /photos/{id:guid}/thumbnail             302   200 200 200 200   404 404 404 200
        GET  /messages                               302   200 200 200 200   -
        GET  /messages/{id:guid}                     302   200 200 200 200   404 404 404 200
        GET  /messages/{id:guid}/body                302   200 200 200 200   404 404 404 200
        POST /messages/{id:guid}/again               401   302 302 302 302   404 404 404 302
        GET  /accounts                               302   403 403 200 403   -
        GET  /accounts/scores.csv                    302   403 403 200 403   -
        POST /accounts/views                         401   403 403 422 403   -
        POST /accounts/views/{id:guid}/remove        401   403 403 302 403   403 403 404 403
        GET  /accounts/{id:guid}                     302   403 403 200 403   403 403 404 403
        GET  /accounts/{id:guid}/worth               302   200 404 200 404   404 404 404 404
        GET  /accounts/{id:guid}/negotiation.pdf     302   200 404 200 404   404 404 404 404
        GET  /accounts/{id:guid}/negotiation.xlsx    302   200 404 200 404   404 404 404 404
        GET  /accounts/{id:guid}/lines               302   403 403 200 403   403 403 404 403
        GET  /accounts/lines                         302   403 403 200 403   -
        GET  /accounts/compare                       302   403 403 302 403   -
        GET  /accounts/rules                         302   403 403 200 403   -
        GET  /score                                  302   200 403 403 403   -
        GET  /score/lines                            302   200 403 403 403   -

        GET  /account                                302   200 200 200 200   -
        POST /account/name                           401   422 422 422 422   -
        POST /account/password                       401   422 422 422 422   -
        POST /account/language                       400   400 400 400 400   -
        GET  /admin                                  302   403 403 403 302   -
        GET  /admin/people                           302   403 403 403 200   -
        GET  /admin/people/add                       302   403 403 403 200   -
        POST /admin/people/add                       401   403 403 403 422   -
        GET  /admin/people/{id:guid}                 302   403 403 403 200   403 403 403 404
        POST /admin/people/{id:guid}                 401   403 403 403 422   403 403 403 404
        POST /admin/people/{id:guid}/password        401   403 403 403 422   403 403 403 404
        POST /admin/people/{id:guid}/unlock          401   403 403 403 302   403 403 403 404
        POST /admin/people/{id:guid}/disable         401   403 403 403 302   403 403 403 404
        POST /admin/people/{id:guid}/enable          401   403 403 403 302   403 403 403 404
        GET  /admin/api-keys                         302   403 403 403 200   -
        GET  /admin/api-keys/add                     302   403 403 403 200   -
        POST /admin/api-keys/add                     401   403 403 403 422   -
        POST /admin/api-keys/{id:guid}/revoke        401   403 403 403 302   403 403 403 404

        GET  /admin/rules                            302   403 403 403 200   -
        GET  /admin/rules/{carrierId:guid}           302   403 403 403 200   403 403 403 200
        GET  /admin/rules/{carrierId:guid}/versions/{version:int}          302   403 403 403 200   403 403 403 200
        POST /admin/rules/{carrierId:guid}/draft/start                     401   403 403 403 302   403 403 403 302
        GET  /admin/rules/{carrierId:guid}/draft                           302   403 403 403 200   403 403 403 200
        POST /admin/rules/{carrierId:guid}/draft                           401   403 403 403 422   403 403 403 422
        POST /admin/rules/{carrierId:guid}/draft/drop                      401   403 403 403 302   403 403 403 302
        GET  /admin/rules/{carrierId:guid}/previews/{id:guid}              302   403 403 403 200   403 403 403 200
        GET  /admin/rules/{carrierId:guid}/previews/{id:guid}/state        302   403 403 403 200   403 403 403 200
        POST /admin/rules/{carrierId:guid}/previews/{id:guid}/cancel       401   403 403 403 302   403 403 403 302

        GET  /sign-in                                200   302 302 302 302   -
        POST /sign-in                                422   422 422 422 422   -
        POST /sign-out                               302   302 302 302 302   -
        GET  /signed-in                              302   200 200 200 200   -
        GET  /health                                 200   200 200 200 200   -
        ANY  /trouble                                404   404 404 404 404   -
        """;

    private static readonly IReadOnlyDictionary<string, Row> Rows = Table.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
        .Select(Row.Parse).ToDictionary(row => row.Route, StringComparer.Ordinal);

    public static TheoryData<string> Routes => [.. Rows.Keys];

    [Fact]
    public void Every_route_of_the_program_has_a_row_and_every_row_a_route()
    {
        var routes = world.Portal.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .SelectMany(endpoint => endpoint.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods is { Count: > 0 } methods
                ? methods.Select(method => RouteOf(method, endpoint))
                : [RouteOf("ANY", endpoint)])
            .ToHashSet(StringComparer.Ordinal);

        Assert.Empty(routes.Except(Rows.Keys, StringComparer.Ordinal));
        Assert.Empty(Rows.Keys.Except(routes, StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Routes))]
    public async Task A_route_answers_each_role_as_the_table_says(string route)
    {
        var row = Rows[route];
        await AssertAsync(row, null, world.Own, row.Nobody);
        // Those who may not come first: whoever may, changes something.
        foreach (var (role, status) in World.Roles.Zip(row.Own).OrderByDescending(pair => pair.Second))
            await AssertAsync(row, role, world.Own, status);
        foreach (var (role, status) in World.Roles.Zip(row.Others).OrderByDescending(pair => pair.Second))
            await AssertAsync(row, role, world.Others, status);
    }

    public static TheoryData<string> Lists => ["/api/v1/holds?state=all", "/api/v1/notices", "/pickups", "/holds", "/messages"];

    [Theory]
    [MemberData(nameof(Lists))]
    public async Task A_list_holds_what_is_the_callers_to_see_and_nothing_else(string path)
    {
        foreach (var (who, visible) in world.Visible)
        {
            var text = await world.ReadAsync(who, path);
            foreach (var (place, freight) in world.Everything)
                Assert.True(text.Contains(freight.Number, StringComparison.Ordinal) == visible.Contains(place), $"{path} for {who}: {place}");
        }
    }

    [Fact]
    public async Task What_is_not_in_a_list_cannot_be_read_by_its_id_either()
    {
        foreach (var (who, visible) in world.Visible)
        {
            foreach (var (place, freight) in world.Everything)
            {
                foreach (var path in (string[])[
                    $"/api/v1/pickups/{freight.Pickup}", $"/api/v1/holds/{freight.Hold}", $"/pickups/{freight.Pickup}", $"/holds/{freight.Hold}", $"/messages/{freight.Notice}", $"/messages/{freight.Notice}/body"])
                {
                    var (status, text) = await world.AskAsync(who, path);
                    Assert.True(status == (visible.Contains(place) ? HttpStatusCode.OK : HttpStatusCode.NotFound), $"{path} for {who}, {place}: {status}");
                    Assert.True(status == HttpStatusCode.OK || !text.Contains(freight.Number, StringComparison.Ordinal), $"{path} tells {who} the number");
                }
            }
        }
    }

    [Fact]
    public async Task A_draft_is_seen_only_by_clerks_of_its_site()
    {
        foreach (var who in world.Visible.Keys)
        {
            var sees = who == "clerk";
            Assert.Equal(sees ? HttpStatusCode.OK : HttpStatusCode.NotFound, (await world.AskAsync(who, $"/api/v1/pickups/{world.Own.Draft}")).Status);
            Assert.Equal(sees ? HttpStatusCode.OK : HttpStatusCode.NotFound, (await world.AskAsync(who, $"/pickups/{world.Own.Draft}")).Status);
            Assert.Equal(sees, (await world.ReadAsync(who, "/pickups")).Contains(world.Own.DraftNumber, StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task An_account_manager_sees_only_their_accounts_at_their_carrier()
    {
        var page = await new HtmlParser().ParseDocumentAsync(await world.ReadAsync("manager", "/accounts"));
        var rows = page.QuerySelectorAll("tbody tr").Select(row => row.QuerySelectorAll("td").Select(cell => cell.TextContent).ToArray()).ToArray();

        // At this carrier: three units from each of two docks. What the same shipper sends by the other carrier does not count.
        var only = Assert.Single(rows);
        Assert.Equal(world.Portal.Parties.Shipper.Name, only[1]);
        Assert.Equal("6", only[2]);
        var csv = await world.ReadAsync("manager", "/accounts/scores.csv");
        Assert.Contains(world.Portal.Parties.Shipper.Name, csv);
        Assert.DoesNotContain(world.Portal.Parties.OtherShipper.Name, csv);
    }

    [Fact]
    public async Task A_session_cookie_counts_for_nothing_under_api()
    {
        var answer = await world.Browser(Role.ShipperClerk).GetAsync("/api/v1/holds");

        Assert.Equal(HttpStatusCode.Unauthorized, answer.Status);
        Assert.StartsWith("application/problem+json", answer.Headers["Content-Type"], StringComparison.Ordinal);
    }

    private static string RouteOf(string method, RouteEndpoint endpoint) => $"{method} /{endpoint.RoutePattern.RawText?.TrimStart('/')}";

    private async Task AssertAsync(Row row, Role? role, Belongings whose, int expected)
    {
        var who = role?.ToString() ?? "nobody";
        var what = whose == world.Own ? "own" : "somebody else's";
        if (row.Path.StartsWith("/api/", StringComparison.Ordinal))
        {
            using var request = new HttpRequestMessage(new(row.Method), whose.Fill(row));
            if (row.Method == "POST")
                request.Content = JsonContent.Create(BodyOf(row.Path, whose));
            var answer = await world.Machine(role).AnswerAsync(request);
            Assert.True((int)answer.Status == expected, $"{row.Route}, {who}, {what}: {answer}");
            if (expected >= 400)
            {
                Assert.Equal("application/problem+json", answer.ContentType);
                Assert.NotEqual("", answer.Json.At("detail") ?? "");
            }

            return;
        }

        var browser = row.Path == "/sign-out" ? await world.NewBrowserAsync(role) : world.Browser(role);
        var page = row.Method is "GET" or "ANY"
            ? await browser.GetAsync(whose.Fill(row))
            : await browser.PostAsync(whose.Fill(row), [("__RequestVerificationToken", await World.TokenAsync(browser)), .. FieldsOf(row.Path, whose)]);
        Assert.True((int)page.Status == expected, $"{row.Route}, {who}, {what}: {(int)page.Status} {page.Text}");
        if (role is null && expected == 302 && row.Path != "/sign-out")
            Assert.Contains("/sign-in?returnUrl=", page.Location);
        if (expected >= 400)
            Assert.NotEqual("", (await page.PageAsync()).QuerySelector("h1")?.TextContent.Trim() ?? "");
        if (expected == 404)
            Assert.DoesNotContain(whose.Number, page.Text);
    }

    private static JsonObject BodyOf(string path, Belongings whose) => path switch
    {
        "/api/v1/inspections" => new() { ["id"] = Guid.NewGuid().ToString(), ["pickupId"] = whose.Pickup.ToString(), ["reference"] = "B1", ["measured"] = new JsonObject { ["wrapTurns"] = 1 } },
        "/api/v1/checks" => Freight.Sound(),
        "/api/v1/patterns" => (JsonObject)JsonNode.Parse("""{"deck":{"length":48,"width":40},"carton":{"length":16,"width":12}}""")!,
        "/api/v1/floor-plans" => Freight.ForFloor(),
        "/api/v1/pickups" => Freight.Sound().AsPickup(DateTimeOffset.UtcNow),
        "/api/v1/catalogue/cartons" => (JsonObject)JsonNode.Parse("""{"name":"Tins","carton":{"length":16,"width":12,"height":10,"grossWeight":22}}""")!,
        "/api/v1/catalogue/platforms" => (JsonObject)JsonNode.Parse("""{"name":"Blue","platform":{"length":48,"width":40,"height":5.5,"tare":40}}""")!,
        "/api/v1/catalogue/builds" => World.Build("Four high"),
        "/api/v1/holds/{id:guid}/decisions" => new() { ["decision"] = "release", ["reason"] = "Seen on the floor." },
        "/api/v1/holds/decisions" => new() { ["holds"] = new JsonArray(Guid.CreateVersion7().ToString()), ["decision"] = new JsonObject { ["decision"] = "release", ["reason"] = "Seen on the floor." } },
        "/api/v1/holds/{id:guid}/messages" => new() { ["text"] = "Good morning." },
        "/api/v1/holds/{id:guid}/offers" => new() { ["work"] = "Film, three turns.", ["cost"] = 40, ["validUntil"] = DateTimeOffset.UtcNow.AddDays(1).ToString("O", System.Globalization.CultureInfo.InvariantCulture) },
        "/api/v1/holds/{id:guid}/offers/{offer:guid}/withdrawal" => new() { ["reason"] = "No film left." },
        "/api/v1/holds/{id:guid}/answers" => new() { ["answer"] = "exception", ["text"] = "It rides alone." },
        _ => [],
    };

    private static (string, string)[] FieldsOf(string path, Belongings whose) => path switch
    {
        // A new pickup may begin as a copy of one's own.
        "/pickups" => [("from", whose.Draft.ToString())],
        "/inspections" => [("pickup", whose.Pickup.ToString()), ("id", Guid.NewGuid().ToString()), ("reference", "B1"), ("measured.wrapTurns", "1")],
        "/holds/{id:guid}" => [("decision", "release"), ("reason", "Seen on the floor.")],
        "/holds/{id:guid}/messages" => [("message", "Good morning.")],
        "/holds/{id:guid}/offers" => [("work", "Film, three turns."), ("cost", "40"), ("validUntil", DateTimeOffset.UtcNow.AddDays(1).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture))],
        "/holds/{id:guid}/offers/{offer:guid}/withdrawal" => [("withdrawal", "No film left.")],
        "/holds/{id:guid}/exception-request" => [("exception", "It rides alone.")],
        "/holds/{id:guid}/dispute" => [("dispute", "The tape was read wrongly.")],
        _ => [],
    };

    /// <param name="Route">Method and path, with one space between.</param>
    public sealed record Row(string Route, int Nobody, IReadOnlyList<int> Own, IReadOnlyList<int> Others)
    {
        public string Method => Route.Split(' ')[0];

        public string Path => Route.Split(' ')[1];

        public static Row Parse(string line)
        {
            var words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            int[] statuses = [.. words[2..].Where(word => word != "-").Select(int.Parse)];
            return new($"{words[0]} {words[1]}", statuses[0], statuses[1..5], statuses[5..]);
        }
    }
}

/// <summary>What a row's ids are taken from.</summary>
/// <param name="ToDecide">Further holds, one for the API and one for the page: a decision is made once.</param>
public sealed record Belongings(string Number, Guid Pickup, Guid Hold, (Guid Api, Guid Page) ToDecide, Guid Notice, Guid Draft, string DraftNumber, Guid ToSubmit, Guid Person, Guid Key, Guid Carrier, Guid Preview, Guid Build, Guid Inspection, Guid Photo, Guid Visit)
{
    /// <summary>Whose freight it is.</summary>
    public required Guid Shipper { get; init; }

    /// <summary>A claim about the pickup.</summary>
    public required Guid Claim { get; init; }

    /// <summary>A saved view of an account manager.</summary>
    public required Guid View { get; init; }

    public string Fill(RightsTests.Row row) => (row.Path == "/inspections/new" ? $"/inspections/new?pickup={Pickup}&line=B1" : row.Path == "/api/v1/handling-units" ? $"/api/v1/handling-units?sscc={Number}" : row.Path)
        .Replace("{id:guid}", Of(row).ToString(), StringComparison.Ordinal)
        .Replace("{offer:guid}", Pickup.ToString(), StringComparison.Ordinal)
        .Replace("{claim:guid}", Claim.ToString(), StringComparison.Ordinal)
        .Replace("{carrierId:guid}", Carrier.ToString(), StringComparison.Ordinal)
        .Replace("{version:int}", "1", StringComparison.Ordinal)
        .Replace("{line:int}", "1", StringComparison.Ordinal)
        .Replace("{documentName}", "v1", StringComparison.Ordinal)
        .Replace("{documentName?}", "", StringComparison.Ordinal);

    private Guid Of(RightsTests.Row row) => row.Path switch
    {
        "/api/v1/pickups/{id:guid}/submission" => ToSubmit,
        "/api/v1/holds/{id:guid}/decisions" => ToDecide.Api,
        "/holds/{id:guid}" when row.Method == "POST" => ToDecide.Page,
        "/board/arrivals/{id:guid}" => Pickup,
        var path when path.StartsWith("/pickups/", StringComparison.Ordinal) && row.Method == "POST" && !path.EndsWith("/outcome", StringComparison.Ordinal) && !path.Contains("/claims", StringComparison.Ordinal) => Draft,
        var path when path.StartsWith("/accounts/views/", StringComparison.Ordinal) => View,
        var path when path.Contains("/accounts/", StringComparison.Ordinal) => Shipper,
        var path when path.Contains("/pickups/", StringComparison.Ordinal) => Pickup,
        var path when path.Contains("/inspections/", StringComparison.Ordinal) => Inspection,
        var path when path.Contains("/photos/", StringComparison.Ordinal) => Photo,
        var path when path.Contains("/holds/", StringComparison.Ordinal) => Hold,
        var path when path.Contains("/messages/", StringComparison.Ordinal) => Notice,
        var path when path.Contains("/previews/", StringComparison.Ordinal) => Preview,
        var path when path.Contains("/dock-visits/", StringComparison.Ordinal) => Visit,
        var path when path.Contains("/catalogue/", StringComparison.Ordinal) => Build,
        var path when path.Contains("/people/", StringComparison.Ordinal) => Person,
        _ => Key,
    };
}

/// <summary>
/// A portal in which each of two shippers hands freight to each of two carriers, from one dock and from another, so that
/// there is somebody else's in every way in which freight can be somebody else's.
/// </summary>
public sealed class World : IAsyncLifetime
{
    public static readonly IReadOnlyList<Role> Roles = [Role.ShipperClerk, Role.TerminalReviewer, Role.AccountManager, Role.Administrator];

    private static readonly Actor Tester = new(Guid.CreateVersion7(), "Test");

    private readonly Dictionary<string, HttpClient> machines = [];
    private readonly Dictionary<string, Browser> browsers = [];
    private readonly Dictionary<Guid, Guid> previews = [];

    public Portal Portal { get; private set; } = null!;

    /// <summary>Held freight by shipper and carrier.</summary>
    public Dictionary<string, Belongings> Everything { get; } = [];

    public Belongings Own => Everything["ours by ours"];

    public Belongings Others => Everything["theirs by theirs"];

    /// <summary>Who may see which of it. Written out, not computed.</summary>
    public IReadOnlyDictionary<string, string[]> Visible { get; } = new Dictionary<string, string[]>
    {
        ["clerk"] = ["ours by ours", "ours by theirs"],
        ["other clerk"] = ["theirs by theirs", "theirs by ours"],
        ["clerk of the other dock"] = ["our other dock by our other terminal"],
        ["reviewer"] = ["ours by ours", "theirs by ours"],
        ["other reviewer"] = ["theirs by theirs", "ours by theirs"],
        ["reviewer of the other terminal"] = ["our other dock by our other terminal"],
        ["manager"] = ["ours by ours", "our other dock by our other terminal"],
        ["other manager"] = ["theirs by theirs"],
        ["administrator"] = ["ours by ours", "theirs by theirs", "ours by theirs", "theirs by ours", "our other dock by our other terminal"],
        ["administrator of our carrier"] = ["ours by ours", "theirs by ours", "our other dock by our other terminal"],
    };

    public async ValueTask InitializeAsync()
    {
        Portal = await Portal.StartAsync(runsJobs: false);
        var parties = Portal.Parties;
        var dock = new Site(Guid.CreateVersion7(), "Mill Lane dock", "5 Mill Lane, Bramblewick", "America/New_York");
        var terminal = new Terminal(Guid.CreateVersion7(), "Saltgrass", "3 Salt Road", "saltgrass@larkspur.example", "America/New_York");
        await using (var session = Portal.Store.LightweightSession())
        {
            session.Store(parties.Shipper with { Sites = [.. parties.Shipper.Sites, dock] });
            session.Store(parties.Carrier with { Terminals = [.. parties.Carrier.Terminals, terminal] });
            await session.SaveChangesAsync();
        }

        Rights clerkOfTheOtherDock = Rights.ShipperClerk(parties.Shipper.Id, dock.Id);
        await AddAsync("clerk", parties.Clerk, "clara");
        await AddAsync("other clerk", parties.OtherClerk, "olaf");
        await AddAsync("clerk of the other dock", clerkOfTheOtherDock, null);
        await AddAsync("reviewer", parties.Reviewer, "rita");
        await AddAsync("other reviewer", parties.OtherReviewer, "otto");
        await AddAsync("reviewer of the other terminal", Rights.TerminalReviewer(parties.Carrier.Id, terminal.Id), null);
        await AddAsync("manager", parties.Manager, "mona");
        await AddAsync("other manager", parties.OtherManager, "owen");
        await AddAsync("administrator", parties.Administrator, "ada");
        await AddAsync("administrator of our carrier", Rights.Administrator(parties.Carrier.Id), null);
        previews[parties.Carrier.Id] = Guid.CreateVersion7();
        previews[parties.OtherCarrier.Id] = Guid.CreateVersion7();
        machines["nobody"] = Portal.Anonymous();
        browsers["nobody"] = new(Portal.Anonymous());

        foreach (var (carrier, preview) in previews)
            await RuleAsync(carrier == parties.Carrier.Id ? parties.Carrier : parties.OtherCarrier, preview);
        Everything["ours by ours"] = await DeclareAsync("clerk", "Millbrook");
        Everything["theirs by theirs"] = await DeclareAsync("other clerk", "Reedham");
        Everything["ours by theirs"] = await DeclareAsync("clerk", "Reedham");
        Everything["theirs by ours"] = await DeclareAsync("other clerk", "Millbrook");
        Everything["our other dock by our other terminal"] = await DeclareAsync("clerk of the other dock", "Saltgrass");
    }

    public ValueTask DisposeAsync() => Portal.DisposeAsync();

    public HttpClient Machine(Role? role) => machines[Name(role)];

    public Browser Browser(Role? role) => browsers[Name(role)];

    /// <summary>One that may be signed out.</summary>
    public async Task<Browser> NewBrowserAsync(Role? role)
    {
        var browser = new Browser(Portal.Anonymous());
        if (role is { } someone)
            await browser.SignInAsync(SignInName(someone), Portal.Password);
        return browser;
    }

    /// <summary>A form token, which any page carries.</summary>
    public static async Task<string> TokenAsync(Browser browser)
    {
        var page = await (await browser.GetAsync("/account")).PageAsync();
        page = page.QuerySelector("meta[name=request-token]") is null ? await (await browser.GetAsync("/sign-in")).PageAsync() : page;
        return page.QuerySelector("meta[name=request-token]")!.GetAttribute("content")!;
    }

    public async Task<(HttpStatusCode Status, string Text)> AskAsync(string who, string path)
    {
        if (path.StartsWith("/api/", StringComparison.Ordinal))
        {
            var answer = await machines[who].ReadAsync(path);
            return (answer.Status, answer.Text);
        }

        var page = await browsers[who].GetAsync(path);
        return (page.Status, page.Text);
    }

    public async Task<string> ReadAsync(string who, string path)
    {
        var (status, text) = await AskAsync(who, path);
        Assert.True(status == HttpStatusCode.OK, $"{path} for {who}: {status}");
        return text;
    }

    private static string Name(Role? role) => role switch
    {
        Role.ShipperClerk => "clerk",
        Role.TerminalReviewer => "reviewer",
        Role.AccountManager => "manager",
        Role.Administrator => "administrator",
        null => "nobody",
    };

    private static string SignInName(Role role) => role switch
    {
        Role.ShipperClerk => "clara@fettle.example",
        Role.TerminalReviewer => "rita@fettle.example",
        Role.AccountManager => "mona@fettle.example",
        Role.Administrator => "ada@fettle.example",
    };

    private async Task AddAsync(string who, Rights rights, string? person)
    {
        machines[who] = await Portal.ApiAsync(rights);
        person ??= (await Portal.AddUserAsync($"P{browsers.Count} {who}", rights)).UserName.Split('@')[0];
        browsers[who] = new(Portal.Anonymous());
        var answer = await browsers[who].SignInAsync($"{person}@fettle.example", Portal.Password);
        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
    }

    private async Task<Belongings> DeclareAsync(string who, string terminal)
    {
        var clerk = machines[who];
        var now = DateTimeOffset.UtcNow;
        var held = (await clerk.PostAsync("/api/v1/pickups", Freight.Troubled().AsPickup(now, terminal))).Json;
        var pickup = Guid.Parse(held.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{pickup}/submission", new JsonObject())).Status);
        var further = Freight.Troubled().AsPickup(now, terminal);
        var line = further["handlingUnits"]![0]!.DeepClone();
        line["reference"] = "B2";
        further["handlingUnits"]!.AsArray().Add(line);
        var second = Guid.Parse((await clerk.PostAsync("/api/v1/pickups", further)).Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{second}/submission", new JsonObject())).Status);
        var draft = (await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(now, terminal))).Json;
        // Away from the carrier whose scores are looked at.
        var toSubmit = (await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(now, "Reedham"))).Json;
        var job = Portal.Services.GetRequiredService<FollowUpJob>();
        await job.RunAsync(pickup, CancellationToken.None);
        await job.RunAsync(second, CancellationToken.None);
        await using var session = Portal.Store.QuerySession();
        var hold = await session.Query<Hold>().SingleAsync(hold => hold.Placed.PickupId == pickup);
        var toDecide = await session.Query<Hold>().Where(hold => hold.Placed.PickupId == second).ToListAsync();
        var notice = (await session.Query<Notice>().Where(notice => notice.PickupId == pickup).ToListAsync())[0];
        var person = await Portal.AddUserAsync($"Q{Guid.CreateVersion7():N} Somebody", Portal.Parties.Clerk);
        var key = await Portal.Services.GetRequiredService<ApiKeys>().IssueAsync("revocable", Portal.Parties.Clerk, Tester, CancellationToken.None);
        var submitted = (await session.LoadAsync<Pickup>(pickup))!;
        var read = new ReadInspection(Guid.CreateVersion7(), "B1", null, null, new() { WrapTurns = 1 }, [], null, 1, null, now);
        var (photo, _) = await PhotoReader.ReadAsync(new MemoryStream(Photos.Pictures.Png()), null, CancellationToken.None);
        var (inspection, _) = await Portal.Services.GetRequiredService<InspectionDesk>().RecordAsync(submitted, read, [photo!], Tester, now, null, CancellationToken.None);
        var known = who == "clerk";
        var manager = known ? "Mona Manager" : "Owen Manager";
        var (claim, today) = (Guid.CreateVersion7(), DateOnly.FromDateTime(now.UtcDateTime));
        var view = new SavedView { Id = Guid.CreateVersion7(), PersonId = (await session.Query<User>().SingleAsync(user => user.Name == manager)).Id, Name = $"View beside {who}, {terminal}", Filter = AccountFilter.Everything };
        await using (var saving = Portal.Store.LightweightSession())
        {
            saving.Store(view);
            saving.Events.Append(pickup, new ClaimFiled(pickup, claim, $"C-{claim:N}", Guid.CreateVersion7(), today, [new("B1", 1, Money.Dollars(120))], "Crushed.", today, today, today, Tester, now));
            await saving.SaveChangesAsync();
        }

        var carrier = terminal == "Reedham" ? Portal.Parties.OtherCarrier.Id : Portal.Parties.Carrier.Id;
        return new(
            held.At("number")!,
            pickup,
            hold.Id,
            (toDecide[0].Id, toDecide[1].Id),
            notice.Id,
            Guid.Parse(draft.At("id")!),
            draft.At("number")!,
            Guid.Parse(toSubmit.At("id")!),
            known ? person.Id : Guid.CreateVersion7(),
            known ? key.Key.Id : Guid.CreateVersion7(),
            carrier,
            previews[carrier],
            Guid.Parse((await clerk.PostAsync("/api/v1/catalogue/builds", Build($"Kept by {who}, {terminal}"))).Json.At("id")!),
            inspection!.Id,
            inspection.Photos[0].PhotoId,
            await AskAsync(hold.Placed.Pickup))
        {
            Shipper = who.StartsWith("other", StringComparison.Ordinal) ? Portal.Parties.OtherShipper.Id : Portal.Parties.Shipper.Id,
            View = view.Id,
            Claim = claim,
        };
    }

    /// <summary>A dock visit that is asked for.</summary>
    private async Task<Guid> AskAsync(Readiness.Pickups.PickupHeader freight)
    {
        var id = Guid.CreateVersion7();
        var asked = await Portal.Services.GetRequiredService<DockVisitDesk>().AskAsync(
            new(id, $"V-{id:N}", freight.ShipperId, freight.SiteId, freight.CarrierId, freight.TerminalId, "Does it travel?", [], null, Tester, DateTimeOffset.UtcNow), CancellationToken.None);
        Assert.Null(asked.Refusal);
        return id;
    }

    /// <summary>A version, a draft of the next, and a preview of it.</summary>
    private async Task RuleAsync(Carrier carrier, Guid preview)
    {
        var book = Portal.Services.GetRequiredService<CarrierRuleBook>();
        var now = DateTimeOffset.UtcNow;
        var begin = new DraftRuleSet(carrier.Id, carrier.Name, OfBuiltIn: false, Tester, now);
        var heavier = RuleSet.BuiltIn with { Weight = new() { Heavy = Engineering.Units.Mass.FromPounds(1999) } };
        await DoAsync(state => CarrierRules.Decide(state, begin));
        await DoAsync(state => CarrierRules.Decide(state, new ChangeRuleSet(1, heavier, Tester, now)));
        await DoAsync(state => CarrierRules.Decide(state, new PublishRuleSet(2, now, "To have one.", Tester, now)));
        await DoAsync(state => CarrierRules.Decide(state, begin));
        await using var session = Portal.Store.LightweightSession();
        session.Insert(new RulePreview { Id = preview, CarrierId = carrier.Id, Rules = heavier, Against = RuleSet.BuiltIn, Revision = 4, AskedBy = Tester, AskedAt = now });
        await session.SaveChangesAsync();

        async Task DoAsync(Func<CarrierRules?, Decision<RuleSetEvent>> decide) =>
            Assert.Null((await book.DecideAsync(carrier.Id, decide, CancellationToken.None)).Refusal);
    }

    /// <summary>A body that keeps sound freight as a standard build.</summary>
    internal static JsonObject Build(string name)
    {
        var check = Freight.Sound();
        return new() { ["name"] = name, ["lane"] = check["lane"]!.DeepClone(), ["handlingUnit"] = check["handlingUnits"]![0]!.DeepClone() };
    }
}
