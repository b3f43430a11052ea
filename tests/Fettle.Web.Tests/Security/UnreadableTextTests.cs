using System.Net;
using System.Net.Http.Headers;
using System.Text;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Fettle.Testing;
using Fettle.Web.Identity;
using Fettle.Web.Tests.Api;
using Browser = Fettle.Web.Tests.Identity.Browser;

namespace Fettle.Web.Tests.Security;

/// <summary>
/// Texts that PostgreSQL cannot hold (NUL) or that are none (half of a character): in whichever field of whichever form, the
/// answer says what is wrong or the text is cleaned, and it is never a failure.
/// </summary>
public sealed class UnreadableTextTests(World world) : IClassFixture<World>
{
    /// <summary>As a form or an address carries them: NUL, and the three bytes that would be a lone surrogate.</summary>
    private static readonly string[] Unreadable = ["a%00b", "a%ED%A0%80b"];

    public static TheoryData<Role, string> Pages => new()
    {
        { Role.ShipperClerk, "/account" },
        { Role.ShipperClerk, "/pickups/DRAFT" },
        { Role.ShipperClerk, "/pickups/PICKUP" },
        { Role.ShipperClerk, "/holds/HOLD" },
        { Role.ShipperClerk, "/holds/HOLD/correction" },
        { Role.ShipperClerk, "/catalogue" },
        { Role.ShipperClerk, "/catalogue/cartons/add" },
        { Role.ShipperClerk, "/catalogue/platforms/add" },
        { Role.ShipperClerk, "/dock-visits/ask" },
        { Role.ShipperClerk, "/dock-visits/VISIT" },
        { Role.ShipperClerk, "/pickups/PICKUP/claims/new" },
        { Role.ShipperClerk, "/pickups/PICKUP/claims/CLAIM" },
        { Role.TerminalReviewer, "/board" },
        { Role.TerminalReviewer, "/scan" },
        { Role.TerminalReviewer, "/holds/HOLD" },
        { Role.TerminalReviewer, "/inspections/new?pickup=PICKUP&line=B1" },
        { Role.TerminalReviewer, "/pickups/PICKUP/outcome" },
        { Role.TerminalReviewer, "/pickups/PICKUP/claims/CLAIM" },
        { Role.TerminalReviewer, "/dock-visits/VISIT" },
        { Role.AccountManager, "/accounts" },
        { Role.AccountManager, "/accounts/SHIPPER" },
        { Role.Administrator, "/admin/people/add" },
        { Role.Administrator, "/admin/people/PERSON" },
        { Role.Administrator, "/admin/api-keys/add" },
        { Role.Administrator, "/admin/rules/CARRIER/draft" },
    };

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task No_field_of_a_page_fails_on_them(Role role, string path)
    {
        var browser = world.Browser(role);
        path = Fill(path);
        var first = await browser.GetAsync(path);
        Assert.Equal(HttpStatusCode.OK, first.Status);
        var failed = new List<string>();
        var tried = 0;
        foreach (var form in FormsOf(await first.PageAsync()))
        {
            foreach (var (field, _) in FieldsOf(form).Where(field => IsText(form, field.Name)))
            {
                foreach (var text in Unreadable)
                {
                    var answer = await SendAsync(browser, form, FieldsOf(form), field, text);
                    tried++;
                    if ((int)answer.Status >= 500)
                        failed.Add($"{form.GetAttribute("action")}, {field} = {text}: {(int)answer.Status}");
                }
            }
        }

        Assert.Equal("", string.Join('\n', failed));
        Assert.NotEqual(0, tried);
    }

    [Theory]
    [InlineData(Role.TerminalReviewer, "/scan?code=TEXT")]
    [InlineData(Role.TerminalReviewer, "/scan?code=P-234567/TEXT")]
    [InlineData(Role.TerminalReviewer, "/inspections/new?pickup=PICKUP&line=TEXT")]
    [InlineData(Role.TerminalReviewer, "/inspections/new?pickup=PICKUP&line=B1&sscc=TEXT")]
    [InlineData(Role.TerminalReviewer, "/board?column=TEXT&reason=TEXT&urgency=TEXT")]
    [InlineData(Role.TerminalReviewer, "/api/v1/handling-units?sscc=TEXT")]
    [InlineData(Role.TerminalReviewer, "/api/v1/handling-units?sscc=P-234567/TEXT")]
    [InlineData(Role.TerminalReviewer, "/api/v1/holds?state=TEXT")]
    [InlineData(Role.TerminalReviewer, "/api/v1/claims?state=TEXT")]
    [InlineData(Role.AccountManager, "/accounts?name=TEXT&lane=TEXT&sort=TEXT")]
    [InlineData(Role.AccountManager, "/accounts/lines?finding=TEXT&code=TEXT&lane=TEXT&site=TEXT")]
    [InlineData(Role.AccountManager, "/api/v1/accounts?name=TEXT&lane=TEXT")]
    [InlineData(Role.ShipperClerk, "/api/v1/catalogue/cartons?units=TEXT")]
    [InlineData(Role.ShipperClerk, "/sign-in?returnUrl=TEXT")]
    public async Task No_address_fails_on_them(Role role, string path)
    {
        foreach (var text in Unreadable)
        {
            var asked = Fill(path).Replace("TEXT", text, StringComparison.Ordinal);
            var status = asked.StartsWith("/api/", StringComparison.Ordinal) ? (await world.Machine(role).ReadAsync(asked)).Status : (await world.Browser(role).GetAsync(asked)).Status;
            Assert.True((int)status < 500, $"{asked}: {(int)status}");
        }
    }

