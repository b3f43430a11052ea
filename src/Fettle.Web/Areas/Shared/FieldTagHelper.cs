using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Fettle.Web.Areas.Shared;

/// <summary>
/// One field of a form: label, hint, control and, when the form came back, what is wrong, all tied together for screen
/// readers. The control goes inside:
/// <code>
/// &lt;field for="Form.Length" label="Length" unit="in" hint="Outermost, wrap included"&gt;&lt;input asp-for="Form.Length" inputmode="decimal" /&gt;&lt;/field&gt;
/// </code>
/// </summary>
[HtmlTargetElement("field")]
public sealed class FieldTagHelper : TagHelper
{
    public required ModelExpression For { get; set; }

    public required string Label { get; set; }

    /// <summary>What is meant, or where to find it; before the control, so that it is read before typing.</summary>
    public string? Hint { get; set; }

    /// <summary>Written behind the control: "in", "lb".</summary>
    public string? Unit { get; set; }

    /// <summary>Says "optional" beside the label; fields without are required.</summary>
    public bool Optional { get; set; }

    [ViewContext]
    [HtmlAttributeNotBound]
    public required ViewContext ViewContext { get; set; }

    public override void Init(TagHelperContext context)
    {
        var name = ViewContext.ViewData.TemplateInfo.GetFullHtmlFieldName(For.Name);
        var error = ViewContext.ViewData.ModelState.TryGetValue(name, out var entry) && entry.Errors.Count > 0 ? Message(entry.Errors[0]) : null;
        context.Items[typeof(Field)] = new Field(TagBuilder.CreateSanitizedId(name, "_"), Hint, error);
    }

    public override async Task ProcessAsync(TagHelperContext context, TagHelperOutput output)
    {
        var field = (Field)context.Items[typeof(Field)];
        var control = await output.GetChildContentAsync();

        output.TagName = "div";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", string.Join(' ', Classes(output, field)));

        var label = new TagBuilder("label") { Attributes = { ["class"] = "field__label", ["for"] = field.Id } };
        label.InnerHtml.Append(T(Label));
        if (Optional)
            label.InnerHtml.AppendHtml(" <span class=\"field__optional\">").Append(T("optional")).AppendHtml("</span>");
        output.Content.AppendHtml(label);
        if (Hint is not null)
            output.Content.AppendHtml(Text("field__hint", field.HintId, T(Hint)));
        if (Unit is null)
            output.Content.AppendHtml(control);
        else
        {
            var measured = new TagBuilder("div") { Attributes = { ["class"] = "field__measured" } };
            measured.InnerHtml.AppendHtml(control).AppendHtml(Text("field__unit", null, T(Unit), "span"));
            output.Content.AppendHtml(measured);
        }

        if (field.Error is not null)
            output.Content.AppendHtml(Text("field__error", field.ErrorId, field.Error));
    }

    private static IEnumerable<string> Classes(TagHelperOutput output, Field field)
    {
        yield return "field";
        if (field.Error is not null)
            yield return "field--wrong";
        if (output.Attributes["class"]?.Value?.ToString() is { Length: > 0 } given)
            yield return given;
    }

    private static TagBuilder Text(string style, string? id, string text, string element = "p")
    {
        var tag = new TagBuilder(element) { Attributes = { ["class"] = style } };
        if (id is not null)
            tag.Attributes["id"] = id;
        tag.InnerHtml.Append(text);
        return tag;
    }

    private static string Message(ModelError error) => error.ErrorMessage.Length > 0 ? error.ErrorMessage : T("This cannot be read here.");
}

/// <summary>Ties a control inside a <c>field</c> to its hint and error.</summary>
[HtmlTargetElement("input", Attributes = "asp-for")]
[HtmlTargetElement("select", Attributes = "asp-for")]
[HtmlTargetElement("textarea", Attributes = "asp-for")]
public sealed class ControlTagHelper : TagHelper
{
    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        if (!context.Items.TryGetValue(typeof(Field), out var item) || item is not Field field)
            return;
        var describedBy = string.Join(' ', field.DescribedBy);
        if (describedBy.Length > 0)
            output.Attributes.SetAttribute("aria-describedby", describedBy);
        if (field.Error is not null)
            output.Attributes.SetAttribute("aria-invalid", "true");
    }
}

internal sealed record Field(string Id, string? Hint, string? Error)
{
    public string HintId => $"{Id}-hint";

    public string ErrorId => $"{Id}-error";

    public IEnumerable<string> DescribedBy
    {
        get
        {
            if (Error is not null)
                yield return ErrorId;
            if (Hint is not null)
                yield return HintId;
        }
    }
}
