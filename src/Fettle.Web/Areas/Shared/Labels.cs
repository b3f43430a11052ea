using System.Globalization;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Web.Notices;

namespace Fettle.Web.Areas.Shared;

/// <summary>Words of the checks as people read them.</summary>
public static class Labels
{
    public static string Label(this Severity severity) => severity switch
    {
        Severity.Stop => T("Stop"),
        Severity.Caution => T("Caution"),
        Severity.Tip => T("Tip"),
    };

    public static string Label(this Verdict verdict) => verdict switch
    {
        Verdict.Ready => T("Ready"),
        Verdict.ReadyWithCautions => T("Ready, with cautions"),
        Verdict.Hold => T("Would be held"),
    };

    /// <summary>The tone of the badge that shows it.</summary>
    public static string Tone(this Verdict verdict) => verdict switch
    {
        Verdict.Ready => "ready",
        Verdict.ReadyWithCautions => "cautions",
        Verdict.Hold => "hold",
    };

    public static string Label(this HoldDecision decision) => decision switch
    {
        HoldDecision.Release => T("Released"),
        HoldDecision.ReleaseAsException => T("Released as an exception"),
        HoldDecision.Rework => T("To be reworked here"),
        HoldDecision.Return => T("Returned to the shipper"),
        HoldDecision.Refuse => T("Refused"),
    };

    public static string Label(this NoticeKind kind) => kind switch
    {
        NoticeKind.PickupForTerminal => T("Freight coming"),
        NoticeKind.PickupForShipper => T("Pickup submitted"),
        NoticeKind.HoldDecidedForShipper => T("Hold decided"),
        NoticeKind.BuildsNoLongerPass => T("Builds no longer pass"),
        NoticeKind.HoldPlacedForShipper => T("Held on inspection"),
        NoticeKind.HoldNewsForShipper or NoticeKind.HoldNewsForTerminal => T("News of a hold"),
        NoticeKind.HoldReminderForShipper or NoticeKind.HoldReminderForTerminal => T("Reminder"),
        NoticeKind.HoldOverdueForTerminal or NoticeKind.HoldOverdueForAccounts => T("Overdue hold"),
        NoticeKind.ClaimForTerminal => T("Claim, from the shipper"),
        NoticeKind.ClaimForShipper => T("Claim, from the carrier"),
        NoticeKind.ClaimAcknowledgeDeadline => T("Last day to acknowledge a claim"),
        NoticeKind.ClaimAnswerDeadline => T("Last day to answer a claim"),
        NoticeKind.SuitDeadline => T("Last day for a suit"),
        NoticeKind.OutcomeForShipper => T("Outcome at delivery"),
        NoticeKind.ConcealedDamageDeadline => T("Concealed damage: report soon"),
        NoticeKind.ClaimDeadline => T("Claim: file soon"),
        NoticeKind.DockVisitAsked => T("Dock visit asked for"),
        NoticeKind.DockVisitPlanned => T("Dock visit planned"),
        NoticeKind.DockVisitCalledOff => T("Dock visit called off"),
        NoticeKind.DockVisitConcluded => T("Dock visit: what was agreed"),
        NoticeKind.DigestForManager or NoticeKind.DigestForShipper => T("The week that was"),
    };

    public static string Label(this NoticeState state) => state switch
    {
        NoticeState.Due => T("Due"),
        NoticeState.Sending => T("Being sent"),
        NoticeState.Sent => T("Sent"),
        NoticeState.Failed => T("Failed"),
        NoticeState.NotSent => T("Loaded history, not sent"),
        NoticeState.Overtaken => T("Overtaken, not sent"),
    };

    /// <summary>The tone of the badge that shows it.</summary>
    public static string Tone(this NoticeState state) => state switch
    {
        NoticeState.Sent => "ready",
        NoticeState.Failed => "hold",
        NoticeState.Due or NoticeState.Sending or NoticeState.NotSent or NoticeState.Overtaken => "cautions",
    };
}

/// <summary>Moments as people read them: in the time of the place they concern, with its name.</summary>
public static class Clock
{
    public static string At(DateTimeOffset moment, string timeZone)
    {
        var local = TimeZoneInfo.ConvertTime(moment, TimeZoneInfo.FindSystemTimeZoneById(timeZone));
        return $"{local.ToString("ddd d MMM yyyy HH:mm", Language.Current.Calendar)} {Place(timeZone)}";
    }

    public static string Window(PickupWindow window)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(window.TimeZone);
        var from = TimeZoneInfo.ConvertTime(window.From, zone);
        var to = TimeZoneInfo.ConvertTime(window.To, zone);
        return $"{from.ToString("ddd d MMM yyyy HH:mm", Language.Current.Calendar)}–{to.ToString("HH:mm", CultureInfo.InvariantCulture)} {Place(window.TimeZone)}";
    }

    /// <summary>"America/Chicago" as "(Chicago time)".</summary>
    private static string Place(string timeZone) => T("({0} time)", PlaceOf(timeZone));

    /// <summary>"America/New_York" as "New York".</summary>
    public static string PlaceOf(string timeZone) => timeZone[(timeZone.LastIndexOf('/') + 1)..].Replace('_', ' ');
}
