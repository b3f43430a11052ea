using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Figures that cannot all be true, with the likely correction.</summary>
public static class ConsistencyRule
{
    private static readonly Basis OuterIncludesPlatform = Basis.Arithmetic("outer dimensions include the platform");

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var outer = check.Unit.Outer;
        if (check.Unit.Platform is { } deck)
        {
            foreach (var finding in Sides(check, outer, deck))
                yield return finding;
        }

        if (check.Cartons is not { } cartons)
            yield break;
        if (check.Shape.CartonsDoNotFit)
            yield return check.Find(
                FindingCodes.InconsistentDimensions,
                Severity.Stop,
                "contents.perLayer",
                Quantity.Pieces(cartons.PerLayer),
                Quantity.Pieces(MostThatFit(check, cartons)),
                Basis.Arithmetic("cartons × footprint against outer length × width"),
                $"{cartons.PerLayer} cartons of {cartons.Carton.Length} × {cartons.Carton.Width} do not fit in one layer of {outer.Length} × {outer.Width}; at most {MostThatFit(check, cartons)} do.",
                $"Check the count in a layer, the carton's size and the outer size.");
        var expected = (check.Unit.Platform?.Height ?? Length.Zero) + (cartons.Carton.Height * cartons.Tiers);
        var tolerance = Length.Max(check.Rules.Consistency.Size, expected * (check.Rules.Consistency.SizePercent / 100));
        if ((outer.Height - expected).Abs() <= tolerance)
            yield break;
        yield return check.Find(
            FindingCodes.InconsistentDimensions,
            Severity.Stop,
            "outer.height",
            outer.Height,
            expected,
            Basis.Arithmetic("platform height + layers × carton height"),
            $"{cartons.Tiers} layers of {cartons.Carton.Height} on the pallet make {expected}, but {outer.Height} is declared. {Likely(outer.Height, expected)}",
            $"Measure the height again, or correct the layers or the carton's height.");
    }

    private static IEnumerable<Finding> Sides(UnitUnderCheck check, Dimensions outer, Platform deck)
    {
        // A quarter of an inch is what a tape measure argues about.
        var slack = Length.FromInches(0.25);
        if (outer.Length < deck.Length - slack)
            yield return TooSmall("outer.length", outer.Length, deck.Length, "length");
        if (outer.Width < deck.Width - slack)
            yield return TooSmall("outer.width", outer.Width, deck.Width, "width");
        if (outer.Height <= deck.Height)
            yield return TooSmall("outer.height", outer.Height, deck.Height, "height");

        Finding TooSmall(string subject, Length declared, Length platform, string side) => check.Find(
            FindingCodes.InconsistentDimensions,
            Severity.Stop,
            subject,
            declared,
            platform,
            OuterIncludesPlatform,
            $"The outer {side} of {declared} is less than the pallet's own {platform}. {Likely(declared, platform)}",
            $"Measure the greatest outside {side}, pallet included.");
    }

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
        return Phrase.Of($"{expected} would fit.");
    }

    private static int MostThatFit(UnitUnderCheck check, CartonContents cartons)
    {
        var deck = check.Unit.Platform;
        var outer = check.Unit.Outer;
        return Fettle.Engineering.Patterns.PatternFinder.Best(
            deck is null ? outer.Length : Length.Max(outer.Length, deck.Length),
            deck is null ? outer.Width : Length.Max(outer.Width, deck.Width),
            cartons.Carton.Length,
            cartons.Carton.Width).Count;
    }
}
