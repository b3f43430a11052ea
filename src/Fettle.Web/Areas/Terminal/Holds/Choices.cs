using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Web.Declarations;
using Fettle.Web.Holds;

namespace Fettle.Web.Areas.Terminal.Holds;

public static class DecisionChoices
{
    /// <summary>In the order in which a reviewer reaches for them.</summary>
    public static IEnumerable<(string Value, string Title, string Hint)> All => Enum.GetValues<HoldDecision>().Select(decision => decision switch
    {
        HoldDecision.Release => (decision.Word(), T("Release"), T("It conforms after all, or has been put right.")),
        HoldDecision.ReleaseAsException => (decision.Word(), T("Release as an exception"), T("It does not conform, and travels all the same.")),
        HoldDecision.Rework => (decision.Word(), T("Rework here"), T("The terminal rebuilds it.")),
        HoldDecision.Return => (decision.Word(), T("Return"), T("It goes back to the shipper.")),
        HoldDecision.Refuse => (decision.Word(), T("Refuse"), T("The carrier does not take it.")),
    });
}

/// <summary>The fields that go with a release as an exception.</summary>
public sealed record ExceptionFields(DecisionForm Form, IReadOnlyDictionary<string, string> Errors)
{
    public string? Error(string field) => Errors.GetValueOrDefault(field);
}

/// <summary>A declared line as short lines of text.</summary>
public static class DeclaredFacts
{
    public static IEnumerable<(string Name, string Value)> Of(HandlingUnit unit, UnitSystem units)
    {
        string Long(Length length) => ((Quantity)length).Show(units);
        yield return (T("Over all"), $"{Long(unit.Outer.Length)} × {Long(unit.Outer.Width)} × {Long(unit.Outer.Height)}");
        yield return (T("Gross weight"), unit.GrossWeight.Show(units));
        if (unit.Platform is { } deck)
            yield return (T("Pallet"), T("{0} × {1}, {2} high, {3}{4}", Long(deck.Length), Long(deck.Width), Long(deck.Height), deck.Tare.Show(units), deck.Rating is { } rating ? T(", rated {0}", rating.Show(units)) : ""));
        switch (unit.Contents)
        {
            case CartonContents cartons:
                yield return (T("Cartons"), T("{0} of {1} × {2} × {3}, {4} each", cartons.Count, Long(cartons.Carton.Length), Long(cartons.Carton.Width), Long(cartons.Carton.Height), cartons.Carton.GrossWeight.Show(units)));
                yield return (T("Layers"), T("{0} of {1}{2}, {3}", cartons.Layers, cartons.PerLayer, cartons.TopLayer > 0 ? T(" and {0} on top", cartons.TopLayer) : "", T(cartons.Stack == StackKind.Column ? "straight columns" : "interlocked")));
                yield return (T("Board"), cartons.Carton.Board is { } board ? T("{0}-flute, edge crush {1:0.#} lb/in", board.Flute, board.EdgeCrush) : T("not known"));
                break;
            default:
                yield return (T("Contents"), ContentsInWords.Of(unit.Contents).Say(units));
                break;
        }

        yield return (T("Film"), T("{0} {1}, {2}", unit.Protection.WrapTurns, T(unit.Protection.WrapTurns == 1 ? "turn" : "turns"), T(unit.Protection.WrapOverPlatform ? "over the pallet" : "not over the pallet")));
        yield return (T("Corner boards"), unit.Protection.CornerBoards switch
        {
            CornerBoards.None => T("none"),
            CornerBoards.Partial => T("end above the pallet"),
            CornerBoards.ToPlatform => T("down to the pallet"),
        });
        yield return (T("Stackable"), unit.Stackable ? T("declared stackable") : T("declared not stackable"));
    }

    public static string Show(this Mass mass, UnitSystem units) => ((Quantity)mass).Show(units);
}
