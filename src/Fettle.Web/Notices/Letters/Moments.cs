using System.Globalization;
using Fettle.Readiness.Pickups;

namespace Fettle.Web.Notices.Letters;

/// <summary>Times as people at a site read them: on the site's own clock, with the zone named.</summary>
internal static class Moments
{
    private static CultureInfo Words => Language.Current.Calendar;

    /// <summary>"Tuesday 24 November 2026, 14:00–16:00 (America/Chicago, UTC−06:00)".</summary>
    public static string Long(PickupWindow window)
    {
        var (from, to, zone) = Local(window);
        var span = from.Date == to.Date
            ? $"{Day(from)}, {Clock(from)}–{Clock(to)}"
            : $"{Day(from)}, {Clock(from)} – {Day(to)}, {Clock(to)}";
        return $"{span} ({Named(zone, from)})";
    }

    /// <summary>"Tuesday 14:00–16:00", or with the date instead of the day when that is more than six days after <paramref name="now"/>.</summary>
    public static string Short(PickupWindow window, DateTimeOffset now)
    {
        var (from, to, _) = Local(window);
        return from.Date == to.Date
            ? $"{Near(from, now)} {Clock(from)}–{Clock(to)}"
            : $"{Near(from, now)} {Clock(from)}–{Near(to, now)} {Clock(to)}";
    }

    /// <summary>"Tuesday 16:00", as for windows.</summary>
    public static string Short(DateTimeOffset at, PickupWindow window, DateTimeOffset now)
    {
        var local = TimeZoneInfo.ConvertTime(at, Local(window).Zone);
        return $"{Near(local, now)} {Clock(local)}";
    }

    /// <summary>"Tuesday 24 November 2026, 14:05 (America/Chicago, UTC−06:00)".</summary>
    public static string Long(DateTimeOffset at, PickupWindow window)
    {
        var zone = Local(window).Zone;
        var local = TimeZoneInfo.ConvertTime(at, zone);
        return $"{Day(local)}, {Clock(local)} ({Named(zone, local)})";
    }

    /// <summary>A zone that this server does not know is told in UTC, and named so.</summary>
    private static (DateTimeOffset From, DateTimeOffset To, TimeZoneInfo Zone) Local(PickupWindow window)
    {
        var zone = TimeZoneInfo.TryFindSystemTimeZoneById(window.TimeZone, out var known) ? known : TimeZoneInfo.Utc;
        return (TimeZoneInfo.ConvertTime(window.From, zone), TimeZoneInfo.ConvertTime(window.To, zone), zone);
    }

    private static string Near(DateTimeOffset at, DateTimeOffset now) =>
        (at - now).Duration() < TimeSpan.FromDays(6) ? at.ToString("dddd", Words) : at.ToString("ddd d MMM", Words);

    private static string Day(DateTimeOffset at) => at.ToString(T("dddd d MMMM yyyy"), Words);

    private static string Clock(DateTimeOffset at) => at.ToString("HH:mm", Words);

    private static string Named(TimeZoneInfo zone, DateTimeOffset at) =>
        zone == TimeZoneInfo.Utc ? "UTC" : $"{zone.Id}, UTC{at.ToString("zzz", Words).Replace('-', '\u2212')}";
}
