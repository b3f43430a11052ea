using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Web.Catalogue;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Microsoft.Extensions.Primitives;

namespace Fettle.Web.Areas.Shipper.Pickups;

/// <summary>
/// The buttons of the declaration page that take from the catalogue or add to it. What belongs to them is typed into fields
/// whose names begin with <see cref="Prefix"/> and are no part of the declaration.
/// </summary>
public sealed class CatalogueActions(CatalogueDesk desk)
{
    public const string Prefix = "catalogue-";

    /// <summary>Does what the button says, to the form or to the catalogue; nothing when it is no such button.</summary>
    /// <param name="action">The button's value, split at its colons.</param>
    /// <param name="line">The line it stands in; -1 for none.</param>
    public async Task<CatalogueDone> DoAsync(string[] action, int line, PickupForm form, IFormCollection typed, IReadOnlyList<Carrier> carriers, Guid siteId, Caller caller, CancellationToken cancel)
    {
        var units = form.Units == "metric" ? UnitSystem.Metric : UnitSystem.Imperial;
        switch (action[0])
        {
            case "use-carton" when line >= 0:
                if (await ChosenAsync(typed, $"carton-{line}", caller, cancel) is not { Carton: { } carton } chosenCarton)
                    return new(Notice: EditorNotice.Refused(T("Choose a carton from your catalogue first.")));
                form.HandlingUnits[line].Contents.Carton = Writing.Carton(carton, units);
                return new(Notice: EditorNotice.Done(T("{0} was filled in.", chosenCarton.Name)));

            case "use-platform" when line >= 0:
                if (await ChosenAsync(typed, $"platform-{line}", caller, cancel) is not { Platform: { } deck } chosenDeck)
                    return new(Notice: EditorNotice.Refused(T("Choose a pallet from your catalogue first.")));
                form.HandlingUnits[line].Platform = Writing.Platform(deck, units);
                return new(Notice: EditorNotice.Done(T("{0} was filled in.", chosenDeck.Name)));

            case "add-build":
                if (await ChosenAsync(typed, "build", caller, cancel) is not { Build: not null } build)
                    return new(Notice: EditorNotice.Refused(T("Choose a build from your catalogue first.")));
                return new(Notice: await AddAsync(build, form, typed[Prefix + "quantity"], units, carriers, cancel));

            case "save-build" when line >= 0:
                return await SaveAsync(line, form, typed[$"{Prefix}name-{line}"], carriers, siteId, caller, cancel);

            default:
                return CatalogueDone.Nothing;
        }
    }

    private async Task<EditorNotice> AddAsync(CatalogueEntry entry, PickupForm form, string? quantity, UnitSystem units, IReadOnlyList<Carrier> carriers, CancellationToken cancel)
    {
        var build = await desk.UsedWithAsync(entry, Heading.TerminalOf(form, carriers)?.Carrier.Id, cancel);
        // The empty line that a new pickup begins with makes room.
        var fresh = form.HandlingUnits is [var only] && IsUntouched(only) ? only : null;
        if (fresh is null && form.HandlingUnits.Count >= PickupFormValidator.MostLines)
            return EditorNotice.Refused(T("A pickup holds at most {0} lines.", PickupFormValidator.MostLines));
        var line = Writing.Form(build.Unit, units) with
        {
            Reference = string.IsNullOrWhiteSpace(fresh?.Reference) ? PickupsController.FreeReference(form) : fresh.Reference,
            Quantity = string.IsNullOrWhiteSpace(quantity) ? "1" : quantity,
            // Somebody confirms regulated goods anew each time.
            ConfirmedBy = null,
        };
        if (fresh is not null)
            form.HandlingUnits.Clear();
        form.HandlingUnits.Add(line);
        return build.Against is { } against
            ? EditorNotice.DoneBut(T("{0} was added from {1}, which {2} would hold now: look at what has changed.", line.Reference, entry.Name, against.RuleSet.Say()))
            : EditorNotice.Done(T("{0} was added from {1}.", line.Reference, entry.Name));
    }

    private async Task<CatalogueDone> SaveAsync(int line, PickupForm form, string? name, IReadOnlyList<Carrier> carriers, Guid siteId, Caller caller, CancellationToken cancel)
    {
        CatalogueDone Not(string why) => new(NotSaved: new(line, name, why));
        if (CatalogueName.Complaint(name) is { } complaint)
            return Not(complaint);
        var reading = Reading.Of(form);
        if (line >= reading.Lines.Count || reading.Lines[line] is not { } unit || reading.Lane is not { } lane)
            return Not(T("Fill in what is missing first: only a unit that passed the check is kept."));
        var (entry, refusal) = await desk.BuildAsync(name!, unit, lane, reading.Units, Heading.TerminalOf(form, carriers)?.Carrier.Id, siteId, caller, cancel);
        refusal ??= await desk.AddAsync(entry!, null, cancel);
        return refusal switch
        {
            null => new(Notice: EditorNotice.Done(T("{0} is in your catalogue now. Next time choose it under \"Declare again\".", entry!.Name))),
            BuildWouldBeHeld held => Not(T("Only a unit that would not be held is kept as a standard build. {0}", held.Why.Say(reading.Units))),
            _ => Not(refusal.Message.Say(reading.Units)),
        };
    }

    /// <summary>What the select names, when it is the caller's and still offered.</summary>
    private async Task<CatalogueEntry?> ChosenAsync(IFormCollection typed, string field, Caller caller, CancellationToken cancel) =>
        typed[Prefix + field] is var chosen && !StringValues.IsNullOrEmpty(chosen) && Guid.TryParse(chosen, out var id)
        && await desk.FindAsync(id, caller, cancel) is { IsRetired: false } entry
            ? entry
            : null;

    private static bool IsUntouched(UnitForm line) => string.IsNullOrWhiteSpace(
        line.Outer.Length + line.Outer.Width + line.Outer.Height + line.GrossWeight + line.Contents.PerLayer + line.Contents.Layers + line.Contents.Description
        + line.Contents.Carton.Length + line.Contents.Carton.Width + line.Contents.Carton.Height + line.Contents.Carton.GrossWeight + line.Contents.Count)
        && line.Contents.Lines.Count == 0;
}

/// <param name="Notice">What was done, or why not.</param>
/// <param name="NotSaved">Why a build was not kept.</param>
public sealed record CatalogueDone(EditorNotice? Notice = null, BuildNotSaved? NotSaved = null)
{
    public static readonly CatalogueDone Nothing = new();
}

/// <summary>The name stays as it was typed, with what is wrong beside it.</summary>
public sealed record BuildNotSaved(int Line, string? Name, string Why);
