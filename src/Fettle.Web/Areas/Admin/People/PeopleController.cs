using Fettle.Web.Areas.Admin.Shared;
using Fettle.Web.Areas.Entrance.Account;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using FluentValidation;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Areas.Admin.People;

/// <summary>Who may sign in, and as what. People are disabled, never deleted: what they did stays theirs.</summary>
[Authorize(Policies.Administrator)]
public sealed class PeopleController(UserDirectory users, IDocumentStore store, TimeProvider time, ILogger<PeopleController> log) : Controller
{
    private const string PersonPath = "/admin/people/{id:guid}";

    [HttpGet("/admin")]
    public IActionResult Start() => RedirectToAction(nameof(Index));

    [HttpGet("/admin/people")]
    public async Task<IActionResult> Index(CancellationToken cancellation)
    {
        var caller = Caller.Of(User);
        var book = await PartyBook.ReadAsync(store, caller, cancellation);
        var people = await users.ListAsync(cancellation);
        return View(people.Where(person => caller.MayManage(person.Rights)).Select(person => Row(person, book)).ToList());
    }

    [HttpGet("/admin/people/add")]
    public async Task<IActionResult> Add(CancellationToken cancellation) =>
        View(new AddPersonPage(await BookAsync(cancellation), new()));

    [HttpPost("/admin/people/add")]
    public async Task<IActionResult> Add(AddPersonForm form, CancellationToken cancellation)
    {
        var book = await BookAsync(cancellation);
        if (!ModelState.Accept(new AddPersonForm.Rules(book).Validate(form)))
            return Again(nameof(Add), new AddPersonPage(book, form));
        var person = new User { UserName = form.UserName!.Trim(), Name = form.Name!.Trim(), Rights = book.Choose(form.Rights)! };
        if (!ModelState.Accept(await users.CreateAsync(person, form.Password!), "Form.UserName", "Form.Password"))
            return Again(nameof(Add), new AddPersonPage(book, form));
        Log("added", person.Id);
        this.Say($"{person.Name} can sign in as {person.UserName}.");
        return RedirectToAction(nameof(Index));
    }

    [HttpGet(PersonPath)]
    public async Task<IActionResult> Person(Guid id, CancellationToken cancellation) =>
        await FindAsync(id) is { } person ? View(Page(person, await BookAsync(cancellation))) : NotFound();

    [HttpPost(PersonPath)]
    public async Task<IActionResult> Person(Guid id, PersonForm form, CancellationToken cancellation)
    {
        if (await FindAsync(id) is not { } person)
            return NotFound();
        var book = await BookAsync(cancellation);
        if (!ModelState.Accept(new PersonForm.Rules(book, person.Rights).Validate(form)))
            return Again(nameof(Person), Page(person, book) with { Form = form });
        person.Name = form.Name!.Trim();
        person.Rights = book.WithParts(person.Rights, form.Parts ?? []) ?? person.Rights;
        // Refused when someone else changed this person since the page was loaded.
        person.Version = form.Version;
        if (!ModelState.Accept(await users.UpdateAsync(person), "Form.Name", "Form.Name"))
            return Again(nameof(Person), Page((await FindAsync(id))!, book) with { Form = form });
        Log("changed", id);
        return Done(id, $"{person.Name} is changed. Where they are signed in, it counts within a minute.");
    }

    [HttpPost(PersonPath + "/password")]
    public async Task<IActionResult> Password(Guid id, [Bind(Prefix = "PasswordForm")] NewPasswordForm form, CancellationToken cancellation)
    {
        if (await FindAsync(id) is not { } person)
            return NotFound();
        if (!ModelState.Accept(new NewPasswordForm.Rules().Validate(form), "PasswordForm")
            || !ModelState.Accept(await users.SetPasswordAsync(person, form.NewPassword!), "", "PasswordForm.NewPassword"))
            return Again(nameof(Person), Page(person, await BookAsync(cancellation)));
        Log("gave a new password to", id);
        return Done(id, $"{person.Name} has a new password. Tell it to nobody but them; they can change it under their name.");
    }

    [HttpPost(PersonPath + "/unlock")]
    public Task<IActionResult> Unlock(Guid id) => ChangeAsync(id, "unlocked", users.UnlockAsync, person => $"{person.Name} can try to sign in again.");

    [HttpPost(PersonPath + "/enable")]
    public Task<IActionResult> Enable(Guid id) => ChangeAsync(id, "enabled", users.EnableAsync, person => $"{person.Name} can sign in again.");

    [HttpPost(PersonPath + "/disable")]
    public async Task<IActionResult> Disable(Guid id)
    {
        if (id == Caller.Of(User).Id)
            return Done(id, "You cannot disable yourself: ask another administrator.");
        return await ChangeAsync(id, "disabled", users.DisableAsync, person => $"{person.Name} can no longer sign in, and is signed out within a minute.");
    }

