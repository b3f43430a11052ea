using Fettle.Readiness.Claims;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;

namespace Fettle.Readiness.Scorecards;

/// <summary>What events say about lines: the one place where the accounts desk reads them.</summary>
public static class LineFacts
{
    /// <summary>A fact for each line that was handed in.</summary>
    public static IEnumerable<LineFact> Of(PickupSubmitted submitted)
    {
        var header = submitted.Header;
        foreach (var (judged, unit) in submitted.Units.Zip(submitted.Declaration.HandlingUnits))
        {
            yield return new LineDeclared(
                new(submitted.PickupId, judged.Reference),
                header.Number,
                header.CarrierId,
                header.ShipperId,
                header.SiteId,
                Lane.Of(header.TerminalId, header.Destination, submitted.Declaration.Lane.Miles),
                Product.Of(unit.Contents),
                Commodity.Of(unit),
                OneLine.Of(unit.BuiltBy),
                judged.Quantity,
                judged.Verdict,
                unit.Stackable,
                judged.CarriesLikeUnit,
                Codes(judged.Findings.Where(finding => finding.Severity == Severity.Stop)),
                Codes(judged.Findings.Concat(submitted.Findings).Where(finding => finding.Severity > Severity.Tip)),
                submitted.At);
        }
    }

    public static LineFact Of(HoldPlaced placed) => new LineHeld(LineOf(placed), placed.HoldId, placed.At);

    /// <param name="line">The line that the hold was placed on, which a decision does not name.</param>
    public static LineFact Of(HoldDecided decided, LineKey line) => new LineDecided(line, decided.HoldId, decided.Decision, decided.At);

    /// <summary>A fact for each line whose arrival was reported.</summary>
    public static IEnumerable<LineFact> Of(OutcomeRecorded recorded) => recorded.Units
        .GroupBy(unit => unit.Reference, StringComparer.Ordinal)
        .Select(line => new LineDelivered(
            new(recorded.PickupId, line.Key),
            [.. line.Select(unit => new DeliveredPart(unit.Count, unit.Kind, unit.CarriedFreight))],
            recorded.At));

    /// <summary>Null when nobody tried whether it carries another unit.</summary>
    public static LineFact? Of(InspectionRecorded inspected) => inspected.StackTest is StackTest.Held or StackTest.Failed
        ? new LineStackTested(new(inspected.PickupId, inspected.Reference), inspected.StackTest == StackTest.Held, inspected.At)
        : null;

    /// <summary>A fact for each line that something is asked for.</summary>
    public static IEnumerable<LineFact> Of(ClaimFiled filed) =>
        ByLine(filed.PickupId, filed.Lines, (line, cents) => new LineClaimed(line, filed.ClaimId, cents, filed.At));

    /// <summary>A fact for each line that something was asked for.</summary>
    public static IEnumerable<LineFact> Of(ClaimAnswered answered) =>
        ByLine(answered.PickupId, answered.Lines, (line, cents) => new LineClaimAnswered(line, answered.ClaimId, answered.Answer, cents, answered.At));

    /// <summary>A fact for each line that nothing is asked for any more.</summary>
    public static IEnumerable<LineFact> Of(ClaimWithdrawn withdrawn) =>
        ByLine(withdrawn.PickupId, withdrawn.Lines, (line, _) => new LineClaimWithdrawn(line, withdrawn.ClaimId, withdrawn.At));

    public static LineKey LineOf(HoldPlaced placed) => new(placed.PickupId, placed.HandlingUnit.Reference);

    private static IEnumerable<LineFact> ByLine(Guid pickup, IEnumerable<ClaimedLine> lines, Func<LineKey, long, LineFact> fact) => lines
        .GroupBy(line => line.Reference, StringComparer.Ordinal)
        .Select(line => fact(new(pickup, line.Key), line.Sum(part => part.Amount.Cents)));

    private static string[] Codes(IEnumerable<Finding> findings) =>
        [.. findings.Select(finding => finding.Code).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
}
