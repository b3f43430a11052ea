using Fettle.Engineering.Units;

namespace Fettle.Engineering.Lifting;

/// <summary>How long a day the lifting goes on, breaks included as the publication defines them.</summary>
public enum LiftingDuration
{
    /// <summary>Up to an hour, with at least as long a recovery.</summary>
    UpToOneHour,

    /// <summary>Over one and up to two hours, with a recovery of at least three tenths of it.</summary>
    OneToTwoHours,

    /// <summary>Over two and up to eight hours.</summary>
    TwoToEightHours,
}

/// <summary>How well the hands hold what they lift.</summary>
public enum Coupling
{
    /// <summary>Handles or cut-outs on a box of handy size.</summary>
    Good,

    /// <summary>A handy box without handles, or handles on a bulky one.</summary>
    Fair,

    /// <summary>Bulky and without handles, or sagging.</summary>
    Poor,
}

/// <summary>Where the hands are at one end of a lift.</summary>
/// <param name="Reach">Horizontal distance H from between the ankles to between the hands.</param>
/// <param name="HandHeight">Height V of the hands above the floor.</param>
/// <param name="TurnDegrees">Asymmetry A: how far the trunk turns from straight ahead, degrees, 0 to 135.</param>
public readonly record struct HandPosition(Length Reach, Length HandHeight, double TurnDegrees = 0);

/// <summary>One person lifting one thing with both hands, again and again.</summary>
/// <param name="Load">Mass lifted.</param>
/// <param name="From">Where the lift begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="LiftsPerMinute">Average over fifteen minutes; below 0.2 counts as 0.2.</param>
/// <param name="Duration">How long the work lasts.</param>
/// <param name="Coupling">How well it can be held.</param>
public sealed record LiftingTask(
    Mass Load,
    HandPosition From,
    HandPosition To,
    double LiftsPerMinute,
    LiftingDuration Duration,
    Coupling Coupling)
{
    /// <summary>Vertical travel D between the two ends.</summary>
    public Length Travel => (To.HandHeight - From.HandHeight).Abs();
}
