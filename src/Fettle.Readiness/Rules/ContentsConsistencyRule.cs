using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Contents other than layers of like cartons that cannot be inside the declared outer size.</summary>
public static class ContentsConsistencyRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check) => Dense(check).Concat(Fits(check));

    private static IEnumerable<Finding> Fits(UnitUnderCheck check) => check.Unit.Contents switch
    {
        MixedCartonContents mixed => Mixed(check, mixed),
        DrumContents drums => Standing(check, drums.Diameter, drums.Height, drums.Count, drums.Tiers, "contents.diameter", Phrase.Of($"drum")),
        RollContents { Standing: RollStanding.OnEnd } rolls => Standing(check, rolls.Diameter, rolls.Width, rolls.Count, null, "contents.diameter", Phrase.Of($"roll")),
        RollContents rolls => Lying(check, rolls),
        MachineryContents { CentreOfGravity: { } height } => Inside(check, height),
        _ => [],
    };

    /// <summary>Where neither a platform nor a carton says how large it must be, its density does.</summary>
    private static IEnumerable<Finding> Dense(UnitUnderCheck check)
    {
        var density = check.Measures.Density;
        var densest = Density.FromPoundsPerCubicFoot(check.Rules.Consistency.DensestPoundsPerCubicFoot);
        if (check.Unit.Platform is not null || check.Cartons is not null || density <= densest)
            yield break;
        var shown = Density.FromPoundsPerCubicFoot(Math.Min(1_000_000, density.PoundsPerCubicFoot));
        yield return Contradiction(
            check,
            "grossWeight",
            shown,
            densest,
            "nothing that is shipped is denser than lead",
            $"{check.Unit.GrossWeight} in {check.Unit.Outer.Length} × {check.Unit.Outer.Width} × {check.Unit.Outer.Height} would be denser than lead. Typed in feet, or in another unit?",
            $"Measure the outer size and weigh the unit again.");
    }

    private static Length Tolerance(UnitUnderCheck check, Length computed) =>
        Length.Max(check.Rules.Consistency.Size, computed * (check.Rules.Consistency.SizePercent / 100));

    private static Length InnerHeight(UnitUnderCheck check) => Length.Max(Length.Zero, check.Unit.Outer.Height - (check.Unit.Platform?.Height ?? Length.Zero));

    private static Finding Contradiction(
        UnitUnderCheck check, string subject, Quantity measured, Quantity limit, string basis, FormattableString message, FormattableString cure, FormattableString? formula = null) =>
        check.Find(FindingCodes.InconsistentDimensions, check.Rules.Consistency.Severity, subject, measured, limit, Basis.Arithmetic(basis), message, cure, formula);

    private static IEnumerable<Finding> Mixed(UnitUnderCheck check, MixedCartonContents mixed)
    {
        var outer = check.Unit.Outer;
        var height = InnerHeight(check);
        foreach (var line in mixed.Lines)
        {
            var carton = line.Carton;
            var slack = Tolerance(check, carton.Height);
            var stands = (carton.Length <= outer.Length + slack && carton.Width <= outer.Width + slack) || (carton.Width <= outer.Length + slack && carton.Length <= outer.Width + slack);
            if (stands && carton.Height <= height + slack)
                continue;
            yield return Contradiction(
                check,
                "contents.lines",
                carton.Height > height + slack ? carton.Height : Length.Max(carton.Length, carton.Width),
                carton.Height > height + slack ? height : Length.Max(outer.Length, outer.Width),
                "a carton is inside the outer size",
                $"A carton of {carton.Length} × {carton.Width} × {carton.Height} cannot stand in {outer.Length} × {outer.Width} × {height}.",
                $"Check the carton's size and the outer size.");
            yield break;
        }

        // In cubic feet: whole nanometres cubed are past what a whole number holds.
        var cartons = mixed.Lines.Sum(line => line.Count * line.Carton.Length.Feet * line.Carton.Width.Feet * line.Carton.Height.Feet);
        var room = outer.Length.Feet * outer.Width.Feet * height.Feet;
        var share = room > 0 ? cartons / room * 100 : double.MaxValue;
        var most = 100 + check.Rules.Consistency.SizePercent;
        if (share > most)
            yield return Contradiction(
                check,
                "contents.lines",
                Quantity.Percent(Math.Min(share, 1_000_000)),
                Quantity.Percent(most),
                "volume of the cartons against the outer size above the pallet",
                $"{Counted.Cartons(mixed.Pieces)} fill {Quantity.Percent(Math.Min(share, 1_000_000))} of the room that the outer size leaves above the pallet. Count or size is wrong.",
                $"Check counts, the cartons' sizes and the outer size.");
    }

    /// <summary>Round things upright, in straight or staggered rows.</summary>
    private static IEnumerable<Finding> Standing(UnitUnderCheck check, Length diameter, Length height, int count, int? declaredTiers, string subject, Phrase what)
    {
        var outer = check.Unit.Outer;
        var inner = InnerHeight(check);
        // One alone: its own size is the outer size, give or take.
        var slack = Tolerance(check, diameter);
        var perTier = DrumLayer.Most(outer.Length + slack, outer.Width + slack, diameter);
        var possible = (int)Math.Min(1000, Math.Floor((inner + Tolerance(check, height)) / height));
        var tiers = declaredTiers ?? Math.Max(1, possible);
        var needed = (count + tiers - 1) / tiers;
        if (needed > perTier)
            yield return Contradiction(
                check,
                subject,
                Quantity.Pieces(needed),
                Quantity.Pieces(perTier),
                "circles in straight or staggered rows on outer length × width",
                $"{needed} of {diameter} across cannot stand beside each other on {outer.Length} × {outer.Width}; {(perTier == 0 ? Phrase.Of($"not even one {what} does") : Phrase.Of($"at most {perTier} do"))}.",
                $"Check the count, the diameter and the outer size: what sticks out past the pallet belongs to it.");
        else if (possible < tiers)
            yield return Contradiction(
                check,
                "outer.height",
                outer.Height,
                (check.Unit.Platform?.Height ?? Length.Zero) + Long(height, tiers),
                "platform height + tiers × height of one",
                $"{tiers} of {height} above one another are higher than the outer height of {outer.Height} allows.",
                $"Measure the height again, or correct the tiers or the height of one.");
    }

    private static Length Long(Length one, int times) => Length.FromInches(Math.Min(100_000, one.Inches * times));

    private static IEnumerable<Finding> Lying(UnitUnderCheck check, RollContents rolls)
    {
        var outer = check.Unit.Outer;
        var (most, least) = (Length.Max(outer.Length, outer.Width), Length.Min(outer.Length, outer.Width));
        var (axis, across) = (Length.Max(rolls.Width, rolls.Diameter), Length.Min(rolls.Width, rolls.Diameter));
        if (axis > most + Tolerance(check, axis) || across > least + Tolerance(check, across) || rolls.Diameter > InnerHeight(check) + Tolerance(check, rolls.Diameter))
            yield return Contradiction(
                check,
                "contents.diameter",
                rolls.Diameter,
                Length.Min(least, InnerHeight(check)),
                "a roll is inside the outer size",
                $"A roll {rolls.Diameter} across and {rolls.Width} wide does not lie in {outer.Length} × {outer.Width} × {InnerHeight(check)}.",
                $"Check the roll's size and the outer size.");
    }

    private static IEnumerable<Finding> Inside(UnitUnderCheck check, Length height)
    {
        if (height > Length.Zero && height < check.Unit.Outer.Height)
            yield break;
        yield return Contradiction(
            check,
            "contents.centreOfGravity",
            height,
            check.Unit.Outer.Height,
            "a centre of gravity is inside the machine",
            $"A centre of gravity {height} over the floor is outside a unit {check.Unit.Outer.Height} high.",
            $"Correct the height of the centre of gravity, or leave it out.");
    }
}
