using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Figures that cannot all be true, with the likely correction.</summary>
public static class ConsistencyRule
{
    /// <summary>A tape is read, and freight built, to this share of a length. Our choice, without a source.</summary>
    private const double Near = 0.05;

    private static readonly Basis OuterIncludesPlatform = Basis.Arithmetic("outer dimensions include the platform");
    private static readonly Basis MiddleOnDeck = Basis.Arithmetic("a carton falls off once its middle is past the deck's edge");

    // One of each unit that is typed by mistake into a field of another. Their ratios are so far apart that no figure comes
    // near what is expected by two of them.
    private static readonly (Phrase? Question, Length One)[] IntoAnyField =
    [
        (Phrase.Of($"Typed in feet?"), Length.FromFeet(1)),
        (Phrase.Of($"Typed in metres?"), Length.FromMetres(1)),
        (Phrase.Of($"Typed in millimetres?"), Length.FromMillimetres(1)),
    ];

    private static readonly (Phrase? Question, Length One)[] IntoInches = [.. IntoAnyField, (Phrase.Of($"Typed in centimetres?"), Length.FromCentimetres(1))];
    private static readonly (Phrase? Question, Length One)[] IntoCentimetres = [.. IntoAnyField, (Phrase.Of($"Typed in inches?"), Length.FromInches(1))];

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
                $"{Counted.Cartons(cartons.PerLayer)} of {cartons.Carton.Length} × {cartons.Carton.Width} cannot stand in one layer of {unit.Outer.Length} × {unit.Outer.Width}; {(most == 0 ? Phrase.Of($"not even one fits") : Phrase.Of($"at most {most} fit"))}.",
                $"Check the count in a layer, the carton's size and the outer size.");
        }

        if (check.Shape.Layer is not null && unit.Platform is { } under)
        {
            var longest = Length.Max(cartons.Carton.Length, cartons.Carton.Width);
            if (PastTheMiddle(check, "outer.length", Phrase.Word("length"), check.Shape.Overhang.Front, unit.Outer.Length, under.Length, longest) is { } ends)
                yield return ends;
            if (PastTheMiddle(check, "outer.width", Phrase.Word("width"), check.Shape.Overhang.Left, unit.Outer.Width, under.Width, longest) is { } sides)
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

    /// <summary>A deck as small as a plate was typed in feet, in metres, or in inches where centimetres are asked for.</summary>
    private static IEnumerable<Finding> Deck(UnitUnderCheck check, Platform deck)
    {
        var smallest = check.Rules.Consistency.SmallestDeck;
        if (deck.Length < smallest)
            yield return TooSmall("platform.length", Phrase.Word("length"), deck.Length);
        if (deck.Width < smallest)
            yield return TooSmall("platform.width", Phrase.Word("width"), deck.Width);

        Finding TooSmall(string subject, Phrase side, Length declared)
        {
            var slip = Slips(check, declared).FirstOrDefault(slip => slip.Meant >= 2 * smallest && slip.Meant <= 10 * smallest);
            var likely = slip.Question is { } question ? Phrase.Of($"{question} {slip.Meant} would be likely.") : Phrase.Of($"Was it typed in another unit?");
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
            yield return TooSmall("outer.length", outer.Length, deck.Length, Phrase.Word("length"));
        if (outer.Width < deck.Width - slack)
            yield return TooSmall("outer.width", outer.Width, deck.Width, Phrase.Word("width"));
        // Where the cartons say how high the load must be, their reckoning is the better one.
        if (outer.Height <= deck.Height && check.Cartons is null)
            yield return TooSmall("outer.height", outer.Height, deck.Height, Phrase.Word("height"));

        Finding TooSmall(string subject, Length declared, Length platform, Phrase side) => Contradiction(
            check,
            subject,
            declared,
            platform,
            OuterIncludesPlatform,
            $"The outer {side} of {declared} is {(declared < platform ? Phrase.Of($"less") : Phrase.Of($"no more"))} than the pallet's own {platform}. {Likely(check, declared, platform)}",
            $"Measure the greatest outside {side}, pallet included.");
    }

    private static Finding? PastTheMiddle(UnitUnderCheck check, string subject, Phrase side, Length over, Length declared, Length deck, Length carton)
    {
        if (over <= carton / 2)
            return null;
        return Contradiction(
            check,
            subject,
            declared,
            deck + carton,
            MiddleOnDeck,
            $"With an outer {side} of {declared} on a deck of {deck}, cartons of {carton} would stand with their middle past the edge and fall. {Likely(check, declared, deck)}",
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
            $"The carton is declared {carton.Length} × {carton.Width}, but {outer.Length} × {outer.Width} outside. {Likely(check, declared, own)}",
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
            $"{sum}, but an outer height of {unit.Outer.Height} is declared. {Likely(check, unit.Outer.Height, expected)}",
            $"Measure the height again, or correct the layers or the carton's height.");
    }

    private static Length Tolerance(UnitUnderCheck check, Length computed) =>
        Length.Max(check.Rules.Consistency.Size, computed * (check.Rules.Consistency.SizePercent / 100));

    /// <summary>Names the slip that would explain the figure, and the figure that was meant.</summary>
    private static Phrase Likely(UnitUnderCheck check, Length declared, Length expected)
    {
        var slip = Slips(check, declared).FirstOrDefault(slip => Math.Abs((slip.Meant / expected) - 1) < Near);
        return slip.Question is { } question ? Phrase.Of($"{question} {slip.Meant} would fit.") : Phrase.Of($"{expected} would fit.");
    }

    /// <summary>What the number in the field would be in another unit; nothing when nobody knows which unit the field asks for.</summary>
    private static IEnumerable<(Phrase? Question, Length Meant)> Slips(UnitUnderCheck check, Length declared) => check.TypedIn switch
    {
        UnitSystem.Imperial => IntoInches.Select(slip => (slip.Question, slip.One * declared.Inches)),
        UnitSystem.Metric => IntoCentimetres.Select(slip => (slip.Question, slip.One * declared.Centimetres)),
        null => [],
    };

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
