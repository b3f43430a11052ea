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
        Severity.Stop => "Stop",
        Severity.Caution => "Caution",
        Severity.Tip => "Tip",
    };

    public static string Label(this Verdict verdict) => verdict switch
    {
        Verdict.Ready => "Ready",
        Verdict.ReadyWithCautions => "Ready, with cautions",
        Verdict.Hold => "Would be held",
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
        HoldDecision.Release => "Released",
        HoldDecision.ReleaseAsException => "Released as an exception",
        HoldDecision.Rework => "To be reworked here",
        HoldDecision.Return => "Returned to the shipper",
        HoldDecision.Refuse => "Refused",
    };

    public static string Label(this NoticeKind kind) => kind switch
    {
        NoticeKind.PickupForTerminal => "Freight coming",
        NoticeKind.PickupForShipper => "Pickup submitted",
        NoticeKind.HoldDecidedForShipper => "Hold decided",
        NoticeKind.BuildsNoLongerPass => "Builds no longer pass",
    };

    public static string Label(this NoticeState state) => state switch
    {
        NoticeState.Due => "Due",
        NoticeState.Sending => "Being sent",
        NoticeState.Sent => "Sent",
        NoticeState.Failed => "Failed",
        NoticeState.NotSent => "Loaded history, not sent",
    };

    /// <summary>The tone of the badge that shows it.</summary>
    public static string Tone(this NoticeState state) => state switch
    {
        NoticeState.Sent => "ready",
        NoticeState.Failed => "hold",
        NoticeState.Due or NoticeState.Sending or NoticeState.NotSent => "cautions",
    };
}

/// <summary>Moments as people read them: in the time of the place they concern, with its name.</summary>
public static class Clock
{
    public static string At(DateTimeOffset moment, string timeZone)
    {
        var local = TimeZoneInfo.ConvertTime(moment, TimeZoneInfo.FindSystemTimeZoneById(timeZone));
        return $"{local.ToString("ddd d MMM yyyy HH:mm", CultureInfo.InvariantCulture)} {Place(timeZone)}";
    }

    public static string Window(PickupWindow window)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(window.TimeZone);
        var from = TimeZoneInfo.ConvertTime(window.From, zone);
        var to = TimeZoneInfo.ConvertTime(window.To, zone);
        return $"{from.ToString("ddd d MMM yyyy HH:mm", CultureInfo.InvariantCulture)}–{to.ToString("HH:mm", CultureInfo.InvariantCulture)} {Place(window.TimeZone)}";
    }

    /// <summary>"America/Chicago" as "(Chicago time)".</summary>
    private static string Place(string timeZone) => $"({PlaceOf(timeZone)} time)";

    /// <summary>"America/New_York" as "New York".</summary>
    public static string PlaceOf(string timeZone) => timeZone[(timeZone.LastIndexOf('/') + 1)..].Replace('_', ' ');
}
