using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Security;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Catalogue;

[Route("api/v1/catalogue")]
[Authorize(Policies.ShipperClerk)]
public sealed class CatalogueController(CatalogueDesk desk, IDocumentStore store, Idempotency idempotency) : ApiController
{
    /// <summary>The shipper's own cartons, retired ones included.</summary>
    /// <param name="units">"imperial" or "metric"; "imperial" when left out.</param>
    [HttpGet("cartons")]
    [ProducesResponseType<CataloguedCartonsAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    public async Task<IActionResult> Cartons(CancellationToken cancel, string? units = null) => UnitsOf(units) is { } system
        ? Ok(new CataloguedCartonsAnswer([.. (await ListAsync(CatalogueKind.Carton, cancel)).Select(entry => CataloguedCartonAnswer.Of(entry, system))]))
        : WrongUnits();

    /// <summary>Keeps a carton under a name of the shipper's own.</summary>
    [HttpPost("cartons")]
    [Idempotent]
    [ProducesResponseType<CataloguedCartonAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> AddCarton(NewCartonJson request, CancellationToken cancel)
    {
        var (units, errors) = Begin(request.Units, request.Name);
        var found = new Dictionary<string, string>(StringComparer.Ordinal);
        var carton = Reading.Carton(CartonJson.Form(request.Carton, units == UnitSystem.Metric), units, found);
        Under("carton.", found, errors);
        return errors.Count > 0 || carton is null
            ? Answers.Unreadable(errors)
            : await KeepAsync(desk.Carton(request.Name!, carton, Caller), entry => CataloguedCartonAnswer.Of(entry, units), "cartons", cancel);
    }

    /// <summary>The shipper's own platforms, retired ones included.</summary>
    /// <param name="units">"imperial" or "metric"; "imperial" when left out.</param>
    [HttpGet("platforms")]
    [ProducesResponseType<CataloguedPlatformsAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    public async Task<IActionResult> Platforms(CancellationToken cancel, string? units = null) => UnitsOf(units) is { } system
        ? Ok(new CataloguedPlatformsAnswer([.. (await ListAsync(CatalogueKind.Platform, cancel)).Select(entry => CataloguedPlatformAnswer.Of(entry, system))]))
        : WrongUnits();

    /// <summary>Keeps a platform under a name of the shipper's own.</summary>
    [HttpPost("platforms")]
    [Idempotent]
    [ProducesResponseType<CataloguedPlatformAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> AddPlatform(NewPlatformJson request, CancellationToken cancel)
    {
        var (units, errors) = Begin(request.Units, request.Name);
        var found = new Dictionary<string, string>(StringComparer.Ordinal);
        var platform = Reading.Platform(new UnitJson { Platform = request.Platform ?? new(null, null, null, null, null, null) }.Form(units == UnitSystem.Metric).Platform, units, found);
        Under("platform.", found, errors);
        return errors.Count > 0 || platform is null
            ? Answers.Unreadable(errors)
            : await KeepAsync(desk.Platform(request.Name!, platform, Caller), entry => CataloguedPlatformAnswer.Of(entry, units), "platforms", cancel);
    }

    /// <summary>The shipper's standard builds, retired ones included, and whether they still pass the rules of the carriers that they are used with.</summary>
    /// <param name="units">"imperial" or "metric"; "imperial" when left out.</param>
    [HttpGet("builds")]
    [ProducesResponseType<CataloguedBuildsAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    public async Task<IActionResult> Builds(CancellationToken cancel, string? units = null) => UnitsOf(units) is { } system
        ? Ok(new CataloguedBuildsAnswer([.. (await ListAsync(CatalogueKind.Build, cancel)).Select(entry => CataloguedBuildAnswer.Of(entry, system))]))
        : WrongUnits();

    /// <summary>Checks a unit and keeps it as a standard build. What would be held is not kept (422).</summary>
    [HttpPost("builds")]
    [Idempotent]
    [ProducesResponseType<CataloguedBuildAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status422UnprocessableEntity, AsProblem)]
    public async Task<IActionResult> AddBuild(NewBuildJson request, CancellationToken cancel)
    {
        var (units, errors) = Begin(request.Units, request.Name);
        var form = new CheckJson(request.Units, request.Lane, true, request.HandlingUnit is null ? null : [request.HandlingUnit with { Reference = request.HandlingUnit.Reference ?? "A1" }]).Form();
        form.Site = request.Site;
        form.Terminal = request.Terminal;
        var reading = Reading.Of(form);
        foreach (var (field, message) in reading.FreightErrors)
            errors.TryAdd(field.Replace("handlingUnits[0]", "handlingUnit", StringComparison.Ordinal), message);
        if (request.HandlingUnit is null)
            errors["handlingUnit"] = "Give the handling unit to keep.";
        await using var session = store.QuerySession();
        var shipper = await session.LoadAsync<Shipper>(Caller.Rights.ShipperId!.Value, cancel);
        var terminal = Heading.TerminalOf(form, await session.Query<Carrier>().ToListAsync(cancel));
        if (terminal is null && !string.IsNullOrWhiteSpace(request.Terminal))
            errors["terminal"] = "There is no such terminal.";
        var site = string.IsNullOrWhiteSpace(request.Site) ? Caller.Rights.SiteIds[0] : Heading.SiteOf(form, shipper!, Caller.Rights.SiteIds)?.Id;
        if (site is null)
            errors["site"] = "Choose one of your sites.";
        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        var (entry, refusal) = await desk.BuildAsync(request.Name!, reading.Lines[0]!, reading.Lane!, reading.Units, terminal?.Carrier.Id, site!.Value, Caller, cancel);
        return refusal is not null
            ? Answers.Refused(refusal)
            : await KeepAsync(entry!, kept => CataloguedBuildAnswer.Of(kept, units), "builds", cancel);
    }

    private async Task<IActionResult> KeepAsync(CatalogueEntry entry, Func<CatalogueEntry, object> answerOf, string kind, CancellationToken cancel)
    {
        var answer = answerOf(entry);
        var location = $"/api/v1/catalogue/{kind}";
        return await desk.AddAsync(entry, session => idempotency.Remember(session, StatusCodes.Status201Created, answer, location), cancel) is { } refusal
            ? Answers.Refused(refusal)
            : Created(location, answer);
    }

    private async Task<IEnumerable<CatalogueEntry>> ListAsync(CatalogueKind kind, CancellationToken cancel) =>
        (await desk.ListAsync(Caller.Rights.ShipperId!.Value, cancel)).Where(entry => entry.Kind == kind);

    private static (UnitSystem Units, Dictionary<string, string> Errors) Begin(string? units, string? name)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        if (UnitsOf(units) is null)
            errors["units"] = UnitsSentence;
        if (CatalogueName.Complaint(name) is { } complaint)
            errors["name"] = complaint;
        return (UnitsOf(units) ?? UnitSystem.Imperial, errors);
    }

    private const string UnitsSentence = "Choose \"imperial\" or \"metric\".";

    private static ObjectResult WrongUnits() => Answers.Unreadable([new("units", UnitsSentence)]);

    private static UnitSystem? UnitsOf(string? units) => units is null ? UnitSystem.Imperial : Wording.Parse<UnitSystem>(units);

    private static void Under(string part, Dictionary<string, string> found, Dictionary<string, string> errors)
    {
        foreach (var (field, message) in found)
            errors.TryAdd(part + field, message);
    }
}

/// <param name="Units">"imperial" or "metric"; "imperial" when left out.</param>
/// <param name="Name">Unique among the shipper's cartons, at most 60 characters.</param>
public sealed record NewCartonJson(string? Units, string? Name, CartonJson? Carton);

/// <param name="Units">"imperial" or "metric"; "imperial" when left out.</param>
/// <param name="Name">Unique among the shipper's platforms, at most 60 characters.</param>
public sealed record NewPlatformJson(string? Units, string? Name, PlatformJson? Platform);

/// <param name="Units">"imperial" or "metric"; "imperial" when left out.</param>
/// <param name="Name">Unique among the shipper's builds, at most 60 characters.</param>
/// <param name="Lane">The way that it is checked for.</param>
/// <param name="Terminal">Id or name of a terminal whose carrier's rules judge it; left out: the common rules.</param>
/// <param name="Site">Id or name of the dock that is told when it no longer passes; the first of the caller's when left out.</param>
public sealed record NewBuildJson(string? Units, string? Name, LaneJson? Lane, UnitJson? HandlingUnit, string? Terminal = null, string? Site = null);

public sealed record CataloguedCartonsAnswer(IReadOnlyList<CataloguedCartonAnswer> Cartons);

/// <param name="RetiredAt">When it was retired; null while it is offered.</param>
public sealed record CataloguedCartonAnswer(Guid Id, string Name, CartonJson Carton, DateTimeOffset? RetiredAt)
{
    public static CataloguedCartonAnswer Of(CatalogueEntry entry, UnitSystem units) => new(entry.Id, entry.Name, CartonJson.Of(entry.Carton!, units), entry.RetiredAt);
}

public sealed record CataloguedPlatformsAnswer(IReadOnlyList<CataloguedPlatformAnswer> Platforms);

/// <param name="RetiredAt">When it was retired; null while it is offered.</param>
public sealed record CataloguedPlatformAnswer(Guid Id, string Name, PlatformJson Platform, DateTimeOffset? RetiredAt)
{
    public static CataloguedPlatformAnswer Of(CatalogueEntry entry, UnitSystem units) => new(entry.Id, entry.Name, PlatformJson.Of(entry.Platform!, units), entry.RetiredAt);
}

public sealed record CataloguedBuildsAnswer(IReadOnlyList<CataloguedBuildAnswer> Builds);

/// <param name="Passes">False when a carrier that it is used with would hold it now.</param>
/// <param name="RetiredAt">When it was retired; null while it is offered.</param>
public sealed record CataloguedBuildAnswer(Guid Id, string Name, UnitJson HandlingUnit, LaneJson Lane, bool Passes, IReadOnlyList<BuildJudgementAnswer> Judgements, DateTimeOffset? RetiredAt)
{
    public static CataloguedBuildAnswer Of(CatalogueEntry entry, UnitSystem units) => new(
        entry.Id,
        entry.Name,
        UnitJson.Of(entry.Build!.Unit, units),
        new(entry.Build.Lane.Miles, entry.Build.Lane.Transfers, entry.Build.Lane.CrossBorder, entry.Build.Lane.Liftgate, entry.Build.Lane.NoDock),
        entry.Build.Passes,
        [.. entry.Build.Judgements.Select(judgement => new BuildJudgementAnswer(judgement.CarrierId, judgement.RuleSet, judgement.Verdict.Word(), [.. judgement.Findings.Select(finding => FindingAnswer.Of(finding, units))], judgement.At))],
        entry.RetiredAt);
}

/// <param name="CarrierId">Whose rules judged; null for the common ones.</param>
/// <param name="Verdict">"ready", "ready-with-cautions" or "hold".</param>
public sealed record BuildJudgementAnswer(Guid? CarrierId, RuleSetVersion RuleSet, string Verdict, IReadOnlyList<FindingAnswer> Findings, DateTimeOffset At);
