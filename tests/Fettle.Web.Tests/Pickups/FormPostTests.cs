using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Fettle.Web.Tests.Identity;

namespace Fettle.Web.Tests.Pickups;

/// <summary>Forms that no page of ours would send. What was typed comes back, or the answer says what is wrong; it is never a failure.</summary>
public sealed class FormPostTests(SharedPortal shared) : IAsyncLifetime
{
    private Browser browser = null!;
    private EditorTab tab = null!;

    /// <summary>The two addresses that take the declaration's form.</summary>
    public static TheoryData<string> Addresses => ["", "/check"];

    public async ValueTask InitializeAsync()
    {
        browser = await shared.PersonAsync("clara");
        tab = await EditorTab.StartAsync(browser);
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0)]);
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task A_form_without_fields_changes_nothing(string address)
    {
        var answer = await PostAsync(address, []);

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        var saved = (await shared.DraftAsync(tab.Id)).Form;
        Assert.Equal("Quillfeather Paper, Saltgrass", saved.Destination);
        Assert.Equal("53 1/2", Assert.Single(saved.HandlingUnits).Outer.Height);
    }

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task A_form_without_its_token_is_refused_and_changes_nothing(string address)
    {
        var answer = await browser.PostAsync($"/pickups/{tab.Id}{address}", [.. tab.Fields().Where(field => field.Name[0] != '_'), ("destination", "Elsewhere")]);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("Quillfeather Paper, Saltgrass", (await shared.DraftAsync(tab.Id)).Form.Destination);
    }

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task Five_thousand_fields_that_mean_nothing_do_no_harm(string address)
    {
        var answer = await PostAsync(address, [.. tab.Fields(), .. Enumerable.Range(0, 5_000).Select(i => ($"x{i}", "y"))]);

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("53 1/2", (await shared.DraftAsync(tab.Id)).Form.HandlingUnits[0].Outer.Height);
    }

    [Theory]
    [InlineData("", 5_000)]
    [InlineData("/check", 5_000)]
    [InlineData("", 9_000)]
    [InlineData("/check", 9_000)]
    public async Task Thousands_of_lines_are_refused_and_change_nothing(string address, int lines)
    {
        var answer = await PostAsync(address, [.. tab.Fields(), .. Enumerable.Range(1, lines).Select(i => ($"handlingUnits[{i}].reference", $"A{i}"))]);

        Assert.True(answer.Status is HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.BadRequest, $"{answer.Status}");
        Assert.NotEqual("", (await answer.PageAsync()).Body!.TextContent.Trim());
        Assert.Single((await shared.DraftAsync(tab.Id)).Form.HandlingUnits);
    }

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task A_form_over_two_megabytes_is_too_large(string address)
    {
        var answer = await PostAsync(address, [.. tab.Fields(), ("note", new string('x', 2_100_000))]);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.Status);
        Assert.Contains("too large", answer.Text, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("destination")]
    [InlineData("handlingUnits[0].reference")]
    [InlineData("handlingUnits[0].outer.height")]
    [InlineData("handlingUnits[0].contents.description")]
    [InlineData("window.date")]
    [InlineData("lane.miles")]
    [InlineData("site")]
    [InlineData("terminal")]
    [InlineData("units")]
    [InlineData("equipment")]
    [InlineData("tab")]
    [InlineData("version")]
    [InlineData("exceptionRequest")]
    [InlineData("do")]
    [InlineData("driverOnDock")]
    [InlineData("handlingUnits[0].stackable")]
    public async Task Odd_values_of_any_field_are_answered_with_the_page(string field)
    {
        foreach (var value in (string[])[new string('9', 100_000), "\u202eright to left", "½ 🪵 𝔘", "<script>alert(1)</script>", "' or 1=1 --", "-1", "1e308", "NaN", "\r\n\r\n", "   ", "true,false"])
        {
            foreach (var address in (string[])["", "/check"])
            {
                var answer = await PostAsync(address, [.. tab.Fields().Where(each => each.Name != field), (field, value)]);
                Assert.True(answer.Status == HttpStatusCode.OK, $"{address} {field} = {value[..Math.Min(20, value.Length)]}: {answer.Status} {answer.Text[..Math.Min(300, answer.Text.Length)]}");
                Assert.DoesNotContain("<script>alert", answer.Text);
                if (address.Length == 0 && (field is "destination" || field.EndsWith("reference", StringComparison.Ordinal) || field.EndsWith("height", StringComparison.Ordinal)))
                {
                    var shown = ((IHtmlInputElement)(await answer.PageAsync()).QuerySelector($"#declaration [name='{field}']")!).Value;
                    // An input has one line.
                    Assert.Equal(value.ReplaceLineEndings("").Trim(), shown.Trim());
                }
            }
        }
    }

    [Theory]
    [InlineData("remove:7")]
    [InlineData("remove:-1")]
    [InlineData("duplicate:99999999999")]
    [InlineData("apply:0:")]
    [InlineData("apply:0:no such key")]
    [InlineData("apply:::::")]
    [InlineData("dance")]
    [InlineData("")]
    public async Task A_button_that_does_not_exist_does_nothing(string button)
    {
        await tab.PressAsync(button);

        Assert.Equal("53 1/2", tab.Value("handlingUnits[0].outer.height"));
        Assert.Equal("53 1/2", Assert.Single((await shared.DraftAsync(tab.Id)).Form.HandlingUnits).Outer.Height);
    }

    [Theory]
    [InlineData("handlingUnits[0]")]
    [InlineData("handlingUnits[0].outer")]
    [InlineData("handlingUnits[0].outer.height.x")]
    [InlineData("handlingUnits[-1].reference")]
    [InlineData("handlingUnits[00].reference")]
    [InlineData("handlingUnits[2147483648].reference")]
    [InlineData("handlingUnits[].reference")]
    [InlineData("[0].reference")]
    [InlineData("form.destination")]
    public async Task A_field_with_an_odd_name_does_not_take_the_line_away(string name)
    {
        var answer = await PostAsync("", [.. tab.Fields(), (name, "1")]);

        Assert.True((int)answer.Status is 200 or 400 or 413, $"{answer.Status}");
        Assert.Equal("53 1/2", (await shared.DraftAsync(tab.Id)).Form.HandlingUnits.FirstOrDefault()?.Outer.Height);
    }

    [Theory]
    [InlineData("handlingUnits")]
    [InlineData("handlingUnits.index")]
    public async Task A_list_in_another_form_than_ours_is_answered(string name)
    {
        foreach (var address in (string[])["", "/check"])
        {
            var answer = await PostAsync(address, [.. tab.Fields(), (name, "1")]);
            Assert.True((int)answer.Status is 200 or 400, $"{answer.Status}");
        }
    }

    /// <summary>Forms that come in an address may not hold NUL at all; those in parts may, and the database may not.</summary>
    [Theory]
    [InlineData("destination")]
    [InlineData("handlingUnits[0].reference")]
    [InlineData("handlingUnits[0].outer.height")]
    [InlineData("tab")]
    [InlineData("version")]
    [InlineData("exceptionRequest")]
    [InlineData("do")]
    public async Task NUL_is_left_out_of_what_is_kept(string field)
    {
        Assert.Equal(HttpStatusCode.BadRequest, (await PostAsync("", [.. tab.Fields().Where(each => each.Name != field), (field, "a\0b")])).Status);
        foreach (var address in (string[])["", "/check"])
        {
            using var parts = new MultipartFormDataContent();
            foreach (var (name, value) in tab.Fields().Where(each => each.Name != field).Append((field, "a\0b")))
                parts.Add(new StringContent(value), name);
            using var request = new HttpRequestMessage(HttpMethod.Post, $"/pickups/{tab.Id}{address}") { Content = parts };
            request.Headers.Add("Sec-Fetch-Site", "same-origin");

            var answer = await browser.SendAsync(request);

            Assert.True(answer.Status == HttpStatusCode.OK, $"{answer.Status} {answer.Text}");
        }

        if (field == "destination")
            Assert.Equal("ab", (await shared.DraftAsync(tab.Id)).Form.Destination);
    }

    [Theory]
    [InlineData("X-Changed", "handlingUnits[-1].outer.length")]
    [InlineData("X-Changed", "handlingUnits[99999999999].outer.length,,,")]
    [InlineData("X-Changed", "handlingUnits[7].outer.length")]
    [InlineData("X-Changed", "%00")]
    public async Task An_odd_list_of_changed_fields_is_answered(string header, string value)
    {
        var answer = await browser.PostAsync($"/pickups/{tab.Id}/check", [.. tab.Fields()], (header, value), ("HX-Request", "true"), ("Sec-Fetch-Site", "same-origin"));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
    }

    [Theory]
    [InlineData("/pickups/seven", HttpStatusCode.NotFound)]
    [InlineData("/pickups/00000000-0000-0000-0000-000000000000", HttpStatusCode.NotFound)]
    [InlineData("/pickups/..%2f..%2fadmin", HttpStatusCode.NotFound)]
    [InlineData("/holds/seven", HttpStatusCode.NotFound)]
    [InlineData("/messages/seven/body", HttpStatusCode.NotFound)]
    [InlineData("/holds?decided=perhaps", HttpStatusCode.OK)]
    [InlineData("/holds?decided=%00", HttpStatusCode.OK)]
    [InlineData("/messages?all=%F0%9F%AA%B5", HttpStatusCode.OK)]
    [InlineData("/pickups?page=-1&page=2&[]=x", HttpStatusCode.OK)]
    public async Task Odd_addresses_are_answered_in_words(string path, HttpStatusCode status)
    {
        var answer = await browser.GetAsync(path);

        Assert.Equal(status, answer.Status);
        Assert.NotEqual("", (await answer.PageAsync()).QuerySelector("h1")!.TextContent.Trim());
    }

    [Theory]
    [InlineData("", "text/plain", "destination=x")]
    [InlineData("/check", "text/plain", "destination=x")]
    [InlineData("", "application/json", "{}")]
    [InlineData("", "multipart/form-data; boundary=b", "--b\r\nContent-Disposition: form-data; name=\"destination\"\r\n\r\nx")]
    [InlineData("", "multipart/form-data", "x")]
    [InlineData("", "application/x-www-form-urlencoded", "%")]
    [InlineData("", "application/x-www-form-urlencoded", "&&&=&=x&%ED%A0%80=%ED%A0%80")]
    public async Task A_body_that_is_no_form_is_refused(string address, string kind, string body)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/pickups/{tab.Id}{address}") { Content = new StringContent(body) };
        request.Content.Headers.Remove("Content-Type");
        request.Content.Headers.TryAddWithoutValidation("Content-Type", kind);
        request.Headers.Add("Sec-Fetch-Site", "same-origin");

        var answer = await browser.SendAsync(request);

        Assert.True((int)answer.Status is >= 400 and < 500, $"{answer.Status}");
        Assert.Equal("Quillfeather Paper, Saltgrass", (await shared.DraftAsync(tab.Id)).Form.Destination);
    }

    private Task<Answer> PostAsync(string address, IEnumerable<(string Name, string Value)> fields)
    {
        var token = (IHtmlInputElement)tab.Page.QuerySelector("#declaration input[name=__RequestVerificationToken]")!;
        // A form that is too large is refused before it is sent whole.
        return browser.PostAsync(
            $"/pickups/{tab.Id}{address}",
            fields.Where(field => field.Name != token.Name).Append((token.Name!, token.Value)),
            ("Expect", "100-continue"),
            ("Sec-Fetch-Site", "same-origin"));
    }
}
