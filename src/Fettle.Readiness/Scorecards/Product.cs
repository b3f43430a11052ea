using System.Globalization;
using System.Text.Json.Serialization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Scorecards;

/// <summary>
/// What a unit holds, told alike for alike freight: cartons by their size, everything else by its kind. Shippers give no
/// product codes, and the size of the carton is what decides how it stacks.
/// </summary>
/// <param name="Key">As stored: "cartons 4064 3048 3048" (tenths of a millimetre, the longer side first), "drums steel", "bags".</param>
public readonly record struct Product(string Key)
{
    private const string Cartons = "cartons";

    public static Product Of(Contents contents) => new(contents switch
    {
        CartonContents { Carton: var carton } => CartonKey(carton),
        MixedCartonContents => "mixed-cartons",
        DrumContents drums => drums.Material switch
        {
            DrumMaterial.Steel => "drums-steel",
            DrumMaterial.Plastic => "drums-plastic",
            DrumMaterial.Fibre => "drums-fibre",
        },
        BagContents => "bags",
        RollContents => "rolls",
        CrateContents => "crate",
        FurnitureContents => "furniture",
        MachineryContents => "machinery",
        PieceContents => "piece",
        _ => throw new InvalidOperationException($"No product for {contents.GetType().Name}."),
    });

    /// <summary>As people read it: "cartons of 16 × 12 × 12 in".</summary>
    [JsonIgnore]
    public Phrase InWords => Key switch
    {
        "mixed-cartons" => Phrase.Of($"cartons of several sizes"),
        "drums-steel" => Phrase.Of($"steel drums"),
        "drums-plastic" => Phrase.Of($"plastic drums"),
        "drums-fibre" => Phrase.Of($"fibre drums"),
        "bags" => Phrase.Of($"bags"),
        "rolls" => Phrase.Of($"rolls"),
        "crate" => Phrase.Of($"crates"),
        "furniture" => Phrase.Of($"furniture"),
        "machinery" => Phrase.Of($"machinery"),
        "piece" => Phrase.Of($"single pieces"),
        _ when Sides(Key) is [var length, var width, var height] => Phrase.Of($"cartons of {length} × {width} × {height}"),
        _ => Phrase.Word(Key),
    };

    private static string CartonKey(Carton carton)
    {
        var (a, b) = (Tenths(carton.Length), Tenths(carton.Width));
        return string.Create(CultureInfo.InvariantCulture, $"{Cartons} {Math.Max(a, b)} {Math.Min(a, b)} {Tenths(carton.Height)}");
    }

    // Every eighth of an inch comes back as it was typed.
    private static long Tenths(Length length) => (long)Math.Round(length.Millimetres * 10, MidpointRounding.AwayFromZero);

    private static Length[]? Sides(string key)
    {
        var words = key.Split(' ');
        if (words is not [Cartons, _, _, _])
            return null;
        var sides = new Length[3];
        for (var i = 0; i < sides.Length; i++)
        {
            if (!long.TryParse(words[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var tenths))
                return null;
            sides[i] = Length.FromMillimetres(tenths / 10d);
        }

        return sides;
    }
}

/// <summary>What is compared with each other when it is asked whether a rule tells the truth: the kind of freight, and whether it breaks.</summary>
/// <param name="Key">As stored: "cartons", "cartons fragile".</param>
public readonly record struct Commodity(string Key)
{
    private const string Breaks = " fragile";

    public static Commodity Of(HandlingUnit unit) => new(KindOf(unit.Contents) + (unit.Fragile == Fragility.None ? "" : Breaks));

    /// <summary>As people read it.</summary>
    [JsonIgnore]
    public Phrase InWords
    {
        get
        {
            var kind = Key.EndsWith(Breaks, StringComparison.Ordinal) ? Key[..^Breaks.Length] : Key;
            var words = kind == "cartons" ? Phrase.Of($"cartons") : kind == "drums" ? Phrase.Of($"drums") : new Product(kind).InWords;
            return kind.Length == Key.Length ? words : Phrase.Of($"{words}, fragile");
        }
    }

    private static string KindOf(Contents contents) => contents switch
    {
        CartonContents => "cartons",
        DrumContents => "drums",
        _ => Product.Of(contents).Key,
    };
}
