using System.Collections.Concurrent;
using Fettle.Engineering.MixedCartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>
/// Cartons of several sizes on one pallet: whether there is an order of stacking, strong and heavy ones low, in which none
/// bears more than it can. How the dock stacks them is not declared, so that this is the best case; a worse one is possible.
/// </summary>
public static class MixedCartonRule
{
    private static readonly Basis Basis = Basis.Standard(
        "McKee, Gander and Wachuta 1963 (simplified form), derated by the factors of the Fibre Box Handbook; stacked by our own search");

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Unit is not { Kind: HandlingUnitKind.Pallet, Platform: { } deck, Contents: MixedCartonContents mixed })
            yield break;
        var kinds = new CartonKind[mixed.Lines.Count];
        for (var i = 0; i < kinds.Length; i++)
        {
            var carton = mixed.Lines[i].Carton;
            // In a mixed load edges seldom stand on edges: derated as interlocked layers are.
            if (UnitUnderCheck.StrengthOf(carton, StackKind.Interlocked, check.Shape.Overhang.Greatest, deckGaps: false, check.Lane, check.Rules.Strength) is not var (fresh, left))
            {
                if (check.Unit.Stackable)
                    yield return Unknown(check, carton);
                yield break;
            }

            kinds[i] = new(carton.Length, carton.Width, carton.Height, carton.GrossWeight, mixed.Lines[i].Count, fresh * (left.Product / check.Rules.Strength.SafetyFactor));
        }

        var room = new PalletRoom(
            Length.Max(deck.Length, check.Unit.Outer.Length),
            Length.Max(deck.Width, check.Unit.Outer.Width),
            Length.Max(Length.FromInches(1), check.Unit.Outer.Height - deck.Height) + check.Rules.Consistency.Size,
            Mass.FromPounds(100_000));
        var crushed = Recent.Build(kinds, room).LeftOut.Where(left => left.Reason == LeftOutReason.Strength).ToArray();
        if (crushed.Length == 0)
            yield break;
        var (worst, count) = (mixed.Lines[crushed[0].Kind].Carton, crushed.Sum(left => left.Count));
        yield return check.Find(
            FindingCodes.SelfCrush,
            check.Rules.Strength.BelowFactorSeverity,
            "contents.lines",
            Quantity.Pieces(count),
            Quantity.Pieces(0),
            Basis,
            $"However they were stacked here, {Counted.Cartons(count)} found no place where those below can bear them, the first of {worst.Length} × {worst.Width} × {worst.Height} and {worst.GrossWeight}.",
            $"Use another pallet for some, stronger board for those below, or say how low the load is.");
    }

    private static Finding Unknown(UnitUnderCheck check, Carton carton) => check.Find(
        FindingCodes.BoardUnknown,
        check.Rules.Strength.UnknownBoardSeverity,
        "contents.lines",
        Quantity.Pieces(0),
        Quantity.Pieces(1),
        Basis.CommonPractice("a claim that freight double-stacks is worth what can be shown for it"),
        $"Declared stackable, but the board of the carton of {carton.Length} × {carton.Width} × {carton.Height} is not given: nobody can say what the load bears.",
        $"Give flute and edge crush as printed in the maker's mark on the carton.");

    /// <summary>
    /// Loads built lately: the check is run again for every change of a page and every alternative, and most changes leave the
    /// cartons alone. The answers are the same with and without. Thread-safe; starts afresh when full.
    /// </summary>
    private static class Recent
    {
        private const int Most = 500;

        private static readonly ConcurrentDictionary<Mix, MixedLoad> Loads = new();

        public static MixedLoad Build(CartonKind[] kinds, PalletRoom room)
        {
            if (Loads.Count >= Most)
                Loads.Clear();
            return Loads.GetOrAdd(new Mix(kinds, room), mix => MixedLoadBuilder.Build(mix.Kinds, mix.Room));
        }

        private sealed record Mix(CartonKind[] Kinds, PalletRoom Room)
        {
            public bool Equals(Mix? other) => other is not null && Room == other.Room && Kinds.SequenceEqual(other.Kinds);

            public override int GetHashCode() => Kinds.Aggregate(Room.GetHashCode(), HashCode.Combine);
        }
    }
}
