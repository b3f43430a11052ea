using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Fettle.Web.Tests.Identity;

namespace Fettle.Web.Tests.Pickups;

/// <summary>The declaration page in one tab of a browser, as somebody works with it: types, presses a button, reads.</summary>
internal sealed class EditorTab
{
    private const string Form = "#declaration";

    private readonly Browser browser;

    private EditorTab(Browser browser, Guid id)
    {
        this.browser = browser;
        Id = id;
    }

    public Guid Id { get; }

    public IHtmlDocument Page { get; private set; } = null!;

    /// <summary>Presses "New pickup".</summary>
    /// <param name="from">An earlier pickup that it begins as a copy of.</param>
    public static async Task<EditorTab> StartAsync(Browser browser, Guid? from = null)
    {
        var list = await (await browser.GetAsync("/pickups")).PageAsync();
        var started = from is { } earlier
            ? await browser.SubmitAsync(list, $"form[action='/pickups']:has(input[value='{earlier}'])")
            : await browser.SubmitAsync(list, "form[action='/pickups']");
        Assert.Equal(HttpStatusCode.Redirect, started.Status);
        return await OpenAsync(browser, Guid.Parse(started.Location!.Split('/')[^1]));
    }

    /// <summary>Opens it in another tab.</summary>
    public static async Task<EditorTab> OpenAsync(Browser browser, Guid id)
    {
        var answer = await browser.GetAsync($"/pickups/{id}");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        return new(browser, id) { Page = await answer.PageAsync() };
    }

    /// <summary>The page as it is now, which a button is about to replace: what it still had under way arrives late.</summary>
    public EditorTab AsItIs() => new(browser, Id) { Page = Page };

    /// <summary>Presses a button of the form after typing; the page that comes back is the tab's from then on.</summary>
    public async Task<Answer> PressAsync(string button, params (string Name, string Value)[] typed)
    {
        // What was typed last into a field counts.
        var last = typed.GroupBy(field => field.Name, (_, values) => values.Last());
        var answer = await browser.SubmitAsync(Page, Form, [.. last, ("do", button)]);
        if (answer.Status == HttpStatusCode.OK)
            Page = await answer.PageAsync();
        return answer;
    }

    /// <summary>Types, as htmx then sends it: the whole form, and which fields changed.</summary>
    public async Task<Answer> TypeAsync(params (string Name, string Value)[] typed)
    {
        foreach (var (name, value) in typed)
            Set(name, value);
        var token = Page.QuerySelector("meta[name=request-token]")!.GetAttribute("content")!;
        return await browser.PostAsync(
            $"/pickups/{Id}/check",
            [.. Fields()],
            ("HX-Request", "true"),
            ("Sec-Fetch-Site", "same-origin"),
            ("RequestVerificationToken", token),
            ("X-Changed", string.Join(',', typed.Select(field => field.Name))));
    }

    /// <summary>Takes the saved version out of an answer to <see cref="TypeAsync"/>, as htmx does by swapping the part that holds it.</summary>
    public async Task TakeAsync(Answer answer)
    {
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Set("version", ((IHtmlInputElement)(await answer.PageAsync()).QuerySelector("input[name=version]")!).Value);
    }

    public string? Value(string name) => Page.QuerySelector($"{Form} [name='{name}']") switch
    {
        IHtmlInputElement { Type: "checkbox" } box => box.IsChecked ? "true" : "",
        IHtmlInputElement input => input.Value,
        IHtmlSelectElement select => select.Value,
        IHtmlTextAreaElement area => area.Value,
        _ => null,
    };

    /// <summary>The error beside a field; null when there is none.</summary>
    public string? Error(string field) => Slot(field).QuerySelector(".field__error")?.TextContent;

    /// <summary>What was found, beside a field.</summary>
    public IEnumerable<string> Findings(string field) => Slot(field).QuerySelectorAll(".field__finding").Select(finding => finding.TextContent);

    public string Standing => Page.QuerySelector("#standing")!.TextContent;

    public string? Notice => Page.QuerySelector("#editor > .notice")?.TextContent;

    /// <summary>"good", "caution" or "stop"; null without a notice.</summary>
    public string? NoticeTone => Page.QuerySelector("#editor > .notice")?.ClassList.Single(name => name.StartsWith("notice--", StringComparison.Ordinal))["notice--".Length..];

