using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Fettle.Web.Areas.Shared;

/// <summary>
/// Puts the form token into every form that posts to a written-out address; the framework does so by itself only where
/// the address is put together from an action's name.
/// </summary>
[HtmlTargetElement("form", Attributes = "[method=post],action")]
public sealed class PostFormTagHelper(IHtmlGenerator generator) : TagHelper
{
    [ViewContext]
    [HtmlAttributeNotBound]
    public required ViewContext ViewContext { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        if (!context.AllAttributes.ContainsName("asp-antiforgery"))
            output.PostContent.AppendHtml(generator.GenerateAntiforgery(ViewContext));
    }
}
