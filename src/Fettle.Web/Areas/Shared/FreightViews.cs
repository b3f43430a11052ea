using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;

namespace Fettle.Web.Areas.Shared;

public sealed record FindingView(Finding Finding, UnitSystem Units);

/// <summary>What happened to a submitted pickup, in a word for the style sheet and one for people.</summary>
public static class PickupState
{
    public static (string Word, string Text) Of(Pickup pickup, IReadOnlyList<Hold> holds) =>
        pickup.Verdict != Verdict.Hold ? ("ready", T("Booked"))
        : holds.Count == 0 || holds.Any(hold => hold.IsOpen) ? ("hold", T("Held"))
        : holds.All(hold => hold.Decided!.Decision == HoldDecision.Release) ? ("ready", T("Released"))
        : holds.All(hold => hold.Decided!.Decision is HoldDecision.Release or HoldDecision.ReleaseAsException) ? ("cautions", T("Released as an exception"))
        : ("hold", string.Join(", ", holds.Select(hold => hold.Decided!.Decision.Label()).Distinct()));
}

/// <summary>Computed figures as short lines.</summary>
public static class Figures
{
    public static IEnumerable<(string Name, string Figure)> Of(Measures measures, UnitSystem units)
    {
        string Show(Quantity quantity) => quantity.Show(units);
        if (measures.ComputedGrossWeight is { } computed)
            yield return (T("Weight by the contents"), Show(computed));
        if (measures.SelfCrushSafety is { } safety)
            yield return (T("Bottom carton bears its stack"), T("{0:0.0} times", safety));
        if (measures.TopLoadCapacity is { } capacity)
            yield return (T("May carry on top (estimate)"), Show(capacity));
        yield return (T("Expect on top"), Show(measures.TopLoadExpected));
        yield return (T("Tips sideways at"), $"{measures.TippingLateral:0.00} g");
        yield return (T("Tips forward at"), $"{measures.TippingForward:0.00} g");
        yield return (T("Density and class"), T("{0}, class {1:0.#}", Show(measures.Density), measures.FreightClass));
    }

    /// <summary>What an alternative is good at beside the others.</summary>
    public static IEnumerable<string> MeritsOf(Alternative alternative) =>
        Enum.GetValues<Merits>().Where(merit => merit != Merits.None && alternative.Merits.HasFlag(merit)).Select(merit => merit switch
        {
            Merits.Cheapest => T("cheapest"),
            Merits.Fastest => T("least work"),
            Merits.NoMorePlatforms => T("no more pallets"),
            Merits.NoMoreMaterial => T("nothing to buy"),
            Merits.KeepsStackable => T("stays stackable"),
            Merits.LeastWrong => T("least left to say"),
            Merits.None => throw new InvalidOperationException("No merit has no words."),
        });

    public static string Cost(AlternativeCost cost)
    {
        var parts = new List<string>();
        if (cost.ExtraPlatforms != 0)
            parts.Add(T(Math.Abs(cost.ExtraPlatforms) == 1 ? "{0:+0;-0} pallet" : "{0:+0;-0} pallets", cost.ExtraPlatforms));
        if (cost.ExtraFloorPositions != 0)
            parts.Add(T(Math.Abs(cost.ExtraFloorPositions) == 1 ? "{0:+0;-0} floor position" : "{0:+0;-0} floor positions", cost.ExtraFloorPositions));
        else if (Math.Abs(cost.ExtraLinearFeet) > 0)
            parts.Add(T("{0:+0.0;-0.0} ft of trailer", cost.ExtraLinearFeet));
        if (cost.Material != 0)
            parts.Add(T("material about ${0:0.00}", cost.Material));
        if (cost.Minutes > 0)
            parts.Add(T("about {0:0} minutes of work", Math.Ceiling(cost.Minutes)));
        if (cost.LosesStackable)
            parts.Add(T("no longer stackable"));
        if (cost.NewClass is { } newClass)
            parts.Add(T("class {0:0.#} by density", newClass));
        return parts.Count == 0 ? T("Costs nothing.") : T("Costs: {0}.", string.Join(", ", parts));
    }
}
