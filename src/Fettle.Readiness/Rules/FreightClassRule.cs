using System.Globalization;
using Fettle.Engineering.Densities;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>The class on the shipper's papers against the class by density; nothing where no class is declared.</summary>
public static class FreightClassRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var (density, computed) = (check.Measures.Density, check.Measures.FreightClass);
        if (check.Unit.DeclaredClass is not { } declared || declared == computed)
            yield break;
        // Sizes that make it denser than lead are wrong, and no class follows from them.
        if (density.PoundsPerCubicFoot > check.Rules.Consistency.DensestPoundsPerCubicFoot)
            yield break;
        var outer = check.Unit.Outer;
        yield return check.Find(
            FindingCodes.FreightClass,
            check.Rules.Class.Severity,
            "declaredClass",
            Quantity.Ratio((double)declared),
            Quantity.Ratio((double)computed),
            Basis.Standard(FreightClassScale.ThirteenTier.Name),
            $"Class {Text(declared)} is declared; {density} on the outermost size is class {Text(computed)}. The carrier measures, and rates and bills again where they differ.",
            $"Correct the class, size or weight; keep the declared class if the article has a class of its own that does not follow density.",
            $"{check.Unit.GrossWeight} ÷ ({outer.Length} × {outer.Width} × {outer.Height}) = {density}");
    }

    private static string Text(decimal freightClass) => freightClass.ToString("0.#", CultureInfo.InvariantCulture);
}
