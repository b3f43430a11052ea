using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>Identical handling units that go into a trailer.</summary>
/// <param name="Length">Greatest outside length; over zero.</param>
/// <param name="Width">Greatest outside width; over zero.</param>
/// <param name="Height">Greatest outside height; over zero.</param>
/// <param name="Weight">Gross, each; zero or more.</param>
/// <param name="Count">How many; zero or more.</param>
/// <param name="MayBear">What may stand on one in all; zero when nothing may, or when its top is not flat.</param>
/// <param name="MayRide">It may itself stand on top of another.</param>
/// <param name="MayTurn">False when the length must lie along the trailer.</param>
public readonly record struct LoadUnits(
    Length Length, Length Width, Length Height, Mass Weight, int Count, Mass MayBear, bool MayRide, bool MayTurn = true)
{
    /// <summary>What stacking looks at.</summary>
    internal StackUnit ForStack => new(Length, Width, Height, Weight, MayBear, MayRide, MayTurn);

    /// <summary>Of the footprint, in square metres.</summary>
    internal double Area => Length.Metres * Width.Metres;

    /// <summary>Of one, in cubic feet.</summary>
    internal double CubicFeet => Length.Feet * Width.Feet * Height.Feet;
}