    [Fact]
    public async Task At_sign_in_an_unreadable_name_is_a_wrong_one()
    {
        var browser = new Browser(world.Portal.Anonymous());
        var form = FormsOf(await (await browser.GetAsync("/sign-in")).PageAsync()).Single(form => form.GetAttribute("action") == "/sign-in");
        (string, string)[] fields = [.. FieldsOf(form).Where(field => field.Name != "Form.Password"), ("Form.Password", "six pallets of figs")];

        var unknown = await SendAsync(browser, form, fields, "Form.UserName", "nobody%40fettle.example");
        var said = (await unknown.PageAsync()).QuerySelector("[role=alert]")!.TextContent;
        foreach (var text in Unreadable)
        {
            var answer = await SendAsync(browser, form, fields, "Form.UserName", text);
            Assert.Equal((HttpStatusCode.UnprocessableEntity, said), (answer.Status, (await answer.PageAsync()).QuerySelector("[role=alert]")?.TextContent));
        }

        // In the other kind of form the framework itself reads no NUL.
        Assert.Equal(HttpStatusCode.BadRequest, (await browser.PostAsync("/sign-in", [.. fields.Where(field => field.Item1 != "Form.UserName"), ("Form.UserName", "a\0b")])).Status);
    }

    [Theory]
    [InlineData(Role.ShipperClerk, "/account", "/account/name", "NameForm.Name")]
    [InlineData(Role.Administrator, "/admin/people/add", "/admin/people/add", "Form.Name")]
    [InlineData(Role.Administrator, "/admin/people/add", "/admin/people/add", "Form.UserName")]
    [InlineData(Role.Administrator, "/admin/people/PERSON", "/admin/people/PERSON", "Form.Name")]
    [InlineData(Role.Administrator, "/admin/api-keys/add", "/admin/api-keys/add", "Form.Name")]
    public async Task Names_are_told_so_at_their_field(Role role, string path, string action, string field)
    {
        var browser = world.Browser(role);
        var form = FormsOf(await (await browser.GetAsync(Fill(path))).PageAsync()).First(form => form.GetAttribute("action") == Fill(action));
        var name = form.QuerySelector($"[name='{field}']") is null ? field[(field.IndexOf('.', StringComparison.Ordinal) + 1)..] : field;
        foreach (var text in Unreadable)
        {
            var answer = await SendAsync(browser, form, FieldsOf(form), name, text);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
            var wrong = (await answer.PageAsync()).QuerySelector($"[name='{name}']")!.Closest(".field--wrong");
            Assert.NotEqual("", wrong?.QuerySelector(".field__error")?.TextContent.Trim() ?? "");
        }
    }

    /// <summary>Sign-in and a form with photos, each breaking off in the middle of a part.</summary>
    [Theory]
    [InlineData(null, "/sign-in")]
    [InlineData(Role.ShipperClerk, "/account/name")]
    [InlineData(Role.ShipperClerk, "/holds/HOLD/dispute")]
    [InlineData(Role.TerminalReviewer, "/dock-visits/VISIT/conclusion")]
    [InlineData(Role.TerminalReviewer, "/inspections")]
    [InlineData(Role.TerminalReviewer, "/inspections/INSPECTION/photos")]
    public async Task A_form_that_ends_too_early_is_refused(Role? role, string action)
    {
        var browser = role is null ? new Browser(world.Portal.Anonymous()) : world.Browser(role);
        var token = await World.TokenAsync(browser);
        foreach (var carriesToken in (bool[])[false, true])
        {
            var content = new ByteArrayContent("--pallets\r\nContent-Disposition: form-data; name=\"photos\"; filename=\"a.jpg\"\r\n\r\nhalf of it"u8.ToArray());
            content.Headers.ContentType = MediaTypeHeaderValue.Parse("multipart/form-data; boundary=pallets");
            var request = new HttpRequestMessage(HttpMethod.Post, Fill(action)) { Content = content };
            request.Headers.Add("Sec-Fetch-Site", "same-origin");
            if (carriesToken)
                request.Headers.Add("RequestVerificationToken", token);
            Assert.InRange((int)(await browser.SendAsync(request)).Status, 400, 499);
        }
    }

