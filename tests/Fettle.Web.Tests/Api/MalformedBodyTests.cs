using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Fettle.Testing;

namespace Fettle.Web.Tests.Api;

/// <summary>Bodies that are wrong in every way: refused with the field and a sentence that helps, and never with a failure of ours.</summary>
public sealed class MalformedBodyTests(SharedPortal shared)
{
    private const string Checks = "/api/v1/checks";
    private const string Patterns = "/api/v1/patterns";
    private const string Pickups = "/api/v1/pickups";

    /// <summary>Every POST that takes a body, by the name under which <see cref="PathAsync"/> finds its address.</summary>
    public static TheoryData<string> EveryPost => ["checks", "patterns", "floor-plans", "pickups", "submission", "decisions"];

    public static TheoryData<string> PostsThatNeedABody => ["checks", "patterns", "floor-plans", "pickups", "decisions"];

    [Theory]
    [MemberData(nameof(PostsThatNeedABody))]
    public async Task An_empty_body_is_told_as_the_body(string post)
    {
        var answer = await SendAsync(post, "");

        AssertUnreadable(answer, "body");
    }

    [Theory]
    [MemberData(nameof(PostsThatNeedABody))]
    public async Task A_null_is_told_as_the_body(string post) => AssertUnreadable(await SendAsync(post, "null"), "body");

    [Theory]
    [MemberData(nameof(EveryPost))]
    public async Task Text_that_is_not_JSON_is_told_as_the_body(string post)
    {
        foreach (var body in (string[])["handlingUnits: 4", "{", "{\"units\":", "{'units':'imperial'}", "\u0000", "{\"units\":NaN}", "<xml/>", "\ufeff{"])
        {
            var answer = await SendAsync(post, body);
            AssertProblem(answer, HttpStatusCode.BadRequest);
            Assert.NotEmpty(answer.Json["errors"]!.AsObject());
        }
    }

    [Theory]
    [MemberData(nameof(EveryPost))]
    public async Task An_array_a_word_or_a_number_instead_of_an_object_is_told_as_the_body(string post)
    {
        foreach (var body in (string[])["[]", "[{}]", "\"imperial\"", "48", "true"])
            AssertUnreadable(await SendAsync(post, body), "body");
    }

    [Theory]
    [MemberData(nameof(EveryPost))]
    public async Task Deep_nesting_is_refused(string post)
    {
        var deep = string.Concat(Enumerable.Repeat("{\"handlingUnits\":[", 5_000));
        AssertProblem(await SendAsync(post, deep), HttpStatusCode.BadRequest);
        AssertProblem(await SendAsync(post, "{\"unknown\":" + new string('[', 5_000) + new string(']', 5_000) + "}"), HttpStatusCode.BadRequest);
    }

