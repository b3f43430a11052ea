using Fettle.Readiness.Holds;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Api;
using Fettle.Web.Declarations;

namespace Fettle.Web.Holds;

public sealed record HoldsAnswer(IReadOnlyList<HoldAnswer> Holds);

/// <param name="Reason">Why it was held, composed from the findings that stopped it.</param>
/// <param name="Findings">About the handling unit as it is declared now.</param>
/// <param name="HandlingUnit">As it is declared now; what was declared first stays in the pickup.</param>
/// <param name="State">"open" or "decided".</param>
/// <param name="Decision">The decision in force.</param>
/// <param name="InspectionId">The inspection that found it; null for a hold from the declaration.</param>
/// <param name="WaitsFor">Who must act: "shipper" or "terminal"; null when nobody must.</param>
/// <param name="ActBy">When their time ends.</param>
/// <param name="AwaitsInspection">It is to be rebuilt at the terminal, and nobody has inspected it since.</param>
/// <param name="Decisions">All of them, oldest first.</param>
public sealed record HoldAnswer(
    Guid Id,
    string Number,
    Guid PickupId,
    string Reference,
    int Quantity,
    string Reason,
    string? ExceptionRequest,
    IReadOnlyList<FindingAnswer> Findings,
    UnitJson HandlingUnit,
    DateTimeOffset PlacedAt,
    DateTimeOffset DecideBy,
    string State,
    DecisionAnswer? Decision,
    Guid? InspectionId,
    string? WaitsFor,
    DateTimeOffset? ActBy,
    bool AwaitsInspection,
    IReadOnlyList<DecisionAnswer> Decisions,
    IReadOnlyList<MessageAnswer> Messages,
    IReadOnlyList<OfferAnswer> Offers,
    IReadOnlyList<ShipperAnswer> Answers)
{
    public static HoldAnswer Of(Hold hold) => new(
        hold.Id,
        hold.Placed.Number,
        hold.Placed.PickupId,
        hold.Placed.HandlingUnit.Reference,
        hold.Placed.HandlingUnit.Quantity,
        hold.Placed.Reason.Say(hold.Placed.Units),
        hold.Placed.ExceptionRequest,
        [.. hold.FoundNow().Select(finding => FindingAnswer.Of(finding, hold.Placed.Units))],
        UnitJson.Of(hold.DeclaredNow(), hold.Placed.Units),
        hold.Placed.At,
        hold.Placed.DecideBy,
        hold.IsOpen ? "open" : "decided",
        hold.Decided is { } decided ? DecisionAnswer.Of(decided) : null,
        hold.Placed.InspectionId,
        hold.Turn?.Side.Word(),
        hold.Turn?.By,
        hold.AwaitsInspection,
        [.. hold.Decisions.Select(DecisionAnswer.Of)],
        [.. hold.Messages.Select(message => new MessageAnswer(message.MessageId, message.From.Word(), message.Text, message.By.Name, message.At))],
        [.. hold.Offers.Select(offer => OfferAnswer.Of(offer, hold))],
        [.. ShipperAnswer.Of(hold).OrderBy(answer => answer.At)]);
}

/// <param name="From">"shipper" or "terminal".</param>
public sealed record MessageAnswer(Guid Id, string From, string Text, string By, DateTimeOffset At);

/// <param name="State">"standing", "authorised", "withdrawn" or "replaced". One whose time ran out is standing, and can no longer be authorised.</param>
public sealed record OfferAnswer(Guid Id, string Work, decimal Cost, string Currency, DateTimeOffset ValidUntil, string State, string By, DateTimeOffset At)
{
    public static OfferAnswer Of(ReworkOffered offer, Hold hold) => new(
        offer.OfferId,
        offer.Work,
        offer.Cost.Amount,
        offer.Cost.Currency,
        offer.ValidUntil,
        hold.Authorised?.OfferId == offer.OfferId ? "authorised"
            : hold.Withdrawn.Any(withdrawn => withdrawn.OfferId == offer.OfferId) ? "withdrawn"
            : hold.StandingOffer() == offer ? "standing" : "replaced",
        offer.By.Name,
        offer.At);
}

/// <param name="Answer">"authorise", "exception", "dispute" or "correct".</param>
/// <param name="Offer">The offer that was authorised.</param>
/// <param name="Text">The reason or the evidence.</param>
/// <param name="HandlingUnit">The line as it was declared then.</param>
/// <param name="Verdict">What the check said of it.</param>
public sealed record ShipperAnswer(Guid Id, string Answer, Guid? Offer, string? Text, UnitJson? HandlingUnit, string? Verdict, IReadOnlyList<FindingAnswer>? Findings, string By, DateTimeOffset At)
{
    public static IEnumerable<ShipperAnswer> Of(Hold hold)
    {
        if (hold.Authorised is { } authorised)
            yield return new(authorised.AuthorisationId, "authorise", authorised.OfferId, null, null, null, null, authorised.By.Name, authorised.At);
        foreach (var request in hold.ExceptionRequests)
            yield return new(request.RequestId, "exception", null, request.Reason, null, null, null, request.By.Name, request.At);
        foreach (var dispute in hold.Disputes)
            yield return new(dispute.DisputeId, "dispute", null, dispute.Evidence, null, null, null, dispute.By.Name, dispute.At);
        foreach (var correction in hold.Corrections)
        {
            yield return new(
                correction.CorrectionId,
                "correct",
                null,
                null,
                UnitJson.Of(correction.HandlingUnit, hold.Placed.Units),
                correction.Verdict.Word(),
                [.. correction.Findings.Select(finding => FindingAnswer.Of(finding, hold.Placed.Units))],
                correction.By.Name,
                correction.At);
        }
    }
}
