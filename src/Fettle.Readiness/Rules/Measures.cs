using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;

namespace Fettle.Readiness.Rules;

/// <summary>What was computed about one handling unit, whether or not a finding came of it. Null where it cannot be computed.</summary>
/// <param name="ComputedGrossWeight">Platform tare and cartons; film and boards are left out.</param>
/// <param name="CartonStrength">Compression strength of a new carton: McKee, simplified.</param>
/// <param name="UsableStrength">The same after derating for time, humidity, pattern, overhang and handling.</param>
/// <param name="StrengthLeft">What each cause leaves of it.</param>
/// <param name="LoadOnBottomCarton">Weight above the lowest carton.</param>
/// <param name="SelfCrushSafety">Usable strength over that load; null when nothing stands above.</param>
/// <param name="TopLoadCapacity">What may be put on top, the safety factor kept.</param>
/// <param name="TopLoadExpected">What the trade will put there: the same unit again, or mixed freight to the vehicle's height.</param>
/// <param name="CarriesLikeUnit">The unit could carry another like itself, whether or not it is declared stackable: strong enough, the pair stands under the roof, and nothing rules a top load out (<see cref="Declarations.TopLoad"/>).</param>
/// <param name="TippingLateral">Acceleration across the trailer at which the unit begins to tip, as a share of g.</param>
/// <param name="TippingForward">The same along the trailer.</param>
/// <param name="CentreOfGravity">Its height over the floor: as the maker of a machine says, else reckoned from platform and load.</param>
/// <param name="FreightClass">Class on the 13-tier density scale.</param>
public sealed record Measures(
    LoadShape Shape,
    Mass? ComputedGrossWeight,
    Mass? CartonStrength,
    Mass? UsableStrength,
    DeratingFactors? StrengthLeft,
    Mass? LoadOnBottomCarton,
    double? SelfCrushSafety,
    Mass? TopLoadCapacity,
    Mass TopLoadExpected,
    bool CarriesLikeUnit,
    double TippingLateral,
    double TippingForward,
    Length CentreOfGravity,
    Density Density,
    decimal FreightClass);
