using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.DockVisits;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Areas.Shipper.BuildSheets;
using Fettle.Web.BuildSheets;
using Fettle.Web.Catalogue;
using Fettle.Web.Declarations;
using Fettle.Web.DockVisits;
using Fettle.Web.Drawings;
using Fettle.Web.Identity;
using Fettle.Web.Papers;
using Fettle.Web.Security;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using ShipperParty = Fettle.Web.Parties.Shipper;

namespace Fettle.Web.Areas.Shipper.Catalogue;

/// <summary>A shipper's own cartons, pallets and standard builds.</summary>
[Authorize(Policies.ShipperClerk)]
[Route("catalogue")]
public sealed class CatalogueController(CatalogueDesk desk, IDocumentStore store) : Controller
{
    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel) => View(await PageAsync(null, cancel));

    [HttpGet("cartons/add")]
    public IActionResult AddCarton() => View(new CartonPage(new()));

    [HttpPost("cartons/add")]
    public async Task<IActionResult> AddCarton(NewCartonForm form, CancellationToken cancel)
    {
        var errors = Complaints(form.Name);
        var carton = Reading.Carton(form.Carton, UnitsOf(form.Units), errors);
        if (errors.Count == 0)
            Refused(errors, await desk.AddAsync(desk.Carton(form.Name!, carton!, Caller), null, cancel));
        return Done(errors, "Carton.", form.Name, () => View(new CartonPage(form)));
    }

    [HttpGet("platforms/add")]
    public IActionResult AddPlatform() => View(new PlatformPage(new() { Platform = { Length = "48", Width = "40", Height = "5.5", Tare = "40", Material = "wood" } }));

    [HttpPost("platforms/add")]
    public async Task<IActionResult> AddPlatform(NewPlatformForm form, CancellationToken cancel)
    {
        var errors = Complaints(form.Name);
        var platform = Reading.Platform(form.Platform, UnitsOf(form.Units), errors);
        if (errors.Count == 0)
            Refused(errors, await desk.AddAsync(desk.Platform(form.Name!, platform!, Caller), null, cancel));
        return Done(errors, "Platform.", form.Name, () => View(new PlatformPage(form)));
    }

    [HttpPost("{id:guid}/name")]
    public async Task<IActionResult> Rename(Guid id, string? name, Guid version, CancellationToken cancel)
    {
        if (await desk.FindAsync(id, Caller, cancel) is null)
            return NotFound();
        if (CatalogueName.Complaint(name) is { } complaint)
            return await NotRenamedAsync(id, name, complaint, cancel);
        var (entry, refusal) = await desk.ChangeAsync(id, version, Caller, (it, _) => it.Name = name!.Trim(), cancel);
        if (entry is null)
            return NotFound();
        if (refusal is not null)
            return await NotRenamedAsync(id, name, refusal.Message.Say(UnitSystem.Imperial), cancel);
        this.Say(T("It is called {0} now.", entry.Name));
        return Redirect("/catalogue");
    }

    [HttpPost("{id:guid}/retire")]
    public Task<IActionResult> Retire(Guid id, Guid version, CancellationToken cancel) =>
        ChangeAsync(id, version, (entry, now) => entry.RetiredAt ??= now, name => T("{0} is retired. It is no longer offered; what was declared with it stays as it is.", name), cancel);

    [HttpPost("{id:guid}/return")]
    public Task<IActionResult> Return(Guid id, Guid version, CancellationToken cancel) =>
        ChangeAsync(id, version, (entry, _) => entry.RetiredAt = null, name => T("{0} is offered again.", name), cancel);

    [HttpGet("{id:guid}/build-sheet")]
    public async Task<IActionResult> BuildSheet(Guid id, string? paper, CancellationToken cancel) => await SheetAsync(id, cancel) is { } sheet
        ? View("BuildSheet", new BuildSheetPage(sheet, $"/catalogue/{id}/build-sheet", Wording.Parse<Paper>(paper) ?? Paper.Letter, "/catalogue", "Catalogue"))
        : NotFound();

    [HttpGet("{id:guid}/build-sheet.pdf")]
    public async Task<IActionResult> BuildSheetPdf(Guid id, string? paper, CancellationToken cancel) => await SheetAsync(id, cancel) is { } sheet
        ? File(SheetPdf.Write([sheet], Wording.Parse<Paper>(paper) ?? Paper.Letter), SheetPdf.ContentType)
        : NotFound();

    private async Task<BuildSheet?> SheetAsync(Guid id, CancellationToken cancel)
    {
        if (await desk.FindAsync(id, Caller, cancel) is not { Build: { } build } entry)
            return null;
        await using var session = store.QuerySession();
        var shipper = await session.LoadAsync<ShipperParty>(entry.ShipperId, cancel);
        var judged = build.Against ?? build.Judgements[^1];
        return Web.BuildSheets.BuildSheet.For(
            build.Unit, entry.Name, words => words.OfCatalogue(shipper!.Name), judged.Findings, judged.RuleSet, UnitSystem.Imperial, CultureInfo.CurrentUICulture, DrawingOptions.ForMail);
    }

    private async Task<IActionResult> ChangeAsync(Guid id, Guid version, Action<CatalogueEntry, DateTimeOffset> change, Func<string, string> said, CancellationToken cancel)
    {
        var (entry, refusal) = await desk.ChangeAsync(id, version, Caller, change, cancel);
        if (entry is null)
            return NotFound();
        this.Say(refusal?.Message.Say(UnitSystem.Imperial) ?? said(entry.Name));
        return Redirect("/catalogue");
    }

    private async Task<IActionResult> NotRenamedAsync(Guid id, string? name, string why, CancellationToken cancel)
    {
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        // What was typed is shown again, not what the routing read.
        ModelState.Clear();
        return View("Index", await PageAsync(new(id, name, why), cancel));
    }

    private async Task<CataloguePage> PageAsync(NotRenamed? notRenamed, CancellationToken cancel)
    {
        var shipper = Caller.Rights.ShipperId!.Value;
        await using var session = store.QuerySession();
        return new(await desk.ListAsync(shipper, cancel), notRenamed) { Approvals = await DockVisitList.ApprovalsAsync(session, shipper, cancel) };
    }

    /// <summary>To the list, or back to the form with what is wrong at its fields.</summary>
    private IActionResult Done(Dictionary<string, string> errors, string part, string? name, Func<IActionResult> form)
    {
        if (errors.Count == 0)
        {
            this.Say(T("{0} is in your catalogue.", name!.Trim()));
            return Redirect("/catalogue");
        }

        foreach (var (field, message) in errors)
            ModelState.AddModelError(field == nameof(NewCartonForm.Name) ? $"Form.{field}" : $"Form.{part}{field}", message);
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return form();
    }

    private static Dictionary<string, string> Complaints(string? name)
    {
        // The names of the properties and of the form's JSON differ by case alone.
        var errors = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        if (CatalogueName.Complaint(name) is { } complaint)
            errors[nameof(NewCartonForm.Name)] = complaint;
        return errors;
    }

    private static void Refused(Dictionary<string, string> errors, Refusal? refusal)
    {
        if (refusal is not null)
            errors[nameof(NewCartonForm.Name)] = refusal.Message.Say(UnitSystem.Imperial);
    }

    private static UnitSystem UnitsOf(string? units) => Wording.Parse<UnitSystem>(units) ?? UnitSystem.Imperial;
}

