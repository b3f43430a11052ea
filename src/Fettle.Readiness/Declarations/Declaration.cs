using Fettle.Engineering.Units;

namespace Fettle.Readiness.Declarations;

/// <summary>What a shipper says about the freight of one pickup, before the truck comes.</summary>
/// <param name="Units">The family of units that the clerk typed in; figures are shown back in it.</param>
public sealed record Declaration(Lane Lane, bool DriverOnDock, UnitSystem Units, IReadOnlyList<HandlingUnit> HandlingUnits);

/// <summary>The way from origin to consignee, as far as it changes what freight has to bear.</summary>
/// <param name="Miles">Distance in statute miles, 0 or more.</param>
/// <param name="Transfers">How often the freight changes trailer on the way, 0 or more.</param>
/// <param name="CrossBorder">True when the lane crosses a national border.</param>
public sealed record Lane(double Miles, int Transfers, bool CrossBorder)
{
    /// <summary>The consignee is served by a truck with a liftgate.</summary>
    public bool Liftgate { get; init; }

    /// <summary>There is no dock at the consignee: freight comes off at the ground.</summary>
    public bool NoDock { get; init; }
}
