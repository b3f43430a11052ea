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
        pickup.Verdict != Verdict.Hold ? ("ready", "Booked")
        : holds.Count == 0 || holds.Any(hold => hold.IsOpen) ? ("hold", "Held")
        : holds.All(hold => hold.Decided!.Decision == HoldDecision.Release) ? ("ready", "Released")
        : holds.All(hold => hold.Decided!.Decision is HoldDecision.Release or HoldDecision.ReleaseAsException) ? ("cautions", "Released as an exception")
        : ("hold", string.Join(", ", holds.Select(hold => hold.Decided!.Decision.Label()).Distinct()));
}

/// <summary>Computed figures as short lines.</summary>
public static class Figures
{
    public static IEnumerable<(string Name, string Figure)> Of(Measures measures, UnitSystem units)
    {
        string Show(Quantity quantity) => quantity.Show(units);
        if (measures.ComputedGrossWeight is { } computed)
            yield return ("Weight by the contents", Show(computed));
        if (measures.SelfCrushSafety is { } safety)
            yield return ("Bottom carton bears its stack", $"{safety:0.0} times");
        if (measures.TopLoadCapacity is { } capacity)
            yield return ("May carry on top (estimate)", Show(capacity));
        yield return ("Expect on top", Show(measures.TopLoadExpected));
        yield return ("Tips sideways at", $"{measures.TippingLateral:0.00} g");
        yield return ("Tips forward at", $"{measures.TippingForward:0.00} g");
        yield return ("Density and class", $"{Show(measures.Density)}, class {measures.FreightClass:0.#}");
    }

    /// <summary>What an alternative is good at beside the others.</summary>
    public static IEnumerable<string> MeritsOf(Alternative alternative) =>
        Enum.GetValues<Merits>().Where(merit => merit != Merits.None && alternative.Merits.HasFlag(merit)).Select(merit => merit switch
        {
            Merits.Cheapest => "cheapest",
            Merits.Fastest => "least work",
            Merits.NoMorePlatforms => "no more pallets",
            Merits.NoMoreMaterial => "nothing to buy",
            Merits.KeepsStackable => "stays stackable",
            Merits.LeastWrong => "least left to say",
            Merits.None => throw new InvalidOperationException("No merit has no words."),
        });

    public static string Cost(AlternativeCost cost)
    {
        var parts = new List<string>();
        if (cost.ExtraPlatforms != 0)
            parts.Add($"{cost.ExtraPlatforms:+0;-0} {(Math.Abs(cost.ExtraPlatforms) == 1 ? "pallet" : "pallets")}");
        if (cost.ExtraFloorPositions != 0)
            parts.Add($"{cost.ExtraFloorPositions:+0;-0} floor {(Math.Abs(cost.ExtraFloorPositions) == 1 ? "position" : "positions")}");
        else if (Math.Abs(cost.ExtraLinearFeet) > 0)
            parts.Add($"{cost.ExtraLinearFeet:+0.0;-0.0} ft of trailer");
        if (cost.Material != 0)
            parts.Add($"material about ${cost.Material:0.00}");
        if (cost.Minutes > 0)
            parts.Add($"about {Math.Ceiling(cost.Minutes):0} minutes of work");
        if (cost.LosesStackable)
            parts.Add("no longer stackable");
        if (cost.NewClass is { } newClass)
            parts.Add($"class {newClass:0.#} by density");
        return parts.Count == 0 ? "Costs nothing." : $"Costs: {string.Join(", ", parts)}.";
    }
}
