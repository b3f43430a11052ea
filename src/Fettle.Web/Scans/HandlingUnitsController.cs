using Fettle.Readiness.Scans;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Scans;

[Route("api/v1/handling-units")]
public sealed class HandlingUnitsController(IDocumentStore store) : ApiController
{
    /// <summary>The freight that carries a number, as far as the caller may see it. Empty when there is none.</summary>
    /// <param name="sscc">
    /// An SSCC as scanned or typed: eighteen digits, with or without "(00)", "00" or "]C1" before them. A pickup's, a hold's or a
    /// unit's own number is read too.
    /// </param>
    [HttpGet]
    [ProducesResponseType<HandlingUnitsAnswer>(StatusCodes.Status200OK, AsJson)]
    public async Task<IActionResult> Find(CancellationToken cancel, string? sscc = null)
    {
        var scanned = Scanned.Read(sscc);
        if (ScanWords.Complaint(scanned) is { } complaint)
            return Answers.Unreadable([new("sscc", complaint)]);
        if (scanned is ScannedWords)
            return Answers.Unreadable([new("sscc", T("This is neither an SSCC nor a number of a pickup, hold or unit."))]);
        await using var session = store.QuerySession();
        return Ok(new HandlingUnitsAnswer([.. (await ScanDesk.FindAsync(session, scanned, Caller, cancel)).Select(HandlingUnitAnswer.Of)]));
    }
}

public sealed record HandlingUnitsAnswer(IReadOnlyList<HandlingUnitAnswer> HandlingUnits);

/// <param name="Reference">Name of the declared line.</param>
/// <param name="Index">Which of the line's units, from 1; null when only the line is known.</param>
/// <param name="Number">The unit's own number; null when only the line is known.</param>
/// <param name="Declared">The line as it was declared.</param>
/// <param name="Verdict">"ready", "ready-with-cautions" or "hold": as it was judged when it was submitted.</param>
/// <param name="HoldId">The line's latest hold; null when there was none.</param>
public sealed record HandlingUnitAnswer(Guid PickupId, string PickupNumber, string Reference, int? Index, string? Number, string? Sscc, UnitJson Declared, string Verdict, Guid? HoldId)
{
    public static HandlingUnitAnswer Of(Match match) => new(
        match.Pickup.Id,
        match.Pickup.Header.Number,
        match.Reference,
        match.Unit?.Index,
        match.Unit?.Number,
        match.Unit?.Sscc,
        UnitJson.Of(match.Pickup.Declaration.HandlingUnits.Single(line => line.Reference == match.Reference), match.Pickup.Declaration.Units),
        match.Pickup.Units.Single(unit => unit.Reference == match.Reference).Verdict.Word(),
        match.Hold?.Id);
}
