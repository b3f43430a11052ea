using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Areas.Shipper.Pickups;
using Fettle.Web.Declarations;

namespace Fettle.Web.Areas.Terminal.Holds;

/// <summary>One thing that happened to held freight, as the page tells it.</summary>
/// <param name="Side">Who did it; null for what the portal did by itself.</param>
/// <param name="Facts">Short figures that go with it.</param>
/// <param name="Changes">Fields of a corrected declaration: name, before, now.</param>
public sealed record StoryEntry(
    HoldSide? Side, string Title, string? Who, DateTimeOffset At, string? Text, IReadOnlyList<(string Name, string Value)> Facts, IReadOnlyList<(string Field, string Before, string Now)> Changes);

/// <summary>The history of a hold in words, oldest first.</summary>
public static class HoldStory
{
    public static IEnumerable<StoryEntry> Of(HoldPage page)
    {
        var zone = page.Placed.Pickup.Window.TimeZone;
        var declared = page.Placed.HandlingUnit;
        foreach (var happened in page.Happened)
        {
            yield return happened switch
            {
                HoldPlaced e => Entry(null, e.InspectionId is null ? T("Held from the declaration") : T("Held after an inspection"), null, e.At, e.ExceptionRequest is { } request ? T("Exception asked for: {0}", request) : null),
                HoldMessageSent e => Entry(e.From, T("Message"), e.By.Name, e.At, e.Text),
                ReworkOffered e => Entry(HoldSide.Terminal, T("Rework offered"), e.By.Name, e.At, e.Work, (T("Cost"), e.Cost.ToString()), (T("Offer stands until"), Clock.At(e.ValidUntil, zone))),
                ReworkOfferWithdrawn e => Entry(HoldSide.Terminal, T("Offer of rework withdrawn"), e.By.Name, e.At, e.Reason),
                ReworkAuthorised e => Entry(HoldSide.Shipper, T("Rework authorised"), e.By.Name, e.At, null, (T("Cost"), e.Cost.ToString())),
                HoldExceptionRequested e => Entry(HoldSide.Shipper, T("Exception asked for"), e.By.Name, e.At, e.Reason),
                HoldDisputed e => Entry(HoldSide.Shipper, T("Hold disputed"), e.By.Name, e.At, e.Evidence),
                HoldDeclarationCorrected e => Corrected(e, ref declared, page.Placed.Units),
                HoldDecided e => Entry(
                    HoldSide.Terminal,
                    e.Supersedes is null ? e.Decision.Label() : T("{0}, in place of the earlier decision", e.Decision.Label()),
                    e.By.Name,
                    e.At,
                    e.Reason,
                    e.Exception is { } terms
                        ? [(T("Exception"), terms.Number), (T("Risk"), terms.Risk), (T("Accepted by"), terms.AcceptedBy), (T("Until"), Clock.At(terms.Until, zone)), (T("Conditions"), terms.Conditions)]
                        : []),
                HoldInspected e => Entry(HoldSide.Terminal, T("Inspected"), e.By.Name, e.At, null, (T("The check says"), e.Verdict.Label())),
                HoldReminded e => Entry(null, e.Side == HoldSide.Shipper ? T("The shipper was reminded") : T("The terminal was reminded"), null, e.At, null, (T("Time ends"), Clock.At(e.By, zone))),
                HoldEscalated e => Entry(
                    null, e.Side == HoldSide.Shipper ? T("Overdue: the shipper has not answered") : T("Overdue: the terminal has not decided"), null, e.At, T("The terminal and the account managers were told."), (T("Time ended"), Clock.At(e.By, zone))),
                _ => throw new InvalidOperationException($"The page has no words for {happened.GetType().Name}."),
            };
        }
    }

    private static StoryEntry Entry(HoldSide? side, string title, string? who, DateTimeOffset at, string? text, params IReadOnlyList<(string, string)> facts) =>
        new(side, title, who, at, text, facts, []);

    private static StoryEntry Corrected(HoldDeclarationCorrected corrected, ref HandlingUnit before, UnitSystem units)
    {
        var changes = FormDifference.Between(AsForm(before, units), AsForm(corrected.HandlingUnit, units));
        var form = AsForm(before, units);
        before = corrected.HandlingUnit;
        return new(
            HoldSide.Shipper,
            T("Declaration corrected"),
            corrected.By.Name,
            corrected.At,
            null,
            [(T("The check says"), corrected.Verdict.Label()), (T("Judged by"), corrected.RuleSet.Say())],
            [.. changes.Select(change => (EditorFields.NameOf(change.Field, form), YesOrNo(change.Saved), YesOrNo(change.Yours)))]);
    }

    /// <summary>A box that is ticked or not, in words.</summary>
    private static string YesOrNo(string value) => value switch
    {
        "true" => T("Yes"),
        "false" => T("No"),
        _ => value,
    };

    private static PickupForm AsForm(HandlingUnit unit, UnitSystem units) => new() { HandlingUnits = [Writing.Form(unit, units)] };
}

/// <summary>Where held freight stands, in one line.</summary>
public static class HoldStanding
{
    /// <returns>The tone of its badge, and the words.</returns>
    public static (string Tone, string Words) Of(Hold hold, DateTimeOffset now) => hold switch
    {
        { AwaitsInspection: true } => ("cautions", T("Being rebuilt here, then inspected")),
        { Decided: { } decided } => (decided.Decision switch
        {
            HoldDecision.Release => "ready",
            HoldDecision.ReleaseAsException or HoldDecision.Rework => "cautions",
            HoldDecision.Return or HoldDecision.Refuse => "hold",
        }, decided.Decision.Label()),
        { Turn: { } turn } when turn.By < now => ("hold", turn.Side == HoldSide.Shipper ? T("Overdue: waits for the shipper") : T("Overdue: waits for the terminal")),
        { Turn.Side: HoldSide.Shipper } => ("cautions", T("Waits for the shipper")),
        _ => ("cautions", T("Waits for the terminal")),
    };
}
