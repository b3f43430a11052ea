namespace Fettle.Engineering.Cartons;

/// <summary>A corrugated board as printed in a carton maker's round certificate.</summary>
/// <param name="Flute">Its wave, which gives the thickness.</param>
/// <param name="EdgeCrush">
/// Edge crush (ECT) in pounds per inch: above zero, at most <see cref="GreatestEdgeCrush"/>. Common single wall 23 to 55,
/// double wall 42 to 82. Not checked here, so that a mistyped declaration can be held and shown; see <see cref="IsPlausible"/>.
/// </param>
public sealed record Board(Flute Flute, double EdgeCrush)
{
    /// <summary>Well above triple wall's 112 lb/in; anything greater is a slip of the keyboard. Our choice.</summary>
    public const double GreatestEdgeCrush = 500;

    /// <summary>One kilonewton per metre in pounds per inch: 1000 N over 4.4482216152605 N/lbf, 0.0254 m to the inch.</summary>
    public const double PoundsPerInchPerKilonewtonPerMetre = 1000 * 0.0254 / 4.4482216152605;

    /// <summary>Whether the edge crush can be meant: above zero and at most <see cref="GreatestEdgeCrush"/>.</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public bool IsPlausible => EdgeCrush is > 0 and <= GreatestEdgeCrush;

    /// <summary>From an edge crush in kilonewtons per metre (kN/m), as European board is sold.</summary>
    public static Board FromKilonewtonsPerMetre(Flute flute, double edgeCrush) => new(flute, edgeCrush * PoundsPerInchPerKilonewtonPerMetre);
}
