using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Alternatives;

/// <summary>How far protection is mended.</summary>
public enum Mending
{
    Keep,

    /// <summary>What stops the unit.</summary>
    Stops,

    /// <summary>Also what is a caution.</summary>
    Cautions,

    /// <summary>Also what is only a tip.</summary>
    Tips,
}

/// <summary>
/// One way to build the freight of a line again. <see cref="Apply"/> makes the lines it results in; nothing here judges
/// them, the check does.
/// </summary>
/// <param name="PerLayer">Cartons in a layer that stays inside the deck; null keeps the layer as declared.</param>
/// <param name="Platforms">Platforms for the whole line; null keeps them.</param>
public sealed record Build(int? PerLayer, int? Platforms, StackKind? Stack, bool? Stackable, Mending Mending, bool Loose)
{
    public static readonly Build AsDeclared = new(null, null, null, null, Mending.Keep, false);

    /// <summary>Stable name of the change.</summary>
    public string Key => string.Join('-', new[]
    {
        PerLayer is { } per ? $"layer{per}" : null,
        Platforms is { } platforms ? $"on{platforms}" : null,
        Stack switch { StackKind.Column => "column", StackKind.Interlocked => "interlocked", null => null },
        Stackable switch { true => "stackable", false => "notstackable", null => null },
        Mending switch { Mending.Keep => null, Mending.Stops => "mend1", Mending.Cautions => "mend2", Mending.Tips => "mend3" },
        Loose ? "loose" : null,
    }.Where(part => part is not null));

    /// <summary>The lines this build results in; empty when it cannot be built.</summary>
    public IReadOnlyList<HandlingUnit> Apply(HandlingUnit unit, ISet<string> mend, RuleSet rules)
    {
        if (Loose)
            return unit.Contents is CartonContents cartons ? [AsLooseCartons(unit, cartons)] : [];
        var changed = unit with
        {
            Stackable = Stackable ?? unit.Stackable,
            Protection = Mended(unit.Protection, mend, rules),
        };
        if (PerLayer is null && Platforms is null && Stack is null)
            return [changed];
        return unit is { Contents: CartonContents load, Platform: { } deck } ? Restacked(changed, load, deck) : [];
    }

    private static Protection Mended(Protection had, ISet<string> mend, RuleSet rules) => had with
    {
        WrapTurns = mend.Contains(Findings.FindingCodes.WrapTurns) ? Math.Max(had.WrapTurns, rules.Wrap.Turns) : had.WrapTurns,
        WrapOverPlatform = had.WrapOverPlatform || mend.Contains(Findings.FindingCodes.WrapAnchor),
        CornerBoards = mend.Contains(Findings.FindingCodes.CornerBoards) || mend.Contains(Findings.FindingCodes.Clearance)
            ? CornerBoards.ToPlatform
            : had.CornerBoards,
        Sleeve = had.Sleeve || mend.Contains(Findings.FindingCodes.Sleeve),
    };

    private static HandlingUnit AsLooseCartons(HandlingUnit unit, CartonContents cartons) => new()
    {
        Reference = unit.Reference,
        Quantity = cartons.Count * unit.Quantity,
        Kind = HandlingUnitKind.LooseCarton,
        Outer = new(cartons.Carton.Length, cartons.Carton.Width, cartons.Carton.Height),
        GrossWeight = cartons.Carton.GrossWeight,
        Contents = cartons with { PerLayer = 1, Layers = 1, TopLayer = 0, Stack = StackKind.Column },
        Stackable = false,
        Fragile = unit.Fragile,
    };

    /// <summary>
    /// The same cartons in whole layers, shared out over the platforms as evenly as layers allow; what does not fill a
    /// layer goes on top of one of the lower units.
    /// </summary>
    private IReadOnlyList<HandlingUnit> Restacked(HandlingUnit unit, CartonContents load, Platform deck)
    {
        var perLayer = PerLayer ?? load.PerLayer;
        var platforms = Platforms ?? unit.Quantity;
        var cartons = load.Count * unit.Quantity;
        var layers = cartons / perLayer;
        var rest = cartons % perLayer;
        if (platforms > layers + (rest > 0 ? 1 : 0))
            return [];
        var low = layers / platforms;
        var tall = layers % platforms;
        var lines = new List<(int Quantity, int Layers, int Top)>();
        if (tall > 0)
            lines.Add((tall, low + 1, 0));
        var lower = platforms - tall - (rest > 0 ? 1 : 0);
        if (lower > 0)
            lines.Add((lower, low, 0));
        if (rest > 0)
            lines.Add((1, low, rest));
        return [.. lines.Select((line, index) => Line(line.Quantity, line.Layers, line.Top, Suffix(index)))];

        HandlingUnit Line(int quantity, int layersHere, int top, string suffix)
        {
            var contents = load with { PerLayer = perLayer, Layers = layersHere, TopLayer = top, Stack = Stack ?? load.Stack };
            var widest = PatternFinder.Holding(layersHere > 0 ? perLayer : top, deck.Length, deck.Width, load.Carton.Length, load.Carton.Width);
            return unit with
            {
                Reference = unit.Reference + suffix,
                Quantity = quantity,
                Contents = contents,
                Outer = new(
                    widest is null ? Length.Max(unit.Outer.Length, deck.Length) : deck.Length,
                    widest is null ? Length.Max(unit.Outer.Width, deck.Width) : deck.Width,
                    deck.Height + (load.Carton.Height * contents.Tiers)),
                GrossWeight = (load.Carton.GrossWeight * contents.Count) + deck.Tare,
                // A few cartons on top are no floor for another unit.
                Stackable = unit.Stackable && top == 0,
            };
        }

        static string Suffix(int index) => index == 0 ? "" : ((char)('a' + index)).ToString();
    }
}
