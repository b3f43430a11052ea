using System.Globalization;
using Fettle.Engineering.Identification;
using Fettle.Readiness.Declarations;

namespace Fettle.Readiness.HandlingUnits;

/// <summary>
/// The number of one physical unit of a submitted pickup: a line that stands for four pallets has four. Given once, at
/// submission, and never changed.
/// </summary>
/// <param name="Reference">The declared line's.</param>
/// <param name="Index">Which of the line's units, from 1 to its quantity.</param>
/// <param name="Sscc">Null for a shipper without a GS1 company prefix, who may not make any: the unit has its own number only.</param>
public sealed record UnitNumber(string Reference, int Index, Sscc? Sscc)
{
    /// <summary>A pickup has at most this many physical units: more than any trailer has ever carried loose.</summary>
    public const int MostOfPickup = 2000;

    /// <summary>The unit's own number, which it has with or without an SSCC: "P-4K7Q2M/A1-1".</summary>
    public string Own(string pickupNumber) => string.Create(CultureInfo.InvariantCulture, $"{pickupNumber}/{Reference}-{Index}");

    /// <summary>Numbers every unit, line after line.</summary>
    /// <param name="ssccAt">The code of the unit at a place, counted from 0 over the whole pickup; null for none.</param>
    public static IReadOnlyList<UnitNumber> For(Declaration declaration, Func<int, Sscc?> ssccAt) =>
    [
        .. declaration.HandlingUnits
            .SelectMany(line => Enumerable.Range(1, line.Quantity).Select(index => (line.Reference, index)))
            .Select((unit, place) => new UnitNumber(unit.Reference, unit.index, ssccAt(place))),
    ];

    /// <summary>Whether these are the numbers of exactly the declared units, in their order.</summary>
    public static bool Fit(IReadOnlyList<UnitNumber> numbers, Declaration declaration) =>
        numbers.Select(number => (number.Reference, number.Index)).SequenceEqual(For(declaration, _ => null).Select(number => (number.Reference, number.Index)));
}
