using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
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

/// <summary>The second of two ways to mend something.</summary>
[Flags]
public enum Preference
{
    None = 0,

    /// <summary>A bulkhead panel instead of a strap.</summary>
    Bulkhead = 1,

    /// <summary>Airbags instead of decking.</summary>
    Airbags = 2,
}

/// <summary>
/// One way to build the freight of a line again. <see cref="Lines"/> makes the lines it results in; nothing here judges
/// them, the check does.
/// </summary>
/// <param name="PerLayer">Cartons in a layer that stays inside the deck; null keeps the layer as declared.</param>
/// <param name="Platforms">Platforms for the whole line; null keeps them.</param>
/// <param name="Stack">How the layers stand on each other; null keeps it.</param>
/// <param name="Stackable">What is declared about freight on top; null keeps it.</param>
/// <param name="Deck">The platform that it is put on instead; null keeps it.</param>
/// <param name="Mending">How far film, boards and the like are put right afterwards.</param>
/// <param name="Prefer">Which way, where something can be mended in two.</param>
/// <param name="Loose">The cartons travel without a platform.</param>
public sealed record Build(
    int? PerLayer = null,
    int? Platforms = null,
    StackKind? Stack = null,
    bool? Stackable = null,
    PlatformChoice? Deck = null,
    Mending Mending = Mending.Keep,
    Preference Prefer = Preference.None,
    bool Loose = false)
{
    public static readonly Build AsDeclared = new();

    /// <summary>Stable name of the change.</summary>
    public string Key => string.Join('-', new[]
    {
        PerLayer is { } per ? $"layer{per}" : null,
        Platforms is { } platforms ? $"on{platforms}" : null,
        Deck is { } deck ? $"deck{deck.Key}" : null,
        Stack switch { StackKind.Column => "column", StackKind.Interlocked => "interlocked", null => null },
        Stackable switch { true => "stackable", false => "notstackable", null => null },
        Mending switch { Mending.Keep => null, Mending.Stops => "mend1", Mending.Cautions => "mend2", Mending.Tips => "mend3" },
        Prefer.HasFlag(Preference.Bulkhead) ? "bulkhead" : null,
        Prefer.HasFlag(Preference.Airbags) ? "airbags" : null,
        Loose ? "loose" : null,
    }.Where(part => part is not null));

    /// <summary>Cartons are taken off and stacked again.</summary>
    public bool Restacks => PerLayer is not null || Platforms is not null || Stack is not null || Deck is not null;

    /// <summary>How much is changed, to name the same lines after the least that leads to them.</summary>
    internal int Changes =>
        (PerLayer is null ? 0 : 1) + (Platforms is null ? 0 : 1) + (Stack is null ? 0 : 1) + (Stackable is null ? 0 : 1) + (Deck is null ? 0 : 1) + (Loose ? 1 : 0) + (int)Mending + (Prefer == Preference.None ? 0 : 1);

    /// <summary>The same without what is mended and declared: what is built.</summary>
    internal Build Bare => this with { Stackable = null, Mending = Mending.Keep, Prefer = Preference.None };

    /// <summary>The lines this build results in, protection as it was; empty when it cannot be built.</summary>
    /// <param name="taken">Names of other lines, which new lines may not have.</param>
    public IReadOnlyList<HandlingUnit> Lines(HandlingUnit unit, IReadOnlySet<string> taken)
    {
        if (Loose)
            return unit.Contents is CartonContents cartons ? AsLooseCartons(unit, cartons) : [];
        var changed = Stackable is { } stackable ? unit with { Stackable = stackable } : unit;
        if (!Restacks)
            return [changed];
        return unit switch
        {
            { Contents: CartonContents load, Platform: { } deck } => Restacked(changed, load.Settled, deck, taken),
            { Platform: { } deck } when this is { PerLayer: null, Platforms: null, Deck: { } other } => [OnAnother(changed, deck, Like(deck, other.Platform))],
            { Contents: BagContents bags } when this is { PerLayer: null, Platforms: null, Stack: { } stack } => [changed with { Contents = bags with { Stack = stack } }],
            _ => [],
        };
    }

    private static IReadOnlyList<HandlingUnit> AsLooseCartons(HandlingUnit unit, CartonContents cartons)
    {
        var count = cartons.Count * unit.Quantity;
        return count > HandlingUnit.MostAlike ? [] :
        [
            new()
            {
                Reference = unit.Reference,
                Quantity = count,
                Kind = HandlingUnitKind.LooseCarton,
                Outer = new(cartons.Carton.Length, cartons.Carton.Width, cartons.Carton.Height),
                GrossWeight = cartons.Carton.GrossWeight,
                Contents = new CartonContents(cartons.Carton, 1, 1, StackKind.Column),
                Stackable = false,
                Fragile = unit.Fragile,
            },
        ];
    }

    /// <summary>
    /// The same cartons in whole layers, shared out over the platforms as evenly as layers allow; what does not fill a
    /// layer goes on top of one of the lower units.
    /// </summary>
    private List<HandlingUnit> Restacked(HandlingUnit unit, CartonContents load, Platform deck, IReadOnlySet<string> taken)
    {
        var perLayer = PerLayer ?? load.PerLayer;
        var platforms = Platforms ?? unit.Quantity;
        var cartons = load.Count * unit.Quantity;
        var (layers, rest) = Math.DivRem(cartons, perLayer);
        if (platforms > layers + (rest > 0 ? 1 : 0) || platforms > HandlingUnit.MostAlike)
            return [];
        var (low, tall) = Math.DivRem(layers, platforms);
        var under = Deck is { } other ? Like(deck, other.Platform) : deck;
        var scale = new Scale(unit, load, deck, under);
        var lines = new List<HandlingUnit>(3);
        if (tall > 0)
            Add(tall, low + 1, 0);
        Add(platforms - tall - (rest > 0 ? 1 : 0), low, 0);
        if (rest > 0)
            Add(1, low, rest);
        return lines;

        void Add(int quantity, int layersHere, int top)
        {
            if (quantity == 0)
                return;
            var contents = (load with { PerLayer = perLayer, Layers = layersHere, TopLayer = top, Stack = Stack ?? load.Stack }).Settled;
            lines.Add(unit with
            {
                Reference = lines.Count == 0 ? unit.Reference : Free(unit.Reference, lines.Count, taken),
                Quantity = quantity,
                Contents = contents,
                Platform = under,
                // A layer that is set up anew stays on the deck; the declared one keeps its place, overhang and all.
                Outer = PerLayer is not null || Deck is not null
                    ? new(under.Length, under.Width, scale.HeightOf(contents))
                    : unit.Outer with { Height = scale.HeightOf(contents) },
                GrossWeight = scale.GrossOf(contents),
                // A few cartons on top are no floor for another unit.
                Stackable = unit.Stackable && contents.TopLayer == 0,
            });
        }
    }

    /// <summary>What is not made of layers, lifted over to another platform.</summary>
    private static HandlingUnit OnAnother(HandlingUnit unit, Platform from, Platform to) => unit with
    {
        Platform = to,
        Outer = new(Length.Max(unit.Outer.Length, to.Length), Length.Max(unit.Outer.Width, to.Width), unit.Outer.Height - from.Height + to.Height),
        GrossWeight = unit.GrossWeight - from.Tare + to.Tare,
    };

    /// <summary>Another platform, marked as the declared one is where wood needs a mark.</summary>
    private static Platform Like(Platform declared, Platform other) => other with { TreatmentMark = declared.TreatmentMark };

    /// <summary>"A1" makes "A1b", "A1c" …; names that others have are passed over.</summary>
    private static string Free(string reference, int line, IReadOnlySet<string> taken)
    {
        for (var (n, free) = (1, 0); ; n++)
        {
            var suffix = n < 26 ? ((char)('a' + n)).ToString() : $"-{n}";
            var name = reference[..Math.Min(reference.Length, HandlingUnit.LongestReference - suffix.Length)] + suffix;
            if (!taken.Contains(name) && ++free == line)
                return name;
        }
    }

    /// <summary>
    /// Carries what was measured over to another build. Where tape and scale say more than carton, count and tare add up
    /// to, the rest belongs to the cartons: it bulges and weighs in the new build too, so that nothing is cured by reckoning.
    /// </summary>
    private readonly struct Scale(HandlingUnit unit, CartonContents load, Platform deck, Platform under)
    {
        // A sixteenth of an inch is exact in inches and in centimetres.
        private const long Step = Length.NanometresPerInch / 16;

        private readonly Length bulge = unit.Outer.Height - deck.Height - (load.Carton.Height * load.Tiers);
        private readonly Mass surplus = unit.GrossWeight - deck.Tare - (load.Carton.GrossWeight * load.Count);

        public Length HeightOf(CartonContents contents)
        {
            var height = under.Height + (contents.Carton.Height * contents.Tiers);
            if (bulge <= Length.Zero)
                return height;
            if (contents.Tiers >= load.Tiers)
                return height + bulge;
            var share = (Int128)bulge.Nanometres * contents.Tiers / load.Tiers;
            return height + Length.Min(bulge, Length.FromNanometres(((long)share + Step - 1) / Step * Step));
        }

        public Mass GrossOf(CartonContents contents)
        {
            var gross = under.Tare + (contents.Carton.GrossWeight * contents.Count);
            return surplus <= Mass.Zero
                ? gross
                : gross + Mass.FromNanograms((long)((Int128)surplus.Nanograms * contents.Count / load.Count));
        }
    }
}
