using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Figures that cannot all be true, with the likely correction.</summary>
public static class ConsistencyRule
{
    private static readonly Basis OuterIncludesPlatform = Basis.Arithmetic("outer dimensions include the platform");
    private static readonly Basis MiddleOnDeck = Basis.Arithmetic("a carton falls off once its middle is past the deck's edge");

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var unit = check.Unit;
        if (unit.Platform is { } deck)
        {
            foreach (var finding in Deck(check, deck).Concat(Smaller(check, deck)))
                yield return finding;
        }

        if (check.Cartons is not { } cartons)
            yield break;
        if (check.Shape.CartonsDoNotFit)
        {
            var most = MostThatFit(check, cartons);
            yield return Contradiction(
                check,
                "contents.perLayer",
                Quantity.Pieces(cartons.PerLayer),
                Quantity.Pieces(most),
                Basis.Arithmetic("cartons × footprint against outer length × width"),
                $"{Counted.Cartons(cartons.PerLayer)} of {cartons.Carton.Length} × {cartons.Carton.Width} cannot stand in one layer of {unit.Outer.Length} × {unit.Outer.Width}; {(most == 0 ? "not even one fits" : $"at most {most} fit")}.",
                $"Check the count in a layer, the carton's size and the outer size.");
        }

        if (check.Shape.Layer is not null && unit.Platform is { } under)
        {
            var longest = Length.Max(cartons.Carton.Length, cartons.Carton.Width);
            if (PastTheMiddle(check, "outer.length", "length", check.Shape.Overhang.Front, unit.Outer.Length, under.Length, longest) is { } ends)
                yield return ends;
            if (PastTheMiddle(check, "outer.width", "width", check.Shape.Overhang.Left, unit.Outer.Width, under.Width, longest) is { } sides)
                yield return sides;
        }

