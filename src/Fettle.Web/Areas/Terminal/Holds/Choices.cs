using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Web.Declarations;

namespace Fettle.Web.Areas.Terminal.Holds;

public static class DecisionChoices
{
    /// <summary>In the order in which a reviewer reaches for them.</summary>
    public static IEnumerable<(string Value, string Title, string Hint)> All => Enum.GetValues<HoldDecision>().Select(decision => decision switch
    {
        HoldDecision.Release => (decision.Word(), "Release", "It conforms after all, or has been put right."),
        HoldDecision.ReleaseAsException => (decision.Word(), "Release as an exception", "It does not conform, and travels all the same."),
        HoldDecision.Rework => (decision.Word(), "Rework here", "The terminal rebuilds it."),
        HoldDecision.Return => (decision.Word(), "Return", "It goes back to the shipper."),
        HoldDecision.Refuse => (decision.Word(), "Refuse", "The carrier does not take it."),
    });
}

/// <summary>A declared line as short lines of text.</summary>
public static class DeclaredFacts
{
    public static IEnumerable<(string Name, string Value)> Of(HandlingUnit unit, UnitSystem units)
    {
        string Long(Length length) => ((Quantity)length).Show(units);
        yield return ("Over all", $"{Long(unit.Outer.Length)} × {Long(unit.Outer.Width)} × {Long(unit.Outer.Height)}");
        yield return ("Gross weight", unit.GrossWeight.Show(units));
        if (unit.Platform is { } deck)
            yield return ("Pallet", $"{Long(deck.Length)} × {Long(deck.Width)}, {Long(deck.Height)} high, {deck.Tare.Show(units)}{(deck.Rating is { } rating ? $", rated {rating.Show(units)}" : "")}");
        switch (unit.Contents)
        {
            case CartonContents cartons:
                yield return ("Cartons", $"{cartons.Count} of {Long(cartons.Carton.Length)} × {Long(cartons.Carton.Width)} × {Long(cartons.Carton.Height)}, {cartons.Carton.GrossWeight.Show(units)} each");
                yield return ("Layers", $"{cartons.Layers} of {cartons.PerLayer}{(cartons.TopLayer > 0 ? $" and {cartons.TopLayer} on top" : "")}, {(cartons.Stack == StackKind.Column ? "straight columns" : "interlocked")}");
                yield return ("Board", cartons.Carton.Board is { } board ? $"{board.Flute}-flute, edge crush {board.EdgeCrush:0.#} lb/in" : "not known");
                break;
            default:
                yield return ("Contents", ContentsInWords.Of(unit.Contents).Say(units));
                break;
        }

        yield return ("Film", $"{unit.Protection.WrapTurns} {(unit.Protection.WrapTurns == 1 ? "turn" : "turns")}, {(unit.Protection.WrapOverPlatform ? "over the pallet" : "not over the pallet")}");
        yield return ("Corner boards", unit.Protection.CornerBoards switch
        {
            CornerBoards.None => "none",
            CornerBoards.Partial => "end above the pallet",
            CornerBoards.ToPlatform => "down to the pallet",
        });
        yield return ("Stackable", unit.Stackable ? "declared stackable" : "declared not stackable");
    }

    public static string Show(this Mass mass, UnitSystem units) => ((Quantity)mass).Show(units);
}
