using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using Fettle.Testing;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Fettle.Web.Tests.Identity;
using Fettle.Web.Tests.Pickups;
using Marten;

namespace Fettle.Web.Tests.Languages;

/// <summary>Which language an answer is in, and that a Spanish page is Spanish throughout.</summary>
public sealed class LanguageTests(SharedPortal shared)
{
    private const string Checks = "/api/v1/checks";

    /// <summary>Words that are the same in both languages, names, numbers and grades.</summary>
    private static readonly HashSet<string> Alike =
        ["Fettle", "No", "Material", "Metal", "A", "B", "C", "E", "F", "HT", "MB", "DH", "SF", "A1", "in", "lb", "×", "English", "Español"];

    [Theory]
    [InlineData("es", "es", "La carga mide")]
    [InlineData("es-MX", "es", "La carga mide")]
    [InlineData("fr, es;q=0.5, en;q=0.4", "es", "La carga mide")]
    [InlineData("es;q=0, en", "en", "The load is")]
    [InlineData("en, es;q=0.9", "en", "The load is")]
    [InlineData("xx", "en", "The load is")]
    [InlineData("*", "en", "The load is")]
    [InlineData(";;q=,,", "en", "The load is")]
    public async Task The_API_answers_in_the_language_asked_for_with_the_same_codes(string asked, string given, string message)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, Checks) { Content = JsonContent.Create(Freight.Troubled()) };
        request.Headers.TryAddWithoutValidation("Accept-Language", asked);
        using var answer = await (await shared.ClerkAsync()).SendAsync(request);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal([given], answer.Content.Headers.ContentLanguage);
        var finding = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["handlingUnits"]![0]!["findings"]!.AsArray().First(f => (string?)f!["code"] == "overhang")!;
        Assert.StartsWith(message, (string?)finding["message"], StringComparison.Ordinal);
        Assert.Equal("stop", (string?)finding["severity"]);
    }

    [Fact]
    public async Task What_cannot_be_read_is_said_in_Spanish_at_the_field()
    {
        var freight = Freight.Troubled();
        freight["handlingUnits"]![0]!["outer"]!["length"] = -5;
        using var request = new HttpRequestMessage(HttpMethod.Post, Checks) { Content = JsonContent.Create(freight) };
        request.Headers.Add("Accept-Language", "es");
        var answer = await (await shared.ClerkAsync()).AnswerAsync(request);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("Lo que se envió no se puede leer.", answer.Json.At("title"));
        Assert.Contains("Esto no es una longitud en pulgadas", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_sign_in_the_browser_keeps_what_was_chosen_before_what_it_asks_for()
    {
        var browser = new Browser((await shared.PortalAsync()).Anonymous());
        Assert.Equal("es", await LanguageOfAsync(browser, "/sign-in", "es-US, en;q=0.5"));
        Assert.Equal("en", await LanguageOfAsync(browser, "/sign-in", "en"));

        var chosen = await ChooseAsync(browser, "/sign-in", "es");
        Assert.Equal("/sign-in", chosen.Location);

        var page = await (await browser.GetAsync("/sign-in", ("Accept-Language", "en"))).PageAsync();
        Assert.Equal("es", page.DocumentElement.GetAttribute("lang"));
        Assert.Contains("Correo electrónico", page.Body!.TextContent, StringComparison.Ordinal);
        var wrong = await browser.SubmitAsync(page, "form[action='/sign-in']", ("Form.UserName", "nobody@fettle.example"), ("Form.Password", "not this one"));
        Assert.Contains("Ese correo y esa contraseña no van juntos", (await wrong.PageAsync()).Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_person_s_own_language_wins_over_the_browser_and_follows_them()
    {
        var browser = await PersonAsync("Ines Aduana");
        await ChooseAsync(browser, "/pickups", "es");
        Assert.Equal("es", await LanguageOfAsync(browser, "/pickups", "en-US"));

        // In another browser, too.
        var elsewhere = new Browser((await shared.PortalAsync()).Anonymous());
        await elsewhere.SignInAsync("ines@fettle.example", Portal.Password);
        Assert.Equal("es", await LanguageOfAsync(elsewhere, "/account", "en"));

        await ChooseAsync(browser, "/account", "en");
        Assert.Equal("en", await LanguageOfAsync(browser, "/pickups", "es"));
    }

    [Theory]
    [InlineData("xx")]
    [InlineData("")]
    public async Task A_language_that_nobody_speaks_here_is_refused(string language)
    {
        var browser = new Browser((await shared.PortalAsync()).Anonymous());
        var answer = await ChooseAsync(browser, "/sign-in", language);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Null(browser.Cookies["fettle.language"]);
    }

    [Fact]
    public async Task The_way_back_from_the_switch_leads_nowhere_else()
    {
        var browser = new Browser((await shared.PortalAsync()).Anonymous());
        var page = await (await browser.GetAsync("/sign-in")).PageAsync();
        var answer = await browser.SubmitAsync(page, "form[action='/account/language']", ("language", "es"), ("returnUrl", "https://elsewhere.example/"));
        Assert.Equal("/", answer.Location);
    }

    [Fact]
    public async Task The_declaration_page_has_no_English_left()
    {
        var browser = await PersonAsync("Lucia Muelle");
        var tab = await EditorTab.StartAsync(browser);
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Troubled(0)]);
        string[] english = [.. Read(tab.Page)];
        await ChooseAsync(browser, $"/pickups/{tab.Id}", "es");
        var spanish = await EditorTab.OpenAsync(browser, tab.Id);

        Assert.Equal("es", spanish.Page.DocumentElement.GetAttribute("lang"));
        Assert.Contains("Quedaría retenida", spanish.Standing, StringComparison.Ordinal);
        Assert.NotEmpty(spanish.Findings("handlingUnits[0].outer.length"));
        string[] same = [.. Read(spanish.Page).Distinct().Intersect(english).Where(text => text.Any(char.IsLetter) && !Alike.Contains(text))];
        // What people typed, the parties' names and what is only figures stay as they are.
        Assert.All(same, text => Assert.Matches(Names, text));

        await spanish.PressAsync("check", ("handlingUnits[0].outer.length", "abc"), ("lane.miles", ""));
        Assert.StartsWith("Esto no es una longitud en pulgadas", spanish.Error("handlingUnits[0].outer.length"), StringComparison.Ordinal);
        Assert.Equal("Millas por carretera, de 0 a 10,000.", spanish.Error("lane.miles"));
    }

    [Fact]
    public async Task The_shipper_is_written_to_in_the_language_of_whoever_declared_and_reads_the_mail_as_it_was_sent()
    {
        var browser = await PersonAsync("Rosa Anden");
        await ChooseAsync(browser, "/pickups", "es");
        var tab = await EditorTab.StartAsync(browser);
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Troubled(0)]);
        await tab.PressAsync("submit", ("exceptionRequest", "La línea del consignatario se para esta noche."));
        await shared.OpenHoldsAsync(tab.Id);

        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        var notices = await session.Query<Notice>().Where(notice => notice.PickupId == tab.Id).ToListAsync();
        Assert.Equal("es", notices.Single(notice => notice.Kind == NoticeKind.PickupForShipper).Language);
        Assert.Null(notices.Single(notice => notice.Kind == NoticeKind.PickupForTerminal).Language);
        await ChooseAsync(browser, "/account", "en");
        var mail = await browser.GetAsync($"/messages/{notices.Single(notice => notice.Kind == NoticeKind.PickupForShipper).Id}/body");
        Assert.Contains("<html lang=\"es\">", mail.Text, StringComparison.Ordinal);
        Assert.Contains("Usted pidió una excepción", WebUtility.HtmlDecode(mail.Text), StringComparison.Ordinal);
        Assert.DoesNotContain("Cure:", mail.Text, StringComparison.Ordinal);
    }

    private const string Names = "Lucia Muelle|Larkspur|Heronway|Quillfeather|Bramblewick|dock|Dock|^[A-Z]\\d$|^[\\d.,]+.(in|lb|g|mi|ft|lb/ft³)$|UTC|[÷×=<>]";

    private async Task<Browser> PersonAsync(string name)
    {
        var portal = await shared.PortalAsync();
        await portal.AddUserAsync(name, portal.Parties.Clerk);
        var browser = new Browser(portal.Anonymous());
        var answer = await browser.SignInAsync($"{name.Split(' ')[0].ToLowerInvariant()}@fettle.example", Portal.Password);
        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
        return browser;
    }

    private static async Task<string?> LanguageOfAsync(Browser browser, string path, string asked) =>
        (await (await browser.GetAsync(path, ("Accept-Language", asked))).PageAsync()).DocumentElement.GetAttribute("lang");

    private static async Task<Answer> ChooseAsync(Browser browser, string path, string language) =>
        await browser.SubmitAsync(await (await browser.GetAsync(path)).PageAsync(), "form[action='/account/language']", ("language", language));

    /// <summary>Each run of text that a reader meets, and what is told to screen readers.</summary>
    /// <summary>What the page says; names of terminals, docks and out of the catalogue are nobody's words, and other tests add some.</summary>
    private static IEnumerable<string> Read(AngleSharp.Html.Dom.IHtmlDocument page) => page.Body!.Descendants()
        .Where(node => node.ParentElement?.Closest("select[name^='catalogue-'], select[name='terminal'], select[name='site']") is null)
        .SelectMany(node => node switch
        {
            IText text when text.ParentElement?.LocalName is not ("script" or "style") => [text.Data],
            IElement element => new[] { element.GetAttribute("aria-label") ?? "", element.GetAttribute("title") ?? "", element.GetAttribute("placeholder") ?? "" },
            _ => [],
        })
        .Select(text => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)))
        .Where(text => text.Length > 0);
}
