using System.Globalization;
using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Web.Declarations;

namespace Fettle.Web.Holds;

/// <summary>What a decision must say, on the page and in the API.</summary>
public sealed record DecisionForm
{
    public const int ShortestReason = 5;
    public const int LongestReason = 2000;
    public const int LongestTerm = 500;

    /// <summary>An exception ends after this at the latest: freight is long delivered then. Our choice, no source.</summary>
    private static readonly TimeSpan LongestException = TimeSpan.FromDays(366);

    public string? Decision { get; set; }

    public string? Reason { get; set; }

    /// <summary>The decision that is read and overridden.</summary>
    public Guid? Supersedes { get; set; }

    /// <summary>Said expressly.</summary>
    public bool Supersede { get; set; }

    public string? AcceptedBy { get; set; }

    public string? Risk { get; set; }

    /// <summary>A moment with its offset; or a date, perhaps with a clock time, meant at the site.</summary>
    public string? Until { get; set; }

    public string? Conditions { get; set; }

    public Dictionary<string, string> Errors(PickupWindow window, DateTimeOffset now)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var decision = Wording.Parse<HoldDecision>(Decision);
        if (decision is null)
            errors["decision"] = T("Choose one of: {0}.", string.Join(", ", Wording.All<HoldDecision>()));
        if (HoldText.Complaint(Reason, ShortestReason, LongestReason, T("Say why, in a few words: the shipper reads it.")) is { } reason)
            errors["reason"] = reason;
        if (decision == HoldDecision.ReleaseAsException)
        {
            Check("acceptedBy", AcceptedBy, 2, 100, T("Say who accepts the risk: a person or a company, by name."));
            Check("risk", Risk, ShortestReason, LongestTerm, T("Say which risk is accepted."));
            Check("conditions", Conditions, 2, LongestTerm, T("Say on which conditions it travels; write “none” when there are none."));
            if (HoldText.Moment(Until, window) is not { } until)
                errors["until"] = T("Say until when, as a date or a date and time.");
            else if (until <= now || until > now + LongestException)
                errors["until"] = T("The exception ends later than now, and within a year.");
        }

        return errors;

        void Check(string field, string? text, int shortest, int longest, string missing)
        {
            if (HoldText.Complaint(text, shortest, longest, missing) is { } complaint)
                errors[field] = complaint;
        }
    }

    /// <summary>The command that a form without errors stands for.</summary>
    public DecideHold Command(Guid id, PickupWindow window, Readiness.Actor by, DateTimeOffset at)
    {
        var decision = Wording.Parse<HoldDecision>(Decision)!.Value;
        var terms = decision == HoldDecision.ReleaseAsException
            ? new ExceptionTerms("", AcceptedBy!.Trim(), Risk!.Trim(), HoldText.Moment(Until, window)!.Value, Conditions!.Trim())
            : null;
        return new(id, decision, Reason!.Trim(), by, at, Supersedes, terms);
    }
}

/// <summary>An offer of rework as it is typed.</summary>
public sealed record OfferForm
{
    private const decimal MostDollars = 100_000;

    private static readonly TimeSpan LongestOffer = TimeSpan.FromDays(90);

    public string? Work { get; set; }

    /// <summary>US dollars, as <see cref="Dollars.Parse"/> reads them.</summary>
    public string? Cost { get; set; }

    public string? ValidUntil { get; set; }

    public Dictionary<string, string> Errors(PickupWindow window, DateTimeOffset now)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        if (HoldText.Complaint(Work, 5, 1000, T("Say what would be done.")) is { } work)
            errors["work"] = work;
        if (Dollars.Parse(Cost, MostDollars) is null)
            errors["cost"] = T("An amount in US dollars from 0 to {0:#,0}, like 85.50.", MostDollars);
        if (HoldText.Moment(ValidUntil, window) is not { } until)
            errors["validUntil"] = T("Say until when, as a date or a date and time.");
        else if (until <= now || until > now + LongestOffer)
            errors["validUntil"] = T("An offer stands until later than now, and for 90 days at most.");
        return errors;
    }

    public OfferRework Command(Guid id, PickupWindow window, Readiness.Actor by, DateTimeOffset at) =>
        new(id, Work!.Trim(), Money.Dollars(Dollars.Parse(Cost, MostDollars)!.Value), HoldText.Moment(ValidUntil, window)!.Value, by, at);
}

/// <summary>What people write about held freight.</summary>
public static class HoldText
{
    public const int Longest = 2000;

    /// <summary>Why the text cannot be taken; null when it can.</summary>
    /// <param name="missing">What is said when it is too short.</param>
    public static string? Complaint(string? text, int shortest, int longest, string missing)
    {
        var length = text?.Trim().Length ?? 0;
        if (length < shortest)
            return missing;
        return length > longest || !UnitFormValidator.ReadableText(text!.ReplaceLineEndings(" ")) ? T("At most {0} readable characters.", longest) : null;
    }

    public static string? MessageComplaint(string? text) => Complaint(text, 1, Longest, T("Write something."));

    public static string? ReasonComplaint(string? text) => Complaint(text, DecisionForm.ShortestReason, Longest, T("Say why, in a few words: the terminal reads it."));

    /// <summary>A moment with its offset as it is; a bare date is that day's end at the site, a bare date and time is meant at the site.</summary>
    public static DateTimeOffset? Moment(string? text, PickupWindow window)
    {
        text = text?.Trim();
        if (string.IsNullOrEmpty(text))
            return null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
            return AtSite(day.ToDateTime(new TimeOnly(23, 59)), window);
        if (DateTime.TryParseExact(text, ["yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd HH:mm", "yyyy-MM-dd'T'HH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
            return AtSite(local, window);
        return DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment) && moment.Year is > 2000 and < 2200 ? moment.ToUniversalTime() : null;
    }

    private static DateTimeOffset? AtSite(DateTime local, PickupWindow window)
    {
        if (local.Year is < 2000 or > 2200)
            return null;
        var zone = TimeZoneInfo.TryFindSystemTimeZoneById(window.TimeZone, out var known) ? known : TimeZoneInfo.Utc;
        return new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
    }
}
