using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Web.Notices.Letters;
using Fettle.Web.Parties;

namespace Fettle.Web.Papers;

/// <summary>A submitted pickup with all that its papers name. The same pickup gives the same papers.</summary>
/// <param name="Holds">In the order of their numbers.</param>
/// <param name="Inspections">In the order in which they came.</param>
public sealed record PickupFreight(Pickup Pickup, PickupParties Parties, IReadOnlyList<Hold> Holds, IReadOnlyList<Inspection> Inspections)
{
    private const double CubicMetresPerCubicFoot = 0.3048 * 0.3048 * 0.3048;

    public string Number => Pickup.Header.Number;

    public UnitSystem Units => Pickup.Declaration.Units;

    public IReadOnlyList<HandlingUnit> Lines => Pickup.Declaration.HandlingUnits;

    public string From => $"{Parties.Shipper.Name}\n{Parties.Site.Name}\n{Parties.Site.Address}";

    public string To => $"{Pickup.Header.Destination}{(Pickup.Header.ConsigneeAddress is { } address ? $"\n{address}" : "")}";

    public string Terminal => $"{Parties.Carrier.Name}\n{Parties.Terminal.Name}\n{Parties.Terminal.Address}";

    public string Count => FreightWords.Count(Lines.Select(line => (line.Kind, line.Quantity)));

    public string Weight => Show(Lines.Sum(line => line.GrossWeight.Kilograms * line.Quantity));

    public string WeightOf(HandlingUnit line) => Show(line.GrossWeight.Kilograms * line.Quantity);

    /// <summary>Outside dimensions multiplied, all units together: "412 ft³".</summary>
    public string Cube => Lines.Sum(line => Cubic(line) * line.Quantity) is var metres && Units == UnitSystem.Imperial
        ? T("{0:#,0} cu ft", metres / CubicMetresPerCubicFoot)
        : string.Create(CultureInfo.InvariantCulture, $"{metres:#,0.0} m³");

    public string Density(HandlingUnit line) => Units == UnitSystem.Imperial
        ? T("{0:0.0} lb/cu ft", line.GrossWeight.Pounds / (Cubic(line) / CubicMetresPerCubicFoot))
        : string.Create(CultureInfo.InvariantCulture, $"{line.GrossWeight.Kilograms / Cubic(line):0} kg/m³");

    public string When(DateTimeOffset at) => Moments.Long(at, Pickup.Header.Window);

    public string Declared => T("Declared by {0}, {1}.", Pickup.SubmittedBy.Name, When(Pickup.SubmittedAt));

    /// <summary>The line's latest.</summary>
    public Hold? HoldOf(HandlingUnit line) => Holds.Where(hold => hold.Placed.HandlingUnit.Reference == line.Reference).MaxBy(hold => hold.Placed.At);

    public string Show(Quantity quantity) => quantity.Show(Units);

    /// <summary>"48 × 40 × 53.5 in".</summary>
    public string Size(HandlingUnit line) => Drawings.Words.Size(Units, line.Outer.Length, line.Outer.Width, line.Outer.Height);

    /// <summary>"40 cartons, fragile: glass".</summary>
    public string Description(HandlingUnit line)
    {
        var what = ContentsInWords.Of(line.Contents).Say(Units);
        return string.Join("; ", new[] { what, Fragile(line), Regulated(line) }.OfType<string>());
    }

    private static double Cubic(HandlingUnit line) => line.Outer.Length.Metres * line.Outer.Width.Metres * line.Outer.Height.Metres;

    /// <summary>Whole pounds or kilograms: what a scale at a dock reads.</summary>
    private string Show(double kilograms) => Units == UnitSystem.Imperial
        ? string.Create(CultureInfo.InvariantCulture, $"{kilograms / Mass.FromPounds(1).Kilograms:#,0} lb")
        : string.Create(CultureInfo.InvariantCulture, $"{kilograms:#,0} kg");

    public static string? Fragile(HandlingUnit line) => line.Fragile switch
    {
        Fragility.None => null,
        Fragility.Glass => T("fragile: glass"),
        Fragility.Ceramics => T("fragile: ceramics"),
        Fragility.Liquid => T("fragile: liquid"),
        Fragility.Eggs => T("fragile: eggs"),
        Fragility.Other => T("fragile"),
    };

    /// <summary>Who has confirmed that regulated goods are packed, marked and papered; Fettle does not classify.</summary>
    public static string? Regulated(HandlingUnit line)
    {
        if (line is { Hazardous: false, TemperatureControlled: false })
            return null;
        var what = line is { Hazardous: true, TemperatureControlled: true }
            ? T("hazardous and temperature-controlled")
            : line.Hazardous ? T("hazardous") : T("temperature-controlled");
        return line.ConfirmedBy is { Length: > 0 } by ? T("{0}, confirmed by {1}", what, by) : T("{0}, confirmed by nobody", what);
    }
}
