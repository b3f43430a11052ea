using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;

namespace Fettle.Web.Areas;

/// <summary>
/// Keeps from an action what the framework could not read as a form at all, as when it breaks off in the middle: the action
/// would get nothing where it takes a form. Answers 400, or what that stands for (see the page of troubles).
/// </summary>
public sealed class UnreadableForm : IActionFilter
{
    public void OnActionExecuting(ActionExecutingContext context)
    {
        // Told without a field's name; every other complaint before the action has one.
        if (context.HttpContext.Request.HasFormContentType && context.ModelState.TryGetValue("", out var whole) && whole.Errors.Count > 0)
            context.Result = new BadRequestResult();
    }

    public void OnActionExecuted(ActionExecutedContext context)
    {
    }
}
