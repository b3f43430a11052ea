using Fettle.Engineering.Units;

namespace Fettle.Engineering.Lifting;

/// <summary>The six multipliers, each 0 (not to be lifted so) to 1 (ideal).</summary>
/// <param name="Horizontal">HM, for reach.</param>
/// <param name="Vertical">VM, for the height of the hands.</param>
/// <param name="Distance">DM, for the way up or down.</param>
/// <param name="Asymmetry">AM, for turning.</param>
/// <param name="Frequency">FM, for how often and how long.</param>
/// <param name="Coupling">CM, for the hold.</param>
public readonly record struct LiftingMultipliers(double Horizontal, double Vertical, double Distance, double Asymmetry, double Frequency, double Coupling)
{
    /// <summary>All six together.</summary>
    public double Product => Horizontal * Vertical * Distance * Asymmetry * Frequency * Coupling;
}

/// <summary>What one end of a lift allows.</summary>
/// <param name="Multipliers">The six multipliers.</param>
/// <param name="Recommended">The recommended weight limit, RWL.</param>
/// <param name="Index">
/// The lifting index, load over limit. The publication's goal is at most 1; above 1 the risk is raised for some workers,
/// above 3 for nearly all. Positive infinity when the lift should not be made by hand at all.
/// </param>
public sealed record LiftingLimit(LiftingMultipliers Multipliers, Mass Recommended, double Index);

/// <summary>Both ends of a lift. The far end counts when the load must be put down with care.</summary>
/// <param name="Origin">Where it is picked up.</param>
/// <param name="Destination">Where it is put down.</param>
public sealed record LiftingAssessment(LiftingLimit Origin, LiftingLimit Destination)
{
    /// <summary>The worse of the two ends.</summary>
    public LiftingLimit Worse => Destination.Index > Origin.Index ? Destination : Origin;
}
