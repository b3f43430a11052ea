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
        var terminal = TerminalOf(form, carriers);
        if (terminal is null)
            errors.TryAdd("terminal", T("Choose the origin terminal: {0}.", string.Join(", ", carriers.SelectMany(c => c.Terminals).Select(t => t.Name))));
        var window = site is null ? null : WindowOf(form.Window, site.TimeZone, errors);
        if (Wording.Parse<Equipment>(form.Equipment) is not { } equipment || site is null || terminal is not var (carrier, origin) || window is null)
            return null;
        return new(number, shipper.Id, site.Id, carrier.Id, origin.Id, form.Destination?.Trim() ?? "", window, equipment)
        {
            ConsigneeAddress = string.IsNullOrWhiteSpace(form.ConsigneeAddress) ? null : form.ConsigneeAddress.Trim(),
        };
    }

    /// <summary>The site named, or the only one there is.</summary>
    public static Site? SiteOf(PickupForm form, Shipper shipper, IReadOnlyList<Guid> ownSites)
    {
        var own = shipper.Sites.Where(site => ownSites.Contains(site.Id)).ToArray();
        return string.IsNullOrWhiteSpace(form.Site) && own.Length == 1
            ? own[0]
            : own.FirstOrDefault(site => Names(form.Site, site.Id, site.Name));
    }

    /// <summary>The terminal named, with its carrier.</summary>
    public static (Carrier Carrier, Terminal Terminal)? TerminalOf(PickupForm form, IReadOnlyList<Carrier> carriers)
    {
        foreach (var carrier in carriers)
        {
            foreach (var terminal in carrier.Terminals)
            {
                if (Names(form.Terminal, terminal.Id, terminal.Name) || Names(form.Terminal, terminal.Id, $"{carrier.Name}, {terminal.Name}"))
                    return (carrier, terminal);
            }
        }

        return null;
    }

    /// <summary>Whether a text is this id, or this name in any case.</summary>
    public static bool Names(string? text, Guid id, string name) =>
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