    private string Fill(string path) => path
        .Replace("DRAFT", world.Own.Draft.ToString(), StringComparison.Ordinal)
        .Replace("PICKUP", world.Own.Pickup.ToString(), StringComparison.Ordinal)
        .Replace("HOLD", world.Own.Hold.ToString(), StringComparison.Ordinal)
        .Replace("VISIT", world.Own.Visit.ToString(), StringComparison.Ordinal)
        .Replace("CLAIM", world.Own.Claim.ToString(), StringComparison.Ordinal)
        .Replace("SHIPPER", world.Own.Shipper.ToString(), StringComparison.Ordinal)
        .Replace("PERSON", world.Own.Person.ToString(), StringComparison.Ordinal)
        .Replace("INSPECTION", world.Own.Inspection.ToString(), StringComparison.Ordinal)
        .Replace("CARRIER", world.Own.Carrier.ToString(), StringComparison.Ordinal);

    /// <summary>Of the page; not the one that would end the session.</summary>
    private static IEnumerable<IHtmlFormElement> FormsOf(IParentNode page) =>
        page.QuerySelectorAll<IHtmlFormElement>("form[action]").Where(form => form.GetAttribute("action") is not "/sign-out");

    private static bool IsText(IHtmlFormElement form, string name) =>
        name != "__RequestVerificationToken" && !name.EndsWith("Password", StringComparison.Ordinal)
        && form.Elements.Any(element => element.GetAttribute("name") == name && element is not IHtmlInputElement { Type: "checkbox" or "radio" or "file" });

    /// <summary>What the form would send, with something plausible in each field that is empty.</summary>
    private static (string Name, string Value)[] FieldsOf(IHtmlFormElement form) =>
    [
        .. form.Elements.OfType<IHtmlElement>().Where(element => element.GetAttribute("name") is { Length: > 0 }).Select(element => (element.GetAttribute("name")!, element switch
        {
            IHtmlInputElement { Type: "checkbox" or "radio", IsChecked: false } or IHtmlInputElement { Type: "file" } or IHtmlButtonElement => null,
            IHtmlInputElement { Type: "date", Value: "" } => "2027-03-01",
            IHtmlInputElement { Type: "time", Value: "" } => "12:00",
            IHtmlInputElement { Type: "email", Value: "" } => "x@fettle.example",
            IHtmlInputElement { Type: "text" or "search" or "password", Value: "" } => "12 pallets of figs",
            IHtmlInputElement input => input.Value,
            IHtmlTextAreaElement { Value: "" } => "Twelve pallets of figs.",
            IHtmlTextAreaElement area => area.Value,
            IHtmlSelectElement { Value: "" } select => select.Options.Select(option => option.Value).FirstOrDefault(value => !string.IsNullOrEmpty(value)) ?? "",
            IHtmlSelectElement select => select.Value,
            _ => null,
        })).Where(field => field.Item2 is not null)!,
    ];

    private static Task<Identity.Answer> SendAsync(Browser browser, IHtmlFormElement form, IEnumerable<(string Name, string Value)> fields, string field, string encoded)
    {
        var action = form.GetAttribute("action")!;
        if (!string.Equals(form.GetAttribute("method"), "post", StringComparison.OrdinalIgnoreCase))
            return browser.GetAsync($"{action}?{string.Join('&', fields.Where(other => other.Name != field).Select(other => $"{other.Name}={Uri.EscapeDataString(other.Value)}").Append($"{field}={encoded}"))}");
        // In parts: in the other kind of form the framework refuses NUL itself.
        var parts = new MultipartFormDataContent();
        foreach (var (name, value) in fields.Where(other => other.Name != field))
            parts.Add(new StringContent(value), name);
        parts.Add(new ByteArrayContent(WebUtility.UrlDecodeToBytes(Encoding.ASCII.GetBytes(encoded), 0, encoded.Length)), field);
        var request = new HttpRequestMessage(HttpMethod.Post, action) { Content = parts };
        request.Headers.Add("Sec-Fetch-Site", "same-origin");
        return browser.SendAsync(request);
    }
}