public sealed record CataloguePage(IReadOnlyList<CatalogueEntry> Entries, NotRenamed? NotRenamed)
{
    /// <summary>What carriers' people said about the builds when they saw them.</summary>
    public IReadOnlyList<BuildApproval> Approvals { get; init; } = [];

    public IReadOnlyList<CatalogueEntry> Offered(CatalogueKind kind) => [.. Entries.Where(entry => entry.Kind == kind && !entry.IsRetired)];

    public IReadOnlyList<CatalogueEntry> Retired => [.. Entries.Where(entry => entry.IsRetired)];

    public IReadOnlyList<CatalogueEntry> Failing => [.. Offered(CatalogueKind.Build).Where(entry => !entry.Passes)];
}

/// <summary>The name as it was typed, with what is wrong.</summary>
public sealed record NotRenamed(Guid Id, string? Name, string Why);

public sealed record EntryView(CatalogueEntry Entry, NotRenamed? NotRenamed);

public sealed record CartonPage(NewCartonForm Form);

public sealed record PlatformPage(NewPlatformForm Form);

public sealed record NewCartonForm
{
    public string? Name { get; set; }

    public string? Units { get; set; }

    public CartonForm Carton { get; set; } = new();
}

public sealed record NewPlatformForm
{
    public string? Name { get; set; }

    public string? Units { get; set; }

    public PlatformForm Platform { get; set; } = new();
}
