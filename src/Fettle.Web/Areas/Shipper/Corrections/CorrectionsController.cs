using System.Globalization;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Areas.Shipper.Pickups;
using Fettle.Web.Declarations;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.RuleSets;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Shipper.Corrections;

/// <summary>One line of a submitted pickup declared anew, because it is held: the declaration page's own fields, reading and check.</summary>
[Area("Shipper")]
[Route("holds/{id:guid}/correction")]
[Authorize(Policies.ShipperClerk)]
public sealed class CorrectionsController(IDocumentStore store, TimeProvider clock, HoldDesk desk, CarrierRuleBook rules) : Controller
{
    private const int LargestForm = 200_000;

    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Show(Guid id, CancellationToken cancel)
    {
        if (await LoadAsync(id, cancel) is not var (hold, pickup))
            return NotFound();
        return View("Correct", Page(hold, pickup, Writing.Form(hold.DeclaredNow(), hold.Placed.Units), await RulesAsync(hold, cancel), clock.GetUtcNow(), showMissing: false));
    }

    [HttpPost("")]
    [RequestSizeLimit(LargestForm)]
    public async Task<IActionResult> Correct(Guid id, [Bind(Prefix = "")] PickupForm form, Guid step, string? @do, CancellationToken cancel)
    {
        if (await LoadAsync(id, cancel) is not var (hold, pickup))
            return NotFound();
        // No page of ours sends anything else.
        if (form.HandlingUnits is not [{ } typed] || typed.Contents.Lines.Contains(null!))
            return BadRequest();
        ModelState.Clear();
        var line = FormText.Clean(form).HandlingUnits[0];
        // Labels hang on the line's name and number of units.
        (line.Reference, line.Quantity) = (hold.Placed.HandlingUnit.Reference, hold.Placed.HandlingUnit.Quantity.ToString(CultureInfo.InvariantCulture));
        var action = (@do ?? "check").Split(':', 3);
        if (action[0] == "add-carton" && line.Contents.Lines.Count < MixedCartonContents.MostLines)
            line.Contents.Lines.Add(new() { Carton = new() { Board = new() { Flute = "C", EdgeCrush = "32" } } });
        if (action is ["remove-carton", _, var row] && int.TryParse(row, NumberStyles.None, CultureInfo.InvariantCulture, out var index) && index < line.Contents.Lines.Count)
            line.Contents.Lines.RemoveAt(index);
        var now = clock.GetUtcNow();
        var page = Page(hold, pickup, line, await RulesAsync(hold, cancel), now, showMissing: action[0] is "check" or "correct") with { Step = step == Guid.Empty ? Guid.CreateVersion7(now) : step };
        if (action[0] != "correct")
            return View("Correct", page);
        if (page.Editor.Lines[0].Unit is not { } unit)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View("Correct", page);
        }

        var decision = await desk.CorrectAsync(hold, pickup, page.Step, unit, Caller.Actor, now, null, cancel);
        if (decision.Refusal is { } refusal)
        {
            Response.StatusCode = StatusCodes.Status409Conflict;
            return View("Correct", page with { Refused = refusal.Message.Say(hold.Placed.Units) });
        }

        this.Say(T("Your correction was sent. The terminal was told."));
        return Redirect($"/holds/{id}");
    }

    private async Task<(Hold Hold, Pickup Pickup)?> LoadAsync(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Hold>(id, cancel) is { } hold
            && HoldList.SideOf(Caller, hold.Placed.Pickup) == HoldSide.Shipper
            && await session.LoadAsync<Pickup>(hold.Placed.PickupId, cancel) is { } pickup
            ? (hold, pickup)
            : null;
    }

    private Task<RuleSet> RulesAsync(Hold hold, CancellationToken cancel) => rules.InForceAsync(hold.Placed.Pickup.CarrierId, clock.GetUtcNow(), cancel);

    private static CorrectionPage Page(Hold hold, Pickup pickup, UnitForm line, RuleSet rules, DateTimeOffset now, bool showMissing)
    {
        var lane = pickup.Declaration.Lane;
        var form = new PickupForm
        {
            Units = hold.Placed.Units.Word(),
            Lane = new() { Miles = Writing.Text(lane.Miles), Transfers = Writing.Text(lane.Transfers), CrossBorder = lane.CrossBorder, Liftgate = lane.Liftgate, NoDock = lane.NoDock },
            HandlingUnits = [line],
        };
        var reading = Reading.Of(form);
        var unit = reading.Lines[0];
        const string Prefix = "handlingUnits[0].";
        string[] missing = [.. reading.Blank.Where(path => path.StartsWith(Prefix, StringComparison.Ordinal)).Select(path => LinePage.NameOf(path[Prefix.Length..]))];
        return new(hold, new EditorPage
        {
            Id = pickup.Id,
            Number = pickup.Header.Number,
            Version = Guid.Empty,
            Tab = "",
            Form = form,
            Reading = reading,
            // The head of the pickup is not corrected here.
            Errors = reading.Errors.Where(error => error.Key.StartsWith(Prefix, StringComparison.Ordinal)).ToDictionary(StringComparer.Ordinal),
            Lines = [new(0, line, unit, unit is null ? null : ReadinessCheck.Run(unit, lane, rules, reading.Units), null, missing)],
            Findings = [],
            Sites = [],
            Carriers = [],
            ShowMissing = showMissing,
            IsOneLine = true,
        })
        {
            Step = Guid.CreateVersion7(now),
        };
    }
}

public sealed record CorrectionPage(Hold Hold, EditorPage Editor)
{
    public Guid Step { get; init; }

    /// <summary>Why the correction was not taken.</summary>
    public string? Refused { get; init; }
}
