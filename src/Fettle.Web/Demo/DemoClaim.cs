using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;

namespace Fettle.Web.Demo;

/// <summary>The claim that follows upon harm in the demo's past, and what the carrier steps. Invented.</summary>
/// <param name="Steps">In order of time; those that lie ahead are still to come. One without an answer is that the shipper takes the offer.</param>
public sealed record DemoClaim(DateTimeOffset FiledAt, IReadOnlyList<ClaimedLine> Lines, string Grounds, IReadOnlyList<(DateTimeOffset At, ClaimAnswer? Answer, decimal? Sum, string? Reason)> Steps)
{
    /// <summary>Who has something to claim mostly does.</summary>
    private const double Claims = 0.75;

    private const double Acknowledged = 0.9;

    /// <summary>Of steps, where nothing had been found against the freight; where something had, the carrier pays less often.</summary>
    private const double PaidOfSound = 0.6;

    private const double PaidOfFaulty = 0.15;

    private const double Offered = 0.5;

    private const double OfferTaken = 0.8;

    /// <summary>Null when nothing is claimed.</summary>
    public static DemoClaim? Of(Pickup pickup, OutcomeRecorded outcome)
    {
        var dice = new Dice("claim", pickup.Header.Number);
        if (dice.Share() >= Claims)
            return null;
        var filed = outcome.At.AddDays(dice.Between(1, 25)).AddMinutes(dice.Between(0, 400));
        ClaimedLine[] lines = [.. ClaimDecisions.Claimable(pickup with { Claims = [] }).Select(line => new ClaimedLine(line.Reference, line.Left, Money.Dollars(line.Left * dice.Between(120, 900))))];
        var harmed = outcome.Units.First(unit => lines.Any(line => line.Reference == unit.Reference) && unit.Kind is not (OutcomeKind.Clean or OutcomeKind.Stayed));
        var grounds = harmed.Kind switch
        {
            OutcomeKind.Short => "Not all of it came; the delivery receipt says so. Invoice value, invoice to follow.",
            OutcomeKind.Refused => "The consignee did not take it. Invoice value less what we could resell.",
            _ => "Damaged on the way, as the delivery receipt says. Invoice value less salvage.",
        };
        var total = lines.Sum(line => line.Amount.Amount);
        var steps = new List<(DateTimeOffset, ClaimAnswer?, decimal?, string?)>();
        if (dice.Share() < Acknowledged)
            steps.Add((filed.AddDays(dice.Between(2, 20)), ClaimAnswer.Acknowledged, null, null));
        var at = filed.AddDays(dice.Between(25, 110));
        var faulty = pickup.Units.Any(unit => lines.Any(line => line.Reference == unit.Reference) && unit.Findings.Count > 0);
        var fate = dice.Share();
        if (fate < (faulty ? PaidOfFaulty : PaidOfSound))
            steps.Add((at, ClaimAnswer.Paid, total, null));
        else if (fate < (faulty ? PaidOfFaulty : PaidOfSound) + ((1 - (faulty ? PaidOfFaulty : PaidOfSound)) * Offered))
        {
            var sum = decimal.Round(total * dice.Between(30, 70) / 100, 0);
            steps.Add((at, ClaimAnswer.Offered, sum, "Part of the harm was there before we had it."));
            if (dice.Share() < OfferTaken)
                steps.AddRange((at.AddDays(4), null, null, null), (at.AddDays(dice.Between(8, 30)), ClaimAnswer.Paid, sum, null));
        }
        else
            steps.Add((at, ClaimAnswer.Disallowed, null, faulty ? "What was found at declaration explains the damage: see the pickup's file." : "The delivery receipt was signed without a remark."));
        return new(filed, lines, grounds, steps);
    }
}
