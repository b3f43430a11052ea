using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Holds;

/// <summary>Freight of one line must not move until the terminal decides.</summary>
/// <param name="Number">The pickup's number and the line's reference: "P-4K7Q2M/A1"; a further hold of the same line ends in "/2".</param>
/// <param name="HandlingUnit">As it was declared; as it was found when an inspection placed the hold.</param>
/// <param name="Reason">Composed from the findings that stop it.</param>
/// <param name="DecideBy">
/// When both sides' hours are over, or when the truck would leave without it (the end of the pickup window), whichever is
/// first. Freight that was inspected has been picked up: only the hours count.
/// </param>
/// <param name="InspectionId">The inspection that found it; null for a hold from the declaration.</param>
/// <param name="Hours">Null in holds that were placed before there were any: the usual ones.</param>
public sealed record HoldPlaced(
    Guid HoldId,
    Guid PickupId,
    string Number,
    PickupHeader Pickup,
    HandlingUnit HandlingUnit,
    UnitSystem Units,
    IReadOnlyList<Finding> Findings,
    Phrase Reason,
    string? ExceptionRequest,
    Actor DeclaredBy,
    DateTimeOffset DecideBy,
    DateTimeOffset At,
    Guid? InspectionId = null,
    HoldHours? Hours = null) : HoldEvent;

/// <summary>What an inspection found about one line of a pickup.</summary>
/// <param name="HoldId">Given by the caller so that placing it twice is noticed.</param>
/// <param name="Found">The unit as it was measured.</param>
/// <param name="Findings">All that the check says about it, under the rules in force at the inspection.</param>
/// <param name="Limits">The hours of those rules.</param>
/// <param name="Earlier">The holds that this line has already, oldest first.</param>
/// <param name="InspectedBy">Who measured it.</param>
public sealed record InspectedFreight(
    Guid HoldId,
    Guid InspectionId,
    Pickup Pickup,
    HandlingUnit Found,
    IReadOnlyList<Finding> Findings,
    HoldLimits Limits,
    IReadOnlyList<Hold> Earlier,
    Actor InspectedBy,
    DateTimeOffset At);

public sealed partial record Hold
{
    /// <summary>The holds that a submission calls for, one for each line that the check stops. Ids are given by the caller, so that placing them twice is noticed.</summary>
    public static IReadOnlyList<HoldPlaced> Place(Pickup pickup, Func<string, Guid> idOf, HoldLimits limits, DateTimeOffset at) =>
    [
        .. from unit in pickup.Units
           where unit.Verdict == Verdict.Hold
           let line = pickup.Declaration.HandlingUnits.Single(line => line.Reference == unit.Reference)
           let hours = HoldHours.Of(limits, unit.Findings)
           let end = pickup.Header.Window.To
           let answered = at.AddHours(hours.Shipper + hours.Terminal)
           select new HoldPlaced(
               idOf(unit.Reference),
               pickup.Id,
               $"{pickup.Header.Number}/{unit.Reference}",
               pickup.Header,
               line,
               pickup.Declaration.Units,
               unit.Findings,
               ReasonOf(unit.Findings),
               pickup.ExceptionRequest,
               pickup.SubmittedBy,
               end > at && end < answered ? end : answered,
               at,
               null,
               hours),
    ];

    /// <summary>
    /// The hold that an inspection calls for; null when it found nothing new (<see cref="Recheck.NewStops"/>): then the freight
    /// either may travel or is held as it is.
    /// </summary>
    public static HoldPlaced? PlaceOn(InspectedFreight freight)
    {
        var declared = freight.Pickup.Units.Where(unit => unit.Reference == freight.Found.Reference).SelectMany(unit => unit.Findings);
        if (Recheck.NewStops(freight.Findings, [.. declared], freight.Earlier is [.., var latest] ? latest : null).Count == 0)
            return null;
        var hours = HoldHours.Of(freight.Limits, freight.Findings);
        var number = $"{freight.Pickup.Header.Number}/{freight.Found.Reference}";
        return new(
            freight.HoldId,
            freight.Pickup.Id,
            freight.Earlier.Count == 0 ? number : $"{number}/{freight.Earlier.Count + 1}",
            freight.Pickup.Header,
            freight.Found,
            freight.Pickup.Declaration.Units,
            freight.Findings,
            ReasonOf(freight.Findings),
            null,
            freight.Pickup.SubmittedBy,
            freight.At.AddHours(hours.Shipper + hours.Terminal),
            freight.At,
            freight.InspectionId,
            hours);
    }

    private static Phrase ReasonOf(IEnumerable<Finding> findings) =>
        Phrase.Join(" ", [.. findings.Where(finding => finding.Severity == Severity.Stop).Select(stop => stop.Message)]);
}
