using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stability;

/// <summary>Whether friction alone keeps a load in its place, and what is missing (EN 12195-1). See docs/engineering/sliding.md.</summary>
public static class Sliding
{
    /// <summary>Whether the load stays: μ ≥ c with 1 g downwards. On the limit it stays.</summary>
    /// <param name="friction">Coefficient of friction μ, zero or more.</param>
    /// <param name="acceleration">Design acceleration c, share of g, zero or more.</param>
    public static bool Holds(double friction, double acceleration) =>
        Require.NotNegative(friction) >= Require.NotNegative(acceleration) * (1 - Tipping.Boundary);

    /// <summary>The force that lashing or blocking must add along the floor: (c − μ) · m · g, nothing when friction is enough.</summary>
    /// <param name="mass">Mass of the load.</param>
    /// <param name="friction">Coefficient of friction μ, zero or more.</param>
    /// <param name="acceleration">Design acceleration c, share of g, zero or more.</param>
    public static Force Missing(Mass mass, double friction, double acceleration) =>
        Holds(friction, acceleration) ? Force.Zero : Force.WeightOf(mass) * (acceleration - friction);
}
