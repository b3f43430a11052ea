using Fettle.Readiness.Pickups;
using Fettle.Web.Parties;

namespace Fettle.Web.Declarations;

/// <summary>Makes the head of a pickup out of what was typed and the parties it names.</summary>
public static class Heading
{
    /// <summary>Sites and terminals are named by id or, as people and other systems do, by name.</summary>
    /// <param name="errors">Gets what is wrong, by field; null is returned then.</param>
    public static PickupHeader? Of(PickupForm form, string number, Shipper shipper, IReadOnlyList<Guid> ownSites, IReadOnlyList<Carrier> carriers, IDictionary<string, string> errors)
    {
        var site = SiteOf(form, shipper, ownSites);
        if (site is null)
            errors.TryAdd("site", T("Choose one of your sites: {0}.", string.Join(", ", shipper.Sites.Where(s => ownSites.Contains(s.Id)).Select(s => s.Name))));
        var terminal = carriers
            .SelectMany(carrier => carrier.Terminals, (carrier, terminal) => (Carrier: carrier, Terminal: terminal))
            .FirstOrDefault(pair => Names(form.Terminal, pair.Terminal.Id, pair.Terminal.Name) || Names(form.Terminal, pair.Terminal.Id, $"{pair.Carrier.Name}, {pair.Terminal.Name}"));
        if (terminal.Terminal is null)
            errors.TryAdd("terminal", T("Choose the origin terminal: {0}.", string.Join(", ", carriers.SelectMany(c => c.Terminals).Select(t => t.Name))));
        var window = site is null ? null : WindowOf(form.Window, site.TimeZone, errors);
        if (Wording.Parse<Equipment>(form.Equipment) is not { } equipment || site is null || terminal.Terminal is null || window is null)
            return null;
        return new(number, shipper.Id, site.Id, terminal.Carrier.Id, terminal.Terminal.Id, form.Destination?.Trim() ?? "", window, equipment);
    }

    /// <summary>The site named, or the only one there is.</summary>
    public static Site? SiteOf(PickupForm form, Shipper shipper, IReadOnlyList<Guid> ownSites)
    {
        var own = shipper.Sites.Where(site => ownSites.Contains(site.Id)).ToArray();
        return string.IsNullOrWhiteSpace(form.Site) && own.Length == 1
            ? own[0]
            : own.FirstOrDefault(site => Names(form.Site, site.Id, site.Name));
    }

    private static bool Names(string? text, Guid id, string name) =>
        text is not null && (string.Equals(text.Trim(), name, StringComparison.OrdinalIgnoreCase) || (Guid.TryParse(text, out var given) && given == id));

    private static PickupWindow? WindowOf(WindowForm form, string timeZone, IDictionary<string, string> errors)
    {
        if (PickupFormValidator.Date(form.Date) is not { } date || PickupFormValidator.Time(form.From) is not { } from || PickupFormValidator.Time(form.To) is not { } to)
            return null;
        var zone = TimeZoneInfo.FindSystemTimeZoneById(timeZone);
        var opens = At(from, "window.from");
        var closes = At(to, "window.to");
        return opens is null || closes is null || closes <= opens ? null : new(opens.Value, closes.Value, timeZone);

        DateTimeOffset? At(TimeOnly time, string field)
        {
            var local = date.ToDateTime(time);
            if (zone.IsInvalidTime(local))
            {
                errors.TryAdd(field, T("The clocks skip that time on this day."));
                return null;
            }

            // When the clocks go back an hour happens twice; the first of the two is meant.
            var offset = zone.IsAmbiguousTime(local) ? zone.GetAmbiguousTimeOffsets(local).Max() : zone.GetUtcOffset(local);
            return new DateTimeOffset(local, offset).ToUniversalTime();
        }
    }
}
