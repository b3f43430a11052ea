namespace Fettle.Engineering.Units;

/// <summary>The family of units a person works in. What was entered is kept and shown in the family it was entered in.</summary>
public enum UnitSystem
{
    /// <summary>Inches, pounds, pounds per cubic foot, miles.</summary>
    Imperial,

    /// <summary>Centimetres, kilograms, kilograms per cubic metre, kilometres.</summary>
    Metric,
}
