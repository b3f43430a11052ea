using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Fettle.Web.Declarations;

namespace Fettle.Web.FloorPlans;

/// <summary>Body of POST /api/v1/floor-plans.</summary>
/// <param name="Units">"imperial": inches and pounds; "metric": centimetres and kilograms; imperial when left out.</param>
/// <param name="Trailer">Inside dimensions.</param>
/// <param name="Decks">The trailer has decking beams for a second floor, and they may be used; false when left out.</param>
public sealed record FloorPlanJson(string? Units, TrailerJson? Trailer, bool? Decks, IReadOnlyList<LoadUnitJson?>? HandlingUnits)
{
    private static readonly Length LongestTrailer = Length.FromFeet(100);

    internal UnitSystem System => Units == "metric" ? UnitSystem.Metric : UnitSystem.Imperial;

    /// <summary>What is wrong, by field as named here; what could be read is only to be used when nothing is.</summary>
    internal (Trailer Trailer, IReadOnlyList<LoadUnits> Units, IReadOnlyDictionary<string, string> Errors) Read()
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        if (Units is not (null or "imperial" or "metric"))
            errors["units"] = T("Choose one of: imperial, metric.");
        var trailer = Engineering.TrailerFloor.Trailer.Measured(
            Side(Trailer?.Length, "trailer.length", LongestTrailer),
            Side(Trailer?.Width, "trailer.width", LongestTrailer),
            Side(Trailer?.Height, "trailer.height", LongestTrailer));
        if (HandlingUnits is not { Count: > 0 })
            errors["handlingUnits"] = T("Give at least one handling unit.");
        var units = new List<LoadUnits>();
        var names = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        // One more than may be is enough to be told of.
        foreach (var (line, path) in (HandlingUnits ?? []).Take(LoadPlanner.MostUnits + 1).Select((line, i) => (line ?? new(), $"handlingUnits[{i}].")))
        {
            if (Name(line.Reference) is { } wrong)
                errors[path + "reference"] = wrong;
            else if (!names.Add(line.Reference!.Trim()))
                errors[path + "reference"] = T("Another unit has this name already.");
            if (line.Quantity is < 1 or > LoadPlanner.MostUnits)
                errors[path + "quantity"] = T("A whole number from {0} to {1}.", 1, LoadPlanner.MostUnits);
            var bears = line.Stackable != true ? Mass.Zero : line.TopLoadCapacity is 0 ? Mass.Zero : Weight(line.TopLoadCapacity, path + "topLoadCapacity");
            units.Add(new(
                Side(line.Length, path + "length", UnitFormValidator.LongestSide),
                Side(line.Width, path + "width", UnitFormValidator.LongestSide),
                Side(line.Height, path + "height", UnitFormValidator.LongestSide),
                Weight(line.Weight, path + "weight"),
                Math.Clamp(line.Quantity ?? 1, 1, LoadPlanner.MostUnits),
                bears,
                line.MayRideOnTop ?? line.Stackable ?? false,
                line.Turnable ?? true));
        }

        if (units.Sum(unit => unit.Count) > LoadPlanner.MostUnits)
            errors.TryAdd("handlingUnits", T("At most {0} handling units can be planned at once.", LoadPlanner.MostUnits));
        return (trailer, units, errors);

        Length Side(double? value, string field, Length most)
        {
            if (value is > 0 and < 1e6 && Length.From(value.Value, System) is var length && length > Length.Zero && length <= most)
                return length;
            errors[field] = T("Give a length, more than nothing and at most {0}.", ((Quantity)most).Show(System));
            return Length.FromInches(1);
        }

        Mass Weight(double? value, string field)
        {
            if (value is > 0 and < 1e6 && Mass.From(value.Value, System) is var mass && mass > Mass.Zero && mass <= UnitFormValidator.Heaviest)
                return mass;
            errors[field] = T("Give a weight, more than nothing and at most {0}.", ((Quantity)UnitFormValidator.Heaviest).Show(System));
            return Mass.Zero;
        }
    }

    private static string? Name(string? reference) =>
        string.IsNullOrWhiteSpace(reference) ? T("Give the unit a name, for example A1.")
        : reference.Length > Readiness.Declarations.HandlingUnit.LongestReference ? T("At most {0} characters.", Readiness.Declarations.HandlingUnit.LongestReference)
        : UnitFormValidator.ReadableText(reference) ? null
        : T("Letters, digits and ordinary signs only.");
}

/// <summary>Inside dimensions.</summary>
/// <param name="Length">Nose to door.</param>
/// <param name="Width">Wall to wall.</param>
/// <param name="Height">Floor to roof.</param>
public sealed record TrailerJson(double? Length, double? Width, double? Height);

/// <summary>Identical handling units to be planned. Greatest outside dimensions, platform and everything that sticks out included.</summary>
public sealed record LoadUnitJson
{
    /// <summary>Your own name for the line, unique among the lines.</summary>
    public string? Reference { get; init; }

    /// <summary>How many, 1 to 200; 1 when left out. At most 200 in all.</summary>
    public int? Quantity { get; init; }

    /// <summary>Lies along the trailer unless the unit is turned.</summary>
    public double? Length { get; init; }

    public double? Width { get; init; }

    public double? Height { get; init; }

    /// <summary>Gross, each.</summary>
    public double? Weight { get; init; }

    /// <summary>Its top is flat and another may stand on it, up to topLoadCapacity; false when left out.</summary>
    public bool? Stackable { get; init; }

    /// <summary>What may stand on one in all; asked for when it is stackable.</summary>
    public double? TopLoadCapacity { get; init; }

    /// <summary>It may itself stand on top of another; as stackable when left out.</summary>
    public bool? MayRideOnTop { get; init; }

    /// <summary>It may be turned by 90°; true when left out.</summary>
    public bool? Turnable { get; init; }
}
