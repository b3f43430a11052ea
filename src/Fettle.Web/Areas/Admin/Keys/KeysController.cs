using Fettle.Web.Areas.Admin.Shared;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using FluentValidation;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Areas.Admin.Keys;

/// <summary>API keys: what machines sign in with. A key is shown once, when it is issued.</summary>
[Authorize(Policies.Administrator)]
public sealed class KeysController(ApiKeys keys, IDocumentStore store) : Controller
{
    [HttpGet("/admin/api-keys")]
    public async Task<IActionResult> Index(CancellationToken cancellation)
    {
        var caller = Caller.Of(User);
        var book = await PartyBook.ReadAsync(store, caller, cancellation);
        var all = await keys.ListAsync(cancellation);
        return View(all.Where(entry => caller.MayManage(entry.Key.Rights))
            .OrderBy(entry => entry.Key.RevokedAt is not null)
            .Select(entry => Row(entry.Key, entry.LastUsedAt, book)).ToList());
    }

    [HttpGet("/admin/api-keys/add")]
    public async Task<IActionResult> Add(CancellationToken cancellation) =>
        View(new IssueKeyPage(await BookAsync(cancellation), new()));

    /// <summary>Answers with the key itself and no redirect: it is in no address, no cookie and no store.</summary>
    [HttpPost("/admin/api-keys/add")]
    public async Task<IActionResult> Add(IssueKeyForm form, CancellationToken cancellation)
    {
        var book = await BookAsync(cancellation);
        if (!ModelState.Accept(new IssueKeyForm.Rules(book).Validate(form)))
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View(new IssueKeyPage(book, form));
        }

        var issued = await keys.IssueAsync(form.Name!.Trim(), book.Choose(form.Rights)!, Caller.Of(User).Actor, cancellation);
        Response.Headers.CacheControl = "no-store";
        return View("Issued", new IssuedKeyPage(Row(issued.Key, null, book), issued.Plain));
    }

    [HttpPost("/admin/api-keys/{id:guid}/revoke")]
    public async Task<IActionResult> Revoke(Guid id, CancellationToken cancellation)
    {
        var caller = Caller.Of(User);
        if ((await keys.ListAsync(cancellation)).FirstOrDefault(entry => entry.Key.Id == id).Key is not { } key || !caller.MayManage(key.Rights))
            return NotFound();
        await keys.RevokeAsync(id, caller.Actor, cancellation);
        this.Say($"The key \"{key.Name}\" no longer works.");
        return RedirectToAction(nameof(Index));
    }

    private Task<PartyBook> BookAsync(CancellationToken cancellation) => PartyBook.ReadAsync(store, Caller.Of(User), cancellation);

    private static KeyRow Row(ApiKey key, DateTimeOffset? lastUsedAt, PartyBook book) => new(
        key.Id, key.Name, key.Prefix, key.Rights.Role, book.Describe(key.Rights), key.CreatedBy.Name, key.CreatedAt, lastUsedAt, key.RevokedAt, key.RevokedBy?.Name);
}

public sealed record KeyRow(
    Guid Id, string Name, string Prefix, Role Role, string Where, string CreatedBy, DateTimeOffset CreatedAt, DateTimeOffset? LastUsedAt, DateTimeOffset? RevokedAt, string? RevokedBy);

public sealed record IssueKeyPage(PartyBook Book, IssueKeyForm Form);

public sealed record IssuedKeyPage(KeyRow Key, string Plain);

public sealed record IssueKeyForm(string? Name = null)
{
    private const int LongestName = 80;

    public RightsForm Rights { get; init; } = new();

    public sealed class Rules : AbstractValidator<IssueKeyForm>
    {
        public Rules(PartyBook book)
        {
            RuleFor(form => form.Name).Cascade(CascadeMode.Stop)
                .NotEmpty().WithMessage("Say which system uses it; it is named beside what that system does.")
                .MaximumLength(LongestName).WithMessage($"Use at most {LongestName} characters.")
                .Must(UnitFormValidator.ReadableText).WithMessage("Letters, digits and ordinary signs only.");
            RuleFor(form => form.Rights).SetValidator(new RightsForm.Rules(book));
        }
    }
}