    private async Task<IActionResult> ChangeAsync(Guid id, string did, Func<User, Task<IdentityResult>> change, Func<User, string> sentence)
    {
        if (await FindAsync(id) is not { } person)
            return NotFound();
        var result = await change(person);
        if (result.Succeeded)
            Log(did, id);
        return Done(id, result.Succeeded ? sentence(person) : "Someone else changed this person at the same moment. Look again, then repeat your change.");
    }

    /// <summary>Null as well when the caller may not manage this person.</summary>
    private async Task<User?> FindAsync(Guid id) =>
        await users.FindAsync(id) is { } person && Caller.Of(User).MayManage(person.Rights) ? person : null;

    private Task<PartyBook> BookAsync(CancellationToken cancellation) => PartyBook.ReadAsync(store, Caller.Of(User), cancellation);

    private PersonRow Row(User person, PartyBook book) => new(
        person.Id,
        person.Name,
        person.UserName,
        person.Rights.Role,
        book.Describe(person.Rights),
        person.Disabled,
        person.LockoutEnd > time.GetUtcNow() ? person.LockoutEnd : null);

    private PersonPage Page(User person, PartyBook book) => new(
        Row(person, book),
        person.Id == Caller.Of(User).Id,
        [.. book.Parts(person.Rights).Select(part => new PersonPart(Guid.Parse(part.Value), part.Text))],
        new(person.Name, [.. book.Parts(person.Rights).Where(part => part.Selected).Select(part => Guid.Parse(part.Value))], person.Version));

    private ViewResult Again(string view, object page)
    {
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return View(view, page);
    }

    private void Log(string did, Guid person) => log.LogInformation("Administrator {Administrator} {Did} {Person}", Caller.Of(User).Id, did, person);

    private RedirectToActionResult Done(Guid id, string sentence)
    {
        this.Say(sentence);
        return RedirectToAction(nameof(Person), new { id });
    }
}

/// <param name="Where">Whose freight, in words.</param>
/// <param name="LockedUntil">Null unless too many wrong passwords were tried.</param>
public sealed record PersonRow(Guid Id, string Name, string UserName, Role Role, string Where, bool Disabled, DateTimeOffset? LockedUntil);

public sealed record AddPersonPage(PartyBook Book, AddPersonForm Form);

/// <param name="Parts">The docks, terminals or shippers that could be theirs.</param>
public sealed record PersonPage(PersonRow Person, bool Myself, IReadOnlyList<PersonPart> Parts, PersonForm Form)
{
    /// <summary>Always empty: passwords are not shown again.</summary>
    public NewPasswordForm PasswordForm { get; } = new();

    /// <summary>What the parts are.</summary>
    public string PartsLegend => Person.Role switch
    {
        Role.ShipperClerk => "Docks they declare from",
        Role.TerminalReviewer => "Terminals they decide for",
        Role.AccountManager => "Shippers they look after",
        Role.Administrator => "",
    };
}

public sealed record PersonPart(Guid Id, string Name);

public sealed record AddPersonForm(string? Name = null, string? UserName = null, string? Password = null)
{
    public const int LongestUserName = 254;

    public RightsForm Rights { get; init; } = new();

    public sealed class Rules : AbstractValidator<AddPersonForm>
    {
        public Rules(PartyBook book)
        {
            RuleFor(form => form.Name).PersonName();
            RuleFor(form => form.UserName).Cascade(CascadeMode.Stop)
                .NotEmpty().WithMessage("Enter the e-mail address they sign in with.")
                .MaximumLength(LongestUserName).WithMessage($"Use at most {LongestUserName} characters.")
                .EmailAddress().WithMessage("This is not an e-mail address.")
                .Must(UnitFormValidator.ReadableText).WithMessage("This is not an e-mail address.");
            RuleFor(form => form.Password).NewPassword();
            RuleFor(form => form.Rights).SetValidator(new RightsForm.Rules(book));
        }
    }
}

/// <param name="Version">As the page was loaded.</param>
public sealed record PersonForm(string? Name = null, IReadOnlyList<Guid>? Parts = null, Guid Version = default)
{
    public sealed class Rules : AbstractValidator<PersonForm>
    {
        public Rules(PartyBook book, Rights rights)
        {
            RuleFor(form => form.Name).PersonName();
            RuleFor(form => form.Parts)
                .Must(parts => book.WithParts(rights, parts ?? []) is not null).WithMessage("Choose at least one.")
                .When(_ => rights.Role != Role.Administrator);
        }
    }
}

public sealed record NewPasswordForm(string? NewPassword = null)
{
    public sealed class Rules : AbstractValidator<NewPasswordForm>
    {
        public Rules() => RuleFor(form => form.NewPassword).NewPassword();
    }
}
