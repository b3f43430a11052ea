using Fettle.Engineering.Units;

namespace Fettle.Engineering.Cartons;

/// <summary>
/// Top-to-bottom compression strength of an upright regular slotted carton, new, dry and pressed once between plates,
/// after McKee, Gander and Wachuta, "Compression strength formula for corrugated boxes", Paperboard Packaging 48(8), 1963.
/// What it bears for weeks under a stack is far less: see <see cref="Stacking.Derating"/>.
/// </summary>
/// <remarks>
/// An estimate, not a measurement: meant for unpierced cartons with a height of at least a seventh of the perimeter and a
/// length of at most three widths (from memory); double wall with care. A maker's compression test beats it.
/// See docs/engineering/carton-compression.md.
/// </remarks>
public static class McKee
{
    /// <summary>Multiplier of the simplified form with a square root, as trade papers print it.</summary>
    public const double SimplifiedConstant = 5.87;

    /// <summary>Multiplier of the power form (same paper; from memory, confirmed by published code).</summary>
    public const double PowerFormConstant = 5.874;

    /// <summary>Multiplier of the full form (same paper; from memory). Unit-free, since the exponents close.</summary>
    public const double FullConstant = 2.028;

    /// <summary>The simplified form, 5.87 · ECT · √(t · Z).</summary>
    /// <param name="edgeCrushPoundsPerInch">Edge crush (ECT), lb/in, above zero.</param>
    /// <param name="caliper">Board thickness t, above zero.</param>
    /// <param name="perimeter">Carton perimeter Z = 2 (length + width), above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is zero, negative or not a number.</exception>
    public static Force Simplified(double edgeCrushPoundsPerInch, Length caliper, Length perimeter)
    {
        var (crush, t, z) = Checked(edgeCrushPoundsPerInch, caliper, perimeter);
        return Force.FromPoundsForce(SimplifiedConstant * crush * Math.Sqrt(t * z));
    }

    /// <summary>The simplified form for a board and a carton's outside length and width.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A figure is zero, negative or not a number.</exception>
    public static Force Simplified(Board board, Length cartonLength, Length cartonWidth) =>
        Simplified(board.EdgeCrush, FluteProfile.Caliper(board.Flute), Perimeter(cartonLength, cartonWidth));

    /// <summary>The power form, 5.874 · ECT · t^0.508 · Z^0.492: some 4 % below the simplified form at usual sizes.</summary>
    /// <inheritdoc cref="Simplified(double, Length, Length)" path="/param|/exception"/>
    public static Force PowerForm(double edgeCrushPoundsPerInch, Length caliper, Length perimeter)
    {
        var (crush, t, z) = Checked(edgeCrushPoundsPerInch, caliper, perimeter);
        return Force.FromPoundsForce(PowerFormConstant * crush * Math.Pow(t, 0.508) * Math.Pow(z, 0.492));
    }

    /// <summary>The full form, 2.028 · ECT^0.746 · (√(Dx · Dy))^0.254 · Z^0.492, when the board's stiffness is known.</summary>
    /// <param name="edgeCrushPoundsPerInch">Edge crush (ECT), lb/in, above zero.</param>
    /// <param name="stiffnessAcross">Flexural stiffness of the board per unit width, machine direction, lb·in, above zero.</param>
    /// <param name="stiffnessAlong">The same, cross direction, lb·in, above zero. The two may be swapped.</param>
    /// <param name="perimeter">Carton perimeter Z = 2 (length + width), above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is zero, negative or not a number.</exception>
    public static Force Full(double edgeCrushPoundsPerInch, double stiffnessAcross, double stiffnessAlong, Length perimeter)
    {
        var crush = Require.Positive(edgeCrushPoundsPerInch);
        var stiffness = Math.Sqrt(Require.Positive(stiffnessAcross) * Require.Positive(stiffnessAlong));
        var z = Require.Positive(perimeter.Inches, nameof(perimeter));
        return Force.FromPoundsForce(FullConstant * Math.Pow(crush, 0.746) * Math.Pow(stiffness, 0.254) * Math.Pow(z, 0.492));
    }

    /// <summary>The way round a carton: twice its length and width together.</summary>
    public static Length Perimeter(Length cartonLength, Length cartonWidth) => 2 * (cartonLength + cartonWidth);

    private static (double Crush, double Caliper, double Perimeter) Checked(double crush, Length caliper, Length perimeter) =>
        (Require.Positive(crush, "edgeCrushPoundsPerInch"), Require.Positive(caliper.Inches, nameof(caliper)), Require.Positive(perimeter.Inches, nameof(perimeter)));
}
