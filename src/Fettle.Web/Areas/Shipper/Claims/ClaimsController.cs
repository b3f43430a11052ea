using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Pickups;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Claims;
using Fettle.Web.Declarations;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Shipper.Claims;

/// <summary>Claims: the shipper files, takes an offer or withdraws, the carrier answers, and both read one record.</summary>
public sealed class ClaimsController(IDocumentStore store, TimeProvider clock, ClaimDesk desk) : Controller
{
    private Caller Caller => Caller.Of(User);

    [HttpGet("claims")]
    public async Task<IActionResult> Index(CancellationToken cancel, bool all = false)
    {
        await using var session = store.QuerySession();
        var claims = await ClaimList.OfAsync(session, Caller, onlyOpen: !all, cancel);
        var names = (await session.LoadManyAsync<Fettle.Web.Parties.Shipper>(cancel, [.. claims.Select(row => row.Pickup.Header.ShipperId).Distinct()])).ToDictionary(shipper => shipper.Id, shipper => shipper.Name);
        return View(new ClaimListPage(claims, names, all, Caller.Role == Role.ShipperClerk, DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime)));
    }

    [HttpGet("pickups/{id:guid}/claims/new")]
    [Authorize(Policies.ShipperClerk)]
    public async Task<IActionResult> New(Guid id, CancellationToken cancel)
    {
        if (await LoadAsync(id, cancel) is not { } pickup)
            return NotFound();
        return View(pickup with { Form = FormOf(pickup.Pickup) });
    }

    [HttpPost("pickups/{id:guid}/claims")]
    [Authorize(Policies.ShipperClerk)]
    public async Task<IActionResult> New(Guid id, ClaimForm form, CancellationToken cancel)
    {
        if (await LoadAsync(id, cancel) is not { } page)
            return NotFound();
        page = page with { Form = form };
        // The page has a row for each harmed line; what has another shape did not come from it.
        if (form.ClaimId == Guid.Empty || form.Lines.Count > page.Pickup.Declaration.HandlingUnits.Count || form.Lines.Contains(null!))
            return BadRequest();
        var reading = ClaimReading.Of(form);
        foreach (var (field, message) in reading.Errors)
            ModelState.AddModelError($"Form.{field}", message);
        if (!ModelState.IsValid)
            return Again(page);
        var command = new FileClaim(form.ClaimId, Draft.NewNumber('C'), form.OutcomeId, default, reading.Lines, form.Grounds!, new(), Caller.Actor, clock.GetUtcNow());
        var decision = await desk.FileAsync(page.Pickup, command, null, cancel);
        switch (decision.Refusal)
        {
            case null:
                this.Say(T("Filed. The carrier is told by mail."));
                return Redirect($"/pickups/{id}/claims/{form.ClaimId}");
            case MoreThanHarmed more:
                ModelState.AddModelError($"Form.Lines[{Math.Max(0, form.Lines.FindIndex(line => line.Reference == more.Reference))}].Count", Say(more));
                return Again(page);
            case DeliveryChanged changed:
                // What was typed stays; the page now shows the record that stands.
                Response.StatusCode = StatusCodes.Status409Conflict;
                ModelState.Clear();
                var now = (await LoadAsync(id, cancel))!;
                var fresh = FormOf(now.Pickup);
                fresh.ClaimId = form.ClaimId;
                fresh.Grounds = form.Grounds;
                foreach (var line in fresh.Lines)
                {
                    if (form.Lines.Find(typed => typed.Reference == line.Reference) is { } typed)
                        (line.Count, line.Sum) = (typed.Count, typed.Sum);
                }

                return View(now with { Form = fresh, Refused = Say(changed) });
            case var refusal:
                return Again(page with { Refused = Say(refusal) });
        }

        ViewResult Again(NewClaimPage shown)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View(shown);
        }
    }

    [HttpGet("pickups/{id:guid}/claims/{claim:guid}")]
    public async Task<IActionResult> Show(Guid id, Guid claim, CancellationToken cancel) =>
        await PageAsync(id, claim, cancel) is { } page ? View(page) : NotFound();

    [HttpPost("pickups/{id:guid}/claims/{claim:guid}/answers")]
    public async Task<IActionResult> Answer(Guid id, Guid claim, ClaimAnswerForm form, CancellationToken cancel)
    {
        if (await PageAsync(id, claim, cancel) is not { } page || !Caller.MayAnswerClaim(page.Pickup.Header))
            return NotFound();
        page = page with { Form = form };
        if (form.AnswerId == Guid.Empty)
            return BadRequest();
        var command = form.Read(claim, Caller.Actor, clock.GetUtcNow(), out var errors);
        foreach (var (field, message) in errors)
            ModelState.AddModelError(field, message);
        if (command is null || !ModelState.IsValid)
            return Again(page);
        var decision = await desk.AnswerAsync(page.Pickup, command, null, cancel);
        var place = decision.Refusal switch
        {
            ImpossibleAnswerDay => "answeredOn",
            ImpossibleSum => "sum",
            AnswerWithoutReason => "reason",
            _ => null,
        };
        if (place is not null)
        {
            ModelState.AddModelError(place, Say(decision.Refusal!));
            return Again(page);
        }

        return await DoneAsync(page, decision, T("Kept. The shipper is told by mail."), cancel);

        ViewResult Again(ClaimPage shown)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View("Show", shown);
        }
    }

    [HttpPost("pickups/{id:guid}/claims/{claim:guid}/acceptance")]
    public async Task<IActionResult> Accept(Guid id, Guid claim, int seen, CancellationToken cancel) =>
        await PageAsync(id, claim, cancel) is { } page && Caller.MayClaim(page.Pickup.Header)
            ? await DoneAsync(page, await desk.AcceptAsync(page.Pickup, new(claim, seen, Caller.Actor, clock.GetUtcNow()), null, cancel), T("Taken. The carrier is told, and pays."), cancel)
            : NotFound();

    [HttpPost("pickups/{id:guid}/claims/{claim:guid}/withdrawal")]
    public async Task<IActionResult> Withdraw(Guid id, Guid claim, int seen, string? why, CancellationToken cancel)
    {
        if (await PageAsync(id, claim, cancel) is not { } page || !Caller.MayClaim(page.Pickup.Header))
            return NotFound();
        page = page with { Why = why };
        if (HoldText.Complaint(why, 1, ClaimForm.LongestText, T("Say why, in a few words.")) is { } complaint)
        {
            ModelState.AddModelError("why", complaint);
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View("Show", page);
        }

        return await DoneAsync(page, await desk.WithdrawAsync(page.Pickup, new(claim, seen, why!, Caller.Actor, clock.GetUtcNow()), null, cancel), T("Withdrawn. The carrier is told."), cancel);
    }

    private async Task<IActionResult> DoneAsync(ClaimPage page, Decision<PickupEvent> decision, string said, CancellationToken cancel)
    {
        if (decision.Refusal is { } refusal)
        {
            Response.StatusCode = StatusCodes.Status409Conflict;
            var now = (await PageAsync(page.Pickup.Id, page.Claim.Id, cancel))!;
            // What was typed stays; what stands now is read anew, and is what the next press is about.
            ModelState.Remove("seen");
            page.Form.Seen = now.Claim.Revision;
            return View("Show", now with { Form = page.Form, Why = page.Why, Refused = Say(refusal) });
        }

        this.Say(said);
        return Redirect($"/pickups/{page.Pickup.Id}/claims/{page.Claim.Id}");
    }

    private async Task<NewClaimPage?> LoadAsync(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Pickup>(id, cancel) is { } pickup && Caller.MayClaim(pickup.Header)
            ? new(pickup, await PickupParties.LoadAsync(session, pickup.Header, cancel))
            : null;
    }

    private async Task<ClaimPage?> PageAsync(Guid id, Guid claimId, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Pickup>(id, cancel) is not { } pickup || !Caller.MaySee(pickup.Header) || pickup.ClaimOf(claimId) is not { } claim)
            return null;
        var now = clock.GetUtcNow();
        return new(pickup, claim, await PickupParties.LoadAsync(session, pickup.Header, cancel), Caller.MayClaim(pickup.Header), Caller.MayAnswerClaim(pickup.Header))
        {
            Form = new()
            {
                AnswerId = Guid.CreateVersion7(now),
                Seen = claim.Revision,
                AnsweredOn = Today(pickup).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                Sum = claim.Agreed?.Amount.Amount.ToString("0.00", CultureInfo.InvariantCulture),
            },
        };
    }

    private DateOnly Today(Pickup pickup) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(clock.GetUtcNow(), TimeZoneInfo.FindSystemTimeZoneById(pickup.Header.Window.TimeZone)).Date);

    /// <summary>All that was harmed is proposed; the sums are for the shipper to say.</summary>
    private ClaimForm FormOf(Pickup pickup) => new()
    {
        ClaimId = Guid.CreateVersion7(clock.GetUtcNow()),
        OutcomeId = pickup.Outcome?.OutcomeId ?? Guid.Empty,
        Lines = [.. ClaimDecisions.Claimable(pickup).Select(line => new ClaimLineForm { Reference = line.Reference, Count = line.Left.ToString(CultureInfo.InvariantCulture) })],
    };

    private static string Say(Refusal refusal) => refusal.Message.Say(UnitSystem.Imperial);
}

/// <param name="Names">Of the shippers.</param>
/// <param name="All">Also those that are over.</param>
public sealed record ClaimListPage(IReadOnlyList<ClaimRow> Claims, IReadOnlyDictionary<Guid, string> Names, bool All, bool IsShipper, DateOnly Today);

public sealed record NewClaimPage(Pickup Pickup, PickupParties Parties)
{
    public ClaimForm Form { get; init; } = new();

    /// <summary>Why what was just sent was not taken.</summary>
    public string? Refused { get; init; }
}

public sealed record ClaimPage(Pickup Pickup, Claim Claim, PickupParties Parties, bool MayClaim, bool MayAnswer)
{
    public ClaimAnswerForm Form { get; init; } = new();

    /// <summary>What was typed as the reason to withdraw it.</summary>
    public string? Why { get; init; }

    /// <summary>Why what was just sent was not taken.</summary>
    public string? Refused { get; init; }

    /// <summary>What the carrier may do next; the payment of what was agreed first.</summary>
    public IReadOnlyList<ClaimAnswer> Answers => ClaimDecisions.AnswersAfter(Claim.State);
}
