using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>
/// The inside of a trailer. Makers differ by some inches; the types here take the lesser figures of the ranges that dealers
/// and fleets state, so that what is planned also fits. Measure before relying on the last inch.
/// </summary>
/// <param name="Name">What people call it.</param>
/// <param name="Length">Inside, nose to door.</param>
/// <param name="Width">Inside, wall to wall.</param>
/// <param name="Height">Inside, floor to roof.</param>
/// <param name="DoorWidth">Clear opening.</param>
/// <param name="DoorHeight">Clear opening.</param>
/// <param name="Payload">Usual greatest cargo weight, or null when it depends on the tractor and the axles too much to say.</param>
public sealed record Trailer(string Name, Length Length, Length Width, Length Height, Length DoorWidth, Length DoorHeight, Mass? Payload)
{
    /// <summary>53-foot dry van: stated 630 to 636 in long, 98 to 101.5 wide, 108 to 110 high, door 98 by 105 to 110, about 45,000 lb.</summary>
    public static readonly Trailer Van53 = new("53-ft dry van", Length.FromInches(630), Length.FromInches(98.5), Length.FromInches(108),
        Length.FromInches(98), Length.FromInches(105), Mass.FromPounds(45_000));

    /// <summary>48-foot dry van: about 570 in long, otherwise as the 53-foot one.</summary>
    public static readonly Trailer Van48 = new("48-ft dry van", Length.FromInches(570), Length.FromInches(98.5), Length.FromInches(108),
        Length.FromInches(98), Length.FromInches(105), null);

    /// <summary>28-foot pup, drawn in pairs by LTL carriers: 324 to 336 in long (from memory), otherwise as the 53-foot one.</summary>
    public static readonly Trailer Pup28 = new("28-ft pup", Length.FromInches(324), Length.FromInches(98.5), Length.FromInches(108),
        Length.FromInches(98), Length.FromInches(105), null);

    /// <summary>26-foot straight truck: about 312 in long, 96 wide and high, its door 92 by 92 (from memory, the lesser of common figures).</summary>
    public static readonly Trailer Straight26 = new("26-ft straight truck", Length.FromInches(312), Length.FromInches(96), Length.FromInches(96),
        Length.FromInches(92), Length.FromInches(92), null);

    /// <summary>The types above, longest first.</summary>
    public static readonly IReadOnlyList<Trailer> All = [Van53, Van48, Pup28, Straight26];

    /// <summary>Inside dimensions alone, the door as large as the room behind it.</summary>
    public static Trailer Measured(Length length, Length width, Length height) => new("as measured", length, width, height, width, height, null);

    /// <summary>Room inside, in cubic feet.</summary>
    public double CubicFeet => Length.Feet * Width.Feet * Height.Feet;

    /// <summary>Whether a unit passes the door upright, one side or the other first.</summary>
    public bool TakesThroughDoor(Length unitLength, Length unitWidth, Length unitHeight) =>
        unitHeight <= DoorHeight && Length.Min(unitLength, unitWidth) <= DoorWidth;

    /// <summary>Whether a plan ends before the door.</summary>
    public bool Holds(FloorPlan plan) => plan.LengthUsed <= Length;

    /// <summary>Share of the room inside that volumes fill, 0 to 1; more when they cannot all fit.</summary>
    public double CubeUsed(double cubicFeet) => cubicFeet / CubicFeet;
}