    public bool HasConflict => Page.QuerySelector("#standing [role=alert]") is not null;

    public IEnumerable<string> Buttons(string start) =>
        Page.QuerySelectorAll($"button[name=do][value^='{start}']").Select(button => button.GetAttribute("value")!);

    public IEnumerable<string> References() =>
        Page.QuerySelectorAll<IHtmlInputElement>($"{Form} input[name$='.reference']").Select(input => input.Value);

    public IEnumerable<(string Name, string Value)> Fields()
    {
        foreach (var element in Page.QuerySelectorAll($"{Form} [name]").Where(element => element is not IHtmlButtonElement))
        {
            if (element is IHtmlInputElement { Type: "checkbox", IsChecked: false })
                continue;
            var name = element.GetAttribute("name")!;
            yield return (name, element is IHtmlInputElement { Type: "checkbox" } ? "true" : Value(name) ?? "");
        }
    }

    private void Set(string name, string value)
    {
        switch (Page.QuerySelector($"{Form} [name='{name}']"))
        {
            case IHtmlInputElement { Type: "checkbox" } box:
                box.IsChecked = value == "true";
                break;
            case IHtmlInputElement input:
                input.Value = value;
                break;
            case IHtmlSelectElement select:
                select.Value = value;
                break;
            case IHtmlTextAreaElement area:
                area.Value = value;
                break;
            default:
                Assert.Fail($"The page has no field {name}.");
                break;
        }
    }

    private IElement Slot(string field) =>
        Page.GetElementById("m-" + field.Replace('.', '-').Replace('[', '-').Replace("]", "", StringComparison.Ordinal))
        ?? throw new InvalidOperationException($"The page has no place for messages of {field}.");
}

/// <summary>What people type.</summary>
internal static class Typed
{
    /// <summary>The head of a pickup that can be submitted.</summary>
    public static (string, string)[] Head =>
    [
        ("terminal", Millbrook),
        ("destination", "Quillfeather Paper, Saltgrass"),
        ("lane.miles", "740"),
        ("lane.transfers", "3"),
    ];

    /// <summary>The id of the terminal Millbrook.</summary>
    public static string Millbrook { get; } = new Testing.Parties().Carrier.Terminals[0].Id.ToString();

    /// <summary>A unit that nothing is to be said against: the sound freight of the API's tests.</summary>
    public static (string, string)[] Sound(int line, string reference = "A1") =>
    [
        .. Line(
            line,
            ("reference", reference), ("quantity", "4"), ("grossWeight", "940"), ("outer.length", "48"), ("outer.width", "40"), ("outer.height", "53 1/2"), ("platform.rating", "2500"),
            ("contents.carton.length", "16"), ("contents.carton.width", "12"), ("contents.carton.height", "12"), ("contents.carton.grossWeight", "22"), ("contents.carton.board.edgeCrush", "44"),
            ("contents.perLayer", "10"), ("contents.layers", "4"), ("protection.wrapTurns", "3"), ("protection.wrapOverPlatform", "true"), ("protection.cornerBoards", "to-platform"), ("protection.sleeve", "true"),
            ("stackable", "true")),
    ];

    /// <summary>A unit that is over the deck's edge, too heavy and thinly wrapped.</summary>
    public static (string, string)[] Troubled(int line, string reference = "B1") =>
    [
        .. Line(
            line,
            ("reference", reference), ("quantity", "1"), ("grossWeight", "2056"), ("outer.length", "52"), ("outer.width", "48"), ("outer.height", "77 1/2"), ("platform.rating", "2500"),
            ("contents.carton.length", "16"), ("contents.carton.width", "12"), ("contents.carton.height", "12"), ("contents.carton.grossWeight", "28"), ("contents.carton.board.edgeCrush", "32"),
            ("contents.perLayer", "12"), ("contents.layers", "6"), ("protection.wrapTurns", "1"), ("stackable", "true")),
    ];

    private static IEnumerable<(string, string)> Line(int line, params (string Field, string Value)[] fields) =>
        fields.Select(field => ($"handlingUnits[{line}].{field.Field}", field.Value));
}
