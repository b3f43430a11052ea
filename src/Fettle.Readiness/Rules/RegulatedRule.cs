using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>
/// Goods declared hazardous or temperature-controlled wait until a trained person is named who confirmed them. Fettle does
/// not classify and does not judge papers, marks or temperatures.
/// </summary>
public static class RegulatedRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var unit = check.Unit;
        if (!string.IsNullOrWhiteSpace(unit.ConfirmedBy))
            yield break;
        if (unit.Hazardous)
            yield return Unconfirmed("hazardous", Phrase.Of($"Declared hazardous"), Phrase.Of($"hazmat employee"), Basis.Standard("49 CFR 172.704, training of hazmat employees"));
        if (unit.TemperatureControlled)
            yield return Unconfirmed("temperatureControlled", Phrase.Of($"Declared temperature-controlled"), Phrase.Of($"person"), Basis.CommonPractice("somebody who knows the goods answers for their temperature"));

        Finding Unconfirmed(string subject, Phrase declared, Phrase who, Basis basis) => check.Find(
            FindingCodes.Regulated,
            check.Rules.Regulated.Severity,
            subject,
            Quantity.Pieces(0),
            Quantity.Pieces(1),
            basis,
            $"{declared}, and no trained {who} is named who confirmed packing, marks and papers. Fettle does not classify: people do.",
            $"Have a trained {who} check it, and give the name under 'confirmed by'.");
    }
}
