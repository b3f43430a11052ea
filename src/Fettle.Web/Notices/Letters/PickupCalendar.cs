using Fettle.Readiness.Pickups;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;

namespace Fettle.Web.Notices.Letters;

/// <summary>A pickup's window as an entry for a calendar (RFC 5545).</summary>
internal static class PickupCalendar
{
    /// <param name="sequence">0 for the first, one more each time the pickup is moved: calendars keep the highest.</param>
    public static LetterCalendar Of(Pickup pickup, PickupNames names, string summary, string description, Uri link, int sequence)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(sequence);
        var window = pickup.Header.Window;
        var calendar = new Calendar { Method = CalendarMethods.Publish, ProductId = "-//Fettle//Pickups//EN" };
        calendar.Events.Add(new CalendarEvent
        {
            // The same pickup is the same entry, whoever is told and however often.
            Uid = $"{pickup.Id:D}@fettle",
            Sequence = sequence,
            DtStamp = At(pickup.SubmittedAt),
            DtStart = At(window.From),
            DtEnd = At(window.To),
            Summary = Plain.Line(summary),
            Location = Plain.Line($"{names.Site}, {names.SiteAddress}"),
            Description = Plain.Line(description),
            Url = link,
            Status = EventStatus.Confirmed,
        });
        var content = new CalendarSerializer().SerializeToString(calendar)
            ?? throw new InvalidOperationException("The calendar entry came out empty.");
        var name = string.Concat(pickup.Header.Number.Where(c => char.IsAsciiLetterOrDigit(c) || c == '-'));
        return new($"{(name.Length == 0 ? "pickup" : name)}.ics", content);
    }

    private static CalDateTime At(DateTimeOffset at) => new(DateTime.SpecifyKind(at.UtcDateTime, DateTimeKind.Utc), "UTC");
}
