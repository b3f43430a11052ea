using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Readiness.DockVisits;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Catalogue;
using Fettle.Web.Photos;
using Fettle.Web.Security;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Api;

/// <summary>How the API says no: RFC 9457 problem details, a sentence that helps, and the field where there is one.</summary>
public static class Answers
{
    /// <summary>400: what was sent cannot be read. Fields are named as in the request.</summary>
    public static ObjectResult Unreadable(IEnumerable<KeyValuePair<string, string>> errors)
    {
        // The framework may name the body twice.
        var fields = errors.DistinctBy(error => error.Key).ToDictionary(error => error.Key, error => new[] { error.Value }, StringComparer.Ordinal);
        var problem = new ValidationProblemDetails(fields)
        {
            Type = Problems.TypeOf("unreadable"),
            Status = StatusCodes.Status400BadRequest,
            Title = T("What was sent cannot be read."),
            Detail = fields.Count == 1 ? T("One field needs mending; see errors.") : T("{0} fields need mending; see errors.", fields.Count),
        };
        return Result(problem);
    }

    /// <summary>404, also for what exists but is not the caller's to see.</summary>
    public static ObjectResult NotFound(string what) =>
        Result(Problems.Of(StatusCodes.Status404NotFound, "not-found", T("There is no such thing."), T("There is nothing with this id that you may see: {0}.", T(what))));

    /// <summary>The one place that maps refusals to HTTP.</summary>
    public static ObjectResult Refused(Refusal refusal)
    {
        var status = refusal switch
        {
            NoSuchHold or NoSuchPickup or NoSuchOffer or NoSuchInspection or NoSuchUnit or NoSuchVisit or NoSuchClaim => StatusCodes.Status404NotFound,
            AlreadySubmitted or AlreadyDecided or ChangedMeanwhile or NameTaken or CatalogueChanged
                or NothingToSupersede or OfferAuthorised or OfferWithdrawn or OfferReplaced or OfferRanOut
                or InspectionRecordedBefore or InspectionIdTaken or OutcomeStands or VisitConcluded or VisitCalledOff or VisitChanged
                or DeliveryChanged or ClaimMovedOn or ClaimStandsSo or HeldUndecided => StatusCodes.Status409Conflict,
            PhotoTooLarge => StatusCodes.Status413PayloadTooLarge,
            NotAPhoto => StatusCodes.Status415UnsupportedMediaType,
            NothingDeclared or TooManyUnits or BuildWouldBeHeld or CatalogueFull
                or NoExceptionTerms or OtherFreight or NothingCorrected
                or TooManyMessages or TooManyOffers or TooManyCorrections or TooManyDecisions
                or TooManyPhotos or NothingToHold or SupersededWithoutReason or ImpossibleDeliveryDay or UnitsUnaccounted or NoSuchLine or DamageUnclear or VisitIsPast or NotAskedAbout
                or TooManyClaims or TooManyClaimAnswers or NothingClaimed or MoreThanHarmed or ImpossibleAnswerDay or ImpossibleSum or AnswerWithoutReason
                or PhotoEmpty or PhotoBroken or TooManyPixels or OnePhotoAtATime => StatusCodes.Status422UnprocessableEntity,
            _ => throw new InvalidOperationException($"{refusal.GetType().Name} has no status."),
        };
        var problem = Problems.Of(status, refusal.Code, T("It was not done."), refusal.Message.Say(UnitSystem.Imperial));
        if (refusal is AlreadyDecided { Decision: var decided })
            problem.Extensions["decision"] = DecisionAnswer.Of(decided);
        if (refusal is AlreadySubmitted submitted)
            problem.Extensions["submitted"] = new { by = submitted.By.Name, at = submitted.At };
        return Result(problem);
    }

    public static ObjectResult Result(ProblemDetails problem) =>
        new(problem) { StatusCode = problem.Status, ContentTypes = { Problems.ContentType } };
}

/// <param name="Decision">"release", "release-as-exception", "rework", "return" or "refuse".</param>
/// <param name="Supersedes">The decision whose place it took.</param>
/// <param name="Exception">The terms of a release as an exception.</param>
public sealed record DecisionAnswer(Guid Id, string Decision, string Reason, string By, DateTimeOffset At, Guid? Supersedes, ExceptionTerms? Exception)
{
    public static DecisionAnswer Of(HoldDecided decided) =>
        new(decided.DecisionId, Declarations.Wording.Word(decided.Decision), decided.Reason, decided.By.Name, decided.At, decided.Supersedes, decided.Exception);
}