    [Theory]
    [MemberData(nameof(EveryPost))]
    public async Task A_body_of_ten_megabytes_is_too_large(string post)
    {
        var client = await CallerAsync(post);
        var path = await PathAsync(post);
        var body = $"{{\"units\":\"{new string('x', 10_000_000)}\"}}";
        foreach (var key in (string?[])[null, "large"])
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new StringContent(body, Encoding.UTF8, "application/json") };
            request.Headers.ExpectContinue = true;
            if (key is not null)
                request.Headers.Add("Idempotency-Key", key);
            AssertProblem(await client.AnswerAsync(request), HttpStatusCode.RequestEntityTooLarge);
        }
    }

    [Theory]
    [MemberData(nameof(EveryPost))]
    public async Task Another_kind_of_content_is_refused(string post)
    {
        var client = await CallerAsync(post);
        foreach (var kind in (string[])["text/plain", "application/xml", "application/x-www-form-urlencoded", "multipart/form-data"])
        {
            var answer = await client.PostRawAsync(await PathAsync(post), "{}", kind);
            AssertProblem(answer, HttpStatusCode.UnsupportedMediaType);
            Assert.Equal("urn:fettle:problem:unsupported-media-type", answer.Json.At("type"));
        }
    }

    [Fact]
    public async Task Plain_text_is_told_which_kind_of_content_is_read()
    {
        var answer = await (await CallerAsync("checks")).PostRawAsync(Checks, Freight.Sound().ToJsonString(), "text/plain");

        AssertProblem(answer, HttpStatusCode.UnsupportedMediaType);
        Assert.Equal(
            ("urn:fettle:problem:unsupported-media-type", "That kind of content cannot be read here", "Most often \"Content-Type: application/json\" is missing."),
            (answer.Json.At("type"), answer.Json.At("title"), answer.Json.At("detail")));
    }

    [Theory]
    [InlineData("handlingUnits", "handlingUnits")]
    [InlineData("lane", "lane.miles")]
    [InlineData("lane.miles", "lane.miles")]
    [InlineData("handlingUnits.0.reference", "handlingUnits[0].reference")]
    [InlineData("handlingUnits.0.outer", "handlingUnits[0].outer.length")]
    [InlineData("handlingUnits.0.outer.height", "handlingUnits[0].outer.height")]
    [InlineData("handlingUnits.0.grossWeight", "handlingUnits[0].grossWeight")]
    [InlineData("handlingUnits.0.platform", "handlingUnits[0].platform.length")]
    [InlineData("handlingUnits.0.platform.tare", "handlingUnits[0].platform.tare")]
    [InlineData("handlingUnits.0.contents", "handlingUnits[0].contents.kind")]
    [InlineData("handlingUnits.0.contents.carton", "handlingUnits[0].contents.carton.grossWeight")]
    [InlineData("handlingUnits.0.contents.perLayer", "handlingUnits[0].contents.perLayer")]
    [InlineData("handlingUnits.0.contents.layers", "handlingUnits[0].contents.layers")]
    [InlineData("handlingUnits.0.contents.carton.board.flute", "handlingUnits[0].contents.carton.board.flute")]
    public async Task A_field_that_is_missing_or_null_is_named(string without, string named)
    {
        foreach (var leave in (bool[])[true, false])
        {
            var body = Freight.Sound();
            Change(body, without, leave ? null : JsonValue.Create((string?)null), remove: leave);
            AssertUnreadable(await PostCheckAsync(body), named);
        }
    }

    [Theory]
    [InlineData("platform.rating")]
    [InlineData("platform.material")]
    [InlineData("contents.carton.board")]
    [InlineData("contents.stack")]
    [InlineData("contents.topLayer")]
    [InlineData("protection")]
    [InlineData("stackable")]
    [InlineData("fragile")]
    [InlineData("quantity")]
    [InlineData("kind")]
    public async Task What_may_be_left_out_may_be_null(string field)
    {
        var left = Freight.Sound();
        Change(left, $"handlingUnits.0.{field}", null, remove: true);
        var nulled = Freight.Sound();
        Change(nulled, $"handlingUnits.0.{field}", null, remove: false);

        var without = await PostCheckAsync(left);
        var withNull = await PostCheckAsync(nulled);

        Assert.Equal(HttpStatusCode.OK, without.Status);
        Assert.Equal(without.Text, withNull.Text);
    }

    [Fact]
    public async Task Nulls_everywhere_are_named_one_by_one()
    {
        var body = JsonNode.Parse("""{"units":null,"lane":null,"driverOnDock":null,"handlingUnits":[null,{"reference":null,"quantity":null,"platform":{"length":null},"outer":{"length":null},"contents":{"kind":"cartons","carton":{"board":{"flute":null}}}}]}""")!;

        var answer = await PostCheckAsync(body);

        AssertUnreadable(answer, "lane.miles");
        AssertUnreadable(answer, "handlingUnits[0].reference");
        AssertUnreadable(answer, "handlingUnits[1].platform.length");
        AssertUnreadable(answer, "handlingUnits[1].contents.carton.length");
    }

    /// <summary>Every figure of a line: a length, a weight or a count.</summary>
    public static TheoryData<string> Figures =>
    [
        "quantity", "grossWeight", "outer.length", "outer.width", "outer.height", "platform.length", "platform.width", "platform.height", "platform.tare", "platform.rating",
        "contents.carton.length", "contents.carton.width", "contents.carton.height", "contents.carton.grossWeight", "contents.carton.board.edgeCrush", "contents.perLayer",
        "contents.layers", "contents.topLayer", "protection.wrapTurns", "protection.straps",
    ];

    [Theory]
    [MemberData(nameof(Figures))]
    public async Task A_figure_that_cannot_be_is_named(string field)
    {
        // As JSON text, since not all of these are JSON numbers that a node could hold.
        foreach (var figure in (string[])["-1", "-0.5", "1e308", "-1e308", "1e999", "99999999999", "\"NaN\"", "\"Infinity\"", "\"four\"", "\"\"", "true", "[]", "{}", "[48]", "1000000001"])
        {
            var body = WithFigure(field, figure);
            var answer = await SendAsync("checks", body);
            AssertProblem(answer, HttpStatusCode.BadRequest);
            Assert.True(answer.Json["errors"]!.AsObject().ContainsKey($"handlingUnits[0].{field}"), $"{field} = {figure}: {answer}");
        }
    }

    [Theory]
    [MemberData(nameof(Figures))]
    public async Task Nothing_at_all_is_named_where_there_must_be_something(string field)
    {
        var mayBeNothing = field is "contents.topLayer" or "protection.wrapTurns" or "protection.straps";
        var answer = await SendAsync("checks", WithFigure(field, "0"));
        if (mayBeNothing)
            Assert.Equal(HttpStatusCode.OK, answer.Status);
        else
            AssertUnreadable(answer, $"handlingUnits[0].{field}");
    }

    [Theory]
    [InlineData("quantity")]
    [InlineData("contents.perLayer")]
    [InlineData("contents.layers")]
    [InlineData("protection.wrapTurns")]
    public async Task A_count_with_a_fraction_is_named(string field) =>
        AssertUnreadable(await SendAsync("checks", WithFigure(field, "4.5")), $"handlingUnits[0].{field}");

    [Fact]
    public async Task A_bare_NaN_is_not_JSON()
    {
        var answer = await SendAsync("checks", WithFigure("grossWeight", "NaN"));

        AssertUnreadable(answer, "handlingUnits[0].grossWeight");
        Assert.Contains("not well-formed JSON", answer.Json["errors"]!["handlingUnits[0].grossWeight"]![0]!.ToString());
    }

    [Fact]
    public async Task Feet_typed_as_inches_are_a_finding_with_the_likely_correction()
    {
        var body = Freight.Sound();
        body["handlingUnits"]![0]!["outer"] = JsonNode.Parse("""{"length":4,"width":3.3333,"height":4.4583}""");

        var answer = await PostCheckAsync(body);

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("hold", answer.Json.At("verdict"));
        var findings = answer.Json["handlingUnits"]![0]!["findings"]!.AsArray();
        Assert.Contains(findings, finding => finding!.At("code") == "inconsistent-dimensions" && finding!.At("severity") == "stop");
        Assert.Contains(findings, finding => finding!.At("message")!.Contains("Typed in feet?", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("units", "units", "furlongs")]
    [InlineData("handlingUnits.0.kind", "handlingUnits[0].kind", "drum of eels")]
    [InlineData("handlingUnits.0.fragile", "handlingUnits[0].fragile", "very")]
    [InlineData("handlingUnits.0.platform.material", "handlingUnits[0].platform.material", "cheese")]
    [InlineData("handlingUnits.0.contents.kind", "handlingUnits[0].contents.kind", "soup")]
    [InlineData("handlingUnits.0.contents.stack", "handlingUnits[0].contents.stack", "leaning")]
    [InlineData("handlingUnits.0.protection.cornerBoards", "handlingUnits[0].protection.cornerBoards", "1")]
    [InlineData("handlingUnits.0.contents.carton.board.flute", "handlingUnits[0].contents.carton.board.flute", "Q")]
    [InlineData("handlingUnits.0.contents.carton.board.flute", "handlingUnits[0].contents.carton.board.flute", "2")]
    [InlineData("handlingUnits.0.contents.carton.board.flute", "handlingUnits[0].contents.carton.board.flute", "+1")]
    [InlineData("handlingUnits.0.contents.carton.board.flute", "handlingUnits[0].contents.carton.board.flute", "A,B")]
    public async Task An_unknown_word_is_named_with_the_words_there_are(string field, string named, string word)
    {
        var body = Freight.Sound();
        Change(body, field, JsonValue.Create(word));

        var answer = await PostCheckAsync(body);

        AssertUnreadable(answer, named);
        Assert.Contains("Choose one of", answer.Json["errors"]![named]![0]!.ToString());
    }

    [Theory]
    [InlineData("handlingUnits.0.reference", "handlingUnits[0].reference", "A\u0000B")]
    [InlineData("handlingUnits.0.reference", "handlingUnits[0].reference", "A\nB")]
    [InlineData("handlingUnits.0.reference", "handlingUnits[0].reference", "A\u0085B")]
    [InlineData("handlingUnits.0.reference", "handlingUnits[0].reference", "   ")]
    [InlineData("handlingUnits.0.reference", "handlingUnits[0].reference", "")]
    [InlineData("handlingUnits.0.contents.stack", "handlingUnits[0].contents.stack", "\u0000")]
    [InlineData("units", "units", "imperial\u0000")]
    public async Task A_text_that_cannot_be_kept_is_named(string field, string named, string text)
    {
        var body = Freight.Sound();
        Change(body, field, JsonValue.Create(text));

        AssertUnreadable(await PostCheckAsync(body), named);
    }

    [Theory]
    [InlineData("\\ud800")]
    [InlineData("\\udc00\\ud800")]
    [InlineData("A\\ud800B")]
    public async Task Half_a_character_is_named(string escaped)
    {
        foreach (var field in (string[])["reference", "fragile", "kind"])
            AssertUnreadable(await SendAsync("checks", WithFigure(field, $"\"{escaped}\"")), $"handlingUnits[0].{field}");
        AssertUnreadable(await SendAsync("decisions", $$"""{"decision":"release","reason":"Seen {{escaped}} on the floor."}"""), "reason");
        AssertUnreadable(await SendAsync("submission", $$"""{"exceptionRequest":"Line {{escaped}} stops."}"""), "exceptionRequest");
    }

    [Fact]
    public async Task Half_a_character_in_a_name_is_no_failure()
    {
        var answer = await SendAsync("checks", Freight.Sound().ToJsonString()[..^1] + ",\"\\ud800\":1}");

        Assert.True(answer.Status is HttpStatusCode.OK or HttpStatusCode.BadRequest, answer.ToString());
    }

    [Fact]
    public async Task A_text_of_nearly_a_megabyte_is_named()
    {
        var text = new string('x', 990_000);
        foreach (var (field, named) in (IEnumerable<(string, string)>)[("handlingUnits.0.reference", "handlingUnits[0].reference"), ("handlingUnits.0.fragile", "handlingUnits[0].fragile"), ("units", "units")])
        {
            var body = Freight.Sound();
            Change(body, field, JsonValue.Create(text));
            var answer = await PostCheckAsync(body);
            AssertUnreadable(answer, named);
            Assert.True(answer.Text.Length < 5_000, "The text came back whole.");
        }
    }

    [Fact]
    public async Task Right_to_left_text_and_signs_beyond_the_basic_plane_come_back_as_sent()
    {
        foreach (var name in (string[])["ארגז 7", "صندوق", "木箱 🪵", "e\u0301"])
        {
            var body = Freight.Sound();
            Change(body, "handlingUnits.0.reference", JsonValue.Create(name));
            Assert.Equal(name, (await PostCheckAsync(body)).Json.At("handlingUnits.0.reference"));
        }
    }

    [Fact]
    public async Task Fields_that_are_not_known_are_ignored()
    {
        var plain = await PostCheckAsync(Freight.Sound());
        var body = Freight.Sound();
        body["colour"] = "mauve";
        body["handlingUnits"]![0]!["smell"] = new JsonObject { ["of"] = new JsonArray("figs") };

        Assert.Equal(plain.Text, (await PostCheckAsync(body)).Text);
    }

    [Fact]
    public async Task A_hundred_lines_are_checked_and_one_more_is_refused()
    {
        var body = Freight.Sound();
        var lines = body["handlingUnits"]!.AsArray();
        var first = lines[0]!;
        for (var i = 2; i <= 100; i++)
        {
            var next = first.DeepClone();
            next["reference"] = $"A{i}";
            lines.Add(next);
        }

        Assert.Equal(HttpStatusCode.OK, (await PostCheckAsync(body)).Status);
        var last = first.DeepClone();
        last["reference"] = "A101";
        lines.Add(last);
        AssertUnreadable(await PostCheckAsync(body), "handlingUnits");
    }

    [Fact]
    public async Task Hundreds_of_thousands_of_lines_are_refused_at_once()
    {
        var started = DateTimeOffset.UtcNow;
        var answer = await SendAsync("checks", $"{{\"handlingUnits\":[{string.Join(',', Enumerable.Repeat("null", 199_000))}]}}");

        AssertUnreadable(answer, "handlingUnits");
        Assert.True(answer.Text.Length < 1_000_000, "Every one was named.");
        Assert.True(DateTimeOffset.UtcNow - started < TimeSpan.FromSeconds(5));
    }

    [Fact]
    public async Task Two_lines_of_one_name_are_told_at_the_second()
    {
        var body = Freight.Sound();
        var second = body["handlingUnits"]![0]!.DeepClone();
        second["reference"] = " a1 ";
        body["handlingUnits"]!.AsArray().Add(second);

        AssertUnreadable(await PostCheckAsync(body), "handlingUnits[1].reference");
    }

    [Fact]
    public async Task No_line_at_all_is_told()
    {
        var body = Freight.Sound();
        body["handlingUnits"] = new JsonArray();

        AssertUnreadable(await PostCheckAsync(body), "handlingUnits");
        AssertUnreadable(await (await shared.ClerkAsync()).PostAsync(Pickups, body.AsPickup(DateTimeOffset.UtcNow)), "handlingUnits");
    }

    [Theory]
    [InlineData("""{"deck":{"length":48,"width":40}}""", "carton.length")]
    [InlineData("""{"carton":{"length":16,"width":12}}""", "deck.length")]
    [InlineData("""{"units":"furlongs","deck":{"length":48,"width":40},"carton":{"length":16,"width":12}}""", "units")]
    [InlineData("""{"deck":{"length":-48,"width":40},"carton":{"length":16,"width":12}}""", "deck.length")]
    [InlineData("""{"deck":{"length":48,"width":0},"carton":{"length":16,"width":12}}""", "deck.width")]
    [InlineData("""{"deck":{"length":48,"width":40},"carton":{"length":1e-300,"width":12}}""", "carton.length")]
    [InlineData("""{"deck":{"length":1e308,"width":40},"carton":{"length":16,"width":12}}""", "deck.length")]
    [InlineData("""{"deck":{"length":48,"width":"wide"},"carton":{"length":16,"width":12}}""", "deck.width")]
    [InlineData("""{"deck":{"length":48,"width":40},"carton":{"length":0.01,"width":0.01}}""", "carton")]
    [InlineData("""{"deck":[48,40],"carton":{"length":16,"width":12}}""", "deck")]
    public async Task A_pattern_that_cannot_be_sought_names_the_field(string body, string named) =>
        AssertUnreadable(await SendAsync("patterns", body), named);

    [Theory]
    [InlineData("site", "site", "\"Somebody else's dock\"")]
    [InlineData("site", "site", "\"\\u0000\"")]
    [InlineData("terminal", "terminal", "null")]
    [InlineData("terminal", "terminal", "\"Nowhere\"")]
    [InlineData("destination", "destination", "null")]
    [InlineData("destination", "destination", "\"\\u0000\"")]
    [InlineData("equipment", "equipment", "\"sledge\"")]
    [InlineData("window", "window.from", "null")]
    [InlineData("window", "window.to", "{}")]
    [InlineData("window.from", "window.from", "\"tomorrow\"")]
    [InlineData("window.from", "window.from", "\"2026-13-45T99:00:00Z\"")]
    [InlineData("window.from", "window.from", "14")]
    [InlineData("window", "window.from", """{"from":"0001-01-01T00:00:00Z","to":"0001-01-01T02:00:00Z"}""")]
    [InlineData("window", "window.from", """{"from":"0001-01-01T00:00:00+14:00","to":"2030-01-01T02:00:00Z"}""")]
    [InlineData("window", "window.from", """{"from":"1999-01-04T14:00:00Z","to":"1999-01-04T16:00:00Z"}""")]
    [InlineData("window", "window.from", """{"from":"9999-12-31T23:00:00Z","to":"9999-12-31T23:59:59Z"}""")]
    [InlineData("window", "window.to", """{"from":"2030-01-04T16:00:00-06:00","to":"2030-01-04T14:00:00-06:00"}""")]
    [InlineData("window", "window.to", """{"from":"2030-01-04T14:00:00-06:00","to":"2030-01-04T14:00:30-06:00"}""")]
    [InlineData("window", "window.to", """{"from":"2030-01-04T22:00:00-06:00","to":"2030-01-05T02:00:00-06:00"}""")]
    [InlineData("window", "window.to", """{"from":"2030-01-04T14:00:00-06:00","to":"2030-03-04T16:00:00-06:00"}""")]
    public async Task A_head_of_a_pickup_that_cannot_be_read_names_the_field(string field, string named, string value)
    {
        var body = Freight.Sound().AsPickup(DateTimeOffset.UtcNow);
        Change(body, field, JsonValue.Create("«here»"));

        AssertUnreadable(await SendAsync("pickups", body.ToJsonString().Replace(JsonValue.Create("«here»").ToJsonString(), value, StringComparison.Ordinal)), named);
    }

    [Theory]
    [InlineData("""{}""", "decision")]
    [InlineData("""{"decision":"release"}""", "reason")]
    [InlineData("""{"decision":"release","reason":"    no   "}""", "reason")]
    [InlineData("""{"decision":"shred","reason":"It looked at me."}""", "decision")]
    [InlineData("""{"decision":2,"reason":"It looked at me."}""", "decision")]
    [InlineData("""{"decision":"release","reason":"It \u0000 looked."}""", "reason")]
    [InlineData("""{"decision":"release","reason":["a","b"]}""", "reason")]
    public async Task A_decision_that_cannot_be_read_names_the_field(string body, string named) =>
        AssertUnreadable(await SendAsync("decisions", body), named);

    [Fact]
    public async Task A_reason_or_request_over_its_length_is_named_and_one_just_below_is_taken()
    {
        AssertUnreadable(await SendAsync("decisions", $$"""{"decision":"release","reason":"{{new string('x', 2001)}}"}"""), "reason");
        AssertUnreadable(await SendAsync("submission", $$"""{"exceptionRequest":"{{new string('x', 2001)}}"}"""), "exceptionRequest");
        Assert.Equal(HttpStatusCode.Created, (await SendAsync("decisions", $$"""{"decision":"release","reason":"{{new string('x', 2000)}}"}""")).Status);
        Assert.Equal(HttpStatusCode.Created, (await SendAsync("submission", $$"""{"exceptionRequest":"{{new string('x', 2000)}}"}""")).Status);
    }

    [Theory]
    [InlineData("")]
    [InlineData("a\tb")]
    public async Task An_idempotency_key_that_cannot_be_used_is_told(string key) => await AssertKeyRefusedAsync(key);

    [Fact]
    public async Task An_idempotency_key_of_over_255_characters_is_told() => await AssertKeyRefusedAsync(new string('k', 256));

    private async Task AssertKeyRefusedAsync(string key)
    {
        foreach (var post in (string[])["pickups", "submission", "decisions"])
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, await PathAsync(post)) { Content = new StringContent("{}", Encoding.UTF8, "application/json") };
            request.Headers.TryAddWithoutValidation("Idempotency-Key", key);
            var answer = await (await CallerAsync(post)).AnswerAsync(request);
            AssertProblem(answer, HttpStatusCode.BadRequest);
            Assert.Equal("urn:fettle:problem:idempotency-key", answer.Json.At("type"));
        }
    }

    [Theory]
    [InlineData("/api/v1/holds?state=lost", "state")]
    [InlineData("/api/v1/holds?pickup=seven", "pickup")]
    [InlineData("/api/v1/notices?pickup=%00", "pickup")]
    public async Task An_odd_query_names_the_parameter(string path, string named) =>
        AssertUnreadable(await (await shared.ClerkAsync()).ReadAsync(path), named);

    [Theory]
    [InlineData("/api/v1/pickups/seven")]
    [InlineData("/api/v1/pickups/00000000-0000-0000-0000-000000000000")]
    [InlineData("/api/v1/pickups/ffffffff-ffff-ffff-ffff-ffffffffffff")]
    [InlineData("/api/v1/holds/00000000-0000-0000-0000-000000000000")]
    [InlineData("/api/v1/holds/..%2f..%2fpickups")]
    [InlineData("/api/v2/checks")]
    public async Task An_odd_id_or_address_is_not_found_in_words(string path) =>
        AssertProblem(await (await shared.ClerkAsync()).ReadAsync(path), HttpStatusCode.NotFound);

    [Theory]
    [InlineData("GET", "/api/v1/checks")]
    [InlineData("DELETE", "/api/v1/holds")]
    [InlineData("PUT", "/api/v1/pickups")]
    public async Task Another_method_is_refused_in_words(string method, string path)
    {
        using var request = new HttpRequestMessage(new(method), path);
        AssertProblem(await (await shared.ClerkAsync()).AnswerAsync(request), HttpStatusCode.MethodNotAllowed);
    }

    private static void AssertProblem(ApiAnswer answer, HttpStatusCode status)
    {
        Assert.True(answer.Status == status, $"Expected {(int)status}: {answer}");
        Assert.Equal("application/problem+json", answer.ContentType);
        Assert.Equal(((int)status).ToString(CultureInfo.InvariantCulture), answer.Json.At("status"));
        Assert.StartsWith("urn:fettle:problem:", answer.Json.At("type"), StringComparison.Ordinal);
        Assert.NotEqual("", answer.Json.At("title") ?? "");
        Assert.NotEqual("", answer.Json.At("detail") ?? "");
    }

    private static void AssertUnreadable(ApiAnswer answer, string field)
    {
        AssertProblem(answer, HttpStatusCode.BadRequest);
        var errors = answer.Json["errors"]?.AsObject();
        Assert.True(errors?.ContainsKey(field) == true, $"{field} is not named: {answer}");
        var sentence = Assert.Single(errors[field]!.AsArray())!.ToString();
        Assert.True(sentence.Length > 9 && sentence[^1] is '.' or '?', $"Not a sentence that helps: {sentence}");
    }

    private Task<ApiAnswer> PostCheckAsync(JsonNode body) => SendAsync("checks", body.ToJsonString());

    private async Task<ApiAnswer> SendAsync(string post, string body) => await (await CallerAsync(post)).PostRawAsync(await PathAsync(post), body);

    private async Task<HttpClient> CallerAsync(string post) => post == "decisions" ? await shared.ReviewerAsync() : await shared.ClerkAsync();

    private async Task<string> PathAsync(string post) => post switch
    {
        "checks" => Checks,
        "patterns" => Patterns,
        "floor-plans" => "/api/v1/floor-plans",
        "pickups" => Pickups,
        "submission" => $"{Pickups}/{(await (await shared.ClerkAsync()).PostAsync(Pickups, Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")}/submission",
        _ => $"/api/v1/holds/{(await shared.HeldAsync())[0].Id}/decisions",
    };

    /// <summary>The sound freight with this JSON as one field of its line.</summary>
    private static string WithFigure(string field, string json)
    {
        var body = Freight.Sound();
        Change(body, $"handlingUnits.0.{field}", JsonValue.Create("«here»"));
        return body.ToJsonString().Replace(JsonValue.Create("«here»").ToJsonString(), json, StringComparison.Ordinal);
    }

    private static void Change(JsonObject body, string path, JsonNode? value, bool remove = false)
    {
        var steps = path.Split('.');
        JsonNode here = body;
        foreach (var step in steps[..^1])
            here = int.TryParse(step, out var index) ? here[index]! : here[step]!;
        if (remove)
            here.AsObject().Remove(steps[^1]);
        else
            here[steps[^1]] = value;
    }
}