        if (unit.Kind == HandlingUnitKind.LooseCarton && OtherSize(check, cartons.Carton) is { } other)
            yield return other;
        if (Height(check, cartons) is { } height)
            yield return height;
    }

    private static Finding Contradiction(
        UnitUnderCheck check, string subject, Quantity measured, Quantity limit, Basis basis, FormattableString message, FormattableString cure) =>
        check.Find(FindingCodes.InconsistentDimensions, check.Rules.Consistency.Severity, subject, measured, limit, basis, message, cure);

    /// <summary>A deck as small as a plate was typed in feet or metres.</summary>
    private static IEnumerable<Finding> Deck(UnitUnderCheck check, Platform deck)
    {
        var smallest = check.Rules.Consistency.SmallestDeck;
        if (deck.Length < smallest)
            yield return TooSmall("platform.length", "length", deck.Length);
        if (deck.Width < smallest)
            yield return TooSmall("platform.width", "width", deck.Width);

        Finding TooSmall(string subject, string side, Length declared)
        {
            var feet = declared * 12;
            var likely = feet >= 2 * smallest && feet <= 10 * smallest ? Phrase.Of($"Typed in feet? {feet} would be likely.") : Phrase.Of($"Was it typed in another unit?");
            return Contradiction(
                check,
                subject,
                declared,
                smallest,
                check.BasisOf(rules => rules.Consistency.SmallestDeck, Basis.CommonPractice("no pallet is smaller than a foot")),
                $"No pallet has a {side} of {declared}. {likely}",
                $"Measure the pallet's {side} again.");
        }
    }

    private static IEnumerable<Finding> Smaller(UnitUnderCheck check, Platform deck)
    {
        var outer = check.Unit.Outer;
        var slack = check.Rules.Consistency.Tape;
        if (outer.Length < deck.Length - slack)
            yield return TooSmall("outer.length", outer.Length, deck.Length, "length");
        if (outer.Width < deck.Width - slack)
            yield return TooSmall("outer.width", outer.Width, deck.Width, "width");
        // Where the cartons say how high the load must be, their reckoning is the better one.
        if (outer.Height <= deck.Height && check.Cartons is null)
            yield return TooSmall("outer.height", outer.Height, deck.Height, "height");

        Finding TooSmall(string subject, Length declared, Length platform, string side) => Contradiction(
            check,
            subject,
            declared,
            platform,
            OuterIncludesPlatform,
            $"The outer {side} of {declared} is {(declared < platform ? "less" : "no more")} than the pallet's own {platform}. {Likely(declared, platform)}",
            $"Measure the greatest outside {side}, pallet included.");
    }

    private static Finding? PastTheMiddle(UnitUnderCheck check, string subject, string side, Length over, Length declared, Length deck, Length carton)
    {
        if (over <= carton / 2)
            return null;
        return Contradiction(
            check,
            subject,
            declared,
            deck + carton,
            MiddleOnDeck,
            $"With an outer {side} of {declared} on a deck of {deck}, cartons of {carton} would stand with their middle past the edge and fall. {Likely(declared, deck)}",
            $"Measure the outer {side} and the pallet again.");
    }

    private static Finding? OtherSize(UnitUnderCheck check, Carton carton)
    {
        var outer = check.Unit.Outer;
        // A carton that lies the other way round is the same carton.
        var turned = Off(carton.Width, carton.Length) < Off(carton.Length, carton.Width);
        var (length, width) = turned ? (carton.Width, carton.Length) : (carton.Length, carton.Width);
        if (Off(length, width) <= Tolerance(check, Length.Max(length, width)))
            return null;
        var byLength = (outer.Length - length).Abs() >= (outer.Width - width).Abs();
        var (subject, declared, own) = byLength ? ("outer.length", outer.Length, length) : ("outer.width", outer.Width, width);
        return Contradiction(
            check,
            subject,
            declared,
            own,
            Basis.Arithmetic("a loose carton is as large as its carton"),
            $"The carton is declared {carton.Length} × {carton.Width}, but {outer.Length} × {outer.Width} outside. {Likely(declared, own)}",
            $"Measure the carton again.");

        Length Off(Length length, Length width) => Length.Max((outer.Length - length).Abs(), (outer.Width - width).Abs());
    }

    private static Finding? Height(UnitUnderCheck check, CartonContents cartons)
    {
        var unit = check.Unit;
        var expected = (unit.Platform?.Height ?? Length.Zero) + (cartons.Carton.Height * cartons.Tiers);
        var off = unit.Outer.Height - expected;
        // A crate has a floor and a lid of its own: it may well be taller than what is in it.
        var apart = unit.Kind == HandlingUnitKind.Crate ? -off : off.Abs();
        if (apart <= Tolerance(check, expected))
            return null;
        var stack = Phrase.Of($"{Counted.Layers(cartons.Tiers)} of {cartons.Carton.Height}");
        var sum = unit.Kind switch
        {
            HandlingUnitKind.Pallet => Phrase.Of($"{stack} on the pallet reach {expected}"),
            HandlingUnitKind.Crate or HandlingUnitKind.Drum or HandlingUnitKind.Piece => Phrase.Of($"{stack} need {expected}"),
            HandlingUnitKind.LooseCarton => Phrase.Of($"The carton is {expected} high"),
        };
        return Contradiction(
            check,
            "outer.height",
            unit.Outer.Height,
            expected,
            Basis.Arithmetic("platform height + layers × carton height"),
            $"{sum}, but an outer height of {unit.Outer.Height} is declared. {Likely(unit.Outer.Height, expected)}",
            $"Measure the height again, or correct the layers or the carton's height.");
    }

    private static Length Tolerance(UnitUnderCheck check, Length computed) =>
        Length.Max(check.Rules.Consistency.Size, computed * (check.Rules.Consistency.SizePercent / 100));

    /// <summary>Names the slip that would explain the figure.</summary>
    private static Phrase Likely(Length declared, Length expected)
    {
        bool Explains(double factor) => declared > Length.Zero && Math.Abs((declared * factor / expected) - 1) < 0.05;
        if (Explains(12))
            return Phrase.Of($"Typed in feet? {declared * 12} would fit.");
        if (Explains(1 / 2.54))
            return Phrase.Of($"Typed in centimetres? {declared / 2.54} would fit.");
        if (Explains(2.54))
            return Phrase.Of($"Typed in inches? {declared * 2.54} would fit.");
        if (Explains(100))
            return Phrase.Of($"Typed in metres? {declared * 100} would fit.");
        if (Explains(0.1))
            return Phrase.Of($"Typed in millimetres? {declared * 0.1} would fit.");
        return Phrase.Of($"{expected} would fit.");
    }

    private static int MostThatFit(UnitUnderCheck check, CartonContents cartons)
    {
        var deck = check.Unit.Platform;
        var outer = check.Unit.Outer;
        return PatternFinder.Best(
            deck is null ? outer.Length : Length.Max(outer.Length, deck.Length),
            deck is null ? outer.Width : Length.Max(outer.Width, deck.Width),
            cartons.Carton.Length,
            cartons.Carton.Width).Count;
    }
}
