using System.Text.Json.Serialization;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;

namespace Fettle.Readiness.Declarations;

/// <summary>What a handling unit holds. Each kind brings the rules that fit it.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(CartonContents), "cartons")]
[JsonDerivedType(typeof(MixedCartonContents), "mixed-cartons")]
[JsonDerivedType(typeof(CrateContents), "crate")]
[JsonDerivedType(typeof(DrumContents), "drum")]
[JsonDerivedType(typeof(BagContents), "bags")]
[JsonDerivedType(typeof(RollContents), "rolls")]
[JsonDerivedType(typeof(FurnitureContents), "furniture")]
[JsonDerivedType(typeof(MachineryContents), "machinery")]
[JsonDerivedType(typeof(PieceContents), "piece")]
public abstract record Contents
{
    /// <summary>Weight of all that is declared piece by piece, platform left out; null when the kind does not say.</summary>
    [JsonIgnore]
    public virtual Mass? Weight => null;

    /// <summary>Single packages that the unit is made of; 1 where it is one thing.</summary>
    [JsonIgnore]
    public virtual int Pieces => 1;

    /// <summary>The same weight many times, capped at what no road carries so that nonsense cannot overflow.</summary>
    private protected static Mass Times(Mass one, int count)
    {
        var product = (Int128)one.Nanograms * count;
        return product < Most.Nanograms ? Mass.FromNanograms((long)product) : Most;
    }

    private protected static Mass Add(Mass a, Mass b) => a >= Most - b ? Most : a + b;

    /// <summary>Beyond anything that moves on a road.</summary>
    private static readonly Mass Most = Mass.FromKilograms(4_000_000);
}

/// <summary>Identical cartons in layers.</summary>
/// <param name="PerLayer">Cartons in a full layer, 1 or more.</param>
/// <param name="Layers">Full layers, 0 or more (0 only when <paramref name="TopLayer"/> holds them all).</param>
/// <param name="Stack">How one layer stands on the next.</param>
/// <param name="TopLayer">Cartons on a last, unfinished layer on top; 0 when the top layer is full.</param>
public sealed record CartonContents(Carton Carton, int PerLayer, int Layers, StackKind Stack, int TopLayer = 0) : Contents
{
    /// <summary>All cartons on the unit.</summary>
    [JsonIgnore]
    public int Count => (PerLayer * Layers) + TopLayer;

    /// <summary>Layers counted from the platform up, an unfinished top layer included.</summary>
    [JsonIgnore]
    public int Tiers => Layers + (TopLayer > 0 ? 1 : 0);

    [JsonIgnore]
    public override Mass? Weight => Times(Carton.GrossWeight, Count);

    [JsonIgnore]
    public override int Pieces => Count;

    /// <summary>
    /// The same cartons in the same places, told one way: a lone unfinished layer is one full layer of as many. The check
    /// reads this, so that how a layer was typed changes nothing.
    /// </summary>
    [JsonIgnore]
    public CartonContents Settled => Layers > 0 ? this : this with { PerLayer = TopLayer, Layers = 1, TopLayer = 0 };
}

/// <summary>Cartons of several sizes on one pallet.</summary>
/// <param name="Lines">One or more; each names a carton and how many of it.</param>
public sealed record MixedCartonContents(IReadOnlyList<CartonLine> Lines) : Contents
{
    /// <summary>A unit holds at most this many kinds of carton.</summary>
    public const int MostLines = 30;

    [JsonIgnore]
    public override Mass? Weight => Lines.Aggregate(Mass.Zero, (sum, line) => Add(sum, Times(line.Carton.GrossWeight, line.Count)));

    [JsonIgnore]
    public override int Pieces => Lines.Sum(line => line.Count);

    public bool Equals(MixedCartonContents? other) => other is not null && Lines.SequenceEqual(other.Lines);

    public override int GetHashCode() => Lines.Aggregate(0, HashCode.Combine);
}

/// <param name="Count">How many of this carton, 1 or more.</param>
public sealed record CartonLine(Carton Carton, int Count);

/// <summary>A wooden or board crate closed on all sides round one thing.</summary>
/// <param name="Braced">What is inside is blocked and braced, so that it cannot move.</param>
public sealed record CrateContents(string Description, bool Braced) : Contents;

/// <summary>Drums alike, upright: several on a pallet, or one by itself.</summary>
/// <param name="Count">Drums on the unit, 1 or more.</param>
/// <param name="Tiers">Drums above one another, 1 or more; the last tier may be unfinished.</param>
/// <param name="Diameter">Over the rolling hoops.</param>
public sealed record DrumContents(Length Diameter, Length Height, Mass WeightEach, int Count, int Tiers, DrumMaterial Material) : Contents
{
    [JsonIgnore]
    public override Mass? Weight => Times(WeightEach, Count);

    [JsonIgnore]
    public override int Pieces => Count;
}

public enum DrumMaterial
{
    Steel,
    Plastic,
    Fibre,
}

/// <summary>Filled bags in layers: soft, so that they settle and give no edge for a board.</summary>
/// <param name="PerLayer">Bags in a layer, 1 or more.</param>
/// <param name="Layers">Layers, 1 or more.</param>
public sealed record BagContents(Mass WeightEach, int PerLayer, int Layers, StackKind Stack) : Contents
{
    [JsonIgnore]
    public override Mass? Weight => Times(WeightEach, Pieces);

    [JsonIgnore]
    public override int Pieces => PerLayer * Layers;
}

/// <summary>Rolls alike, of paper, film or cloth.</summary>
/// <param name="Width">Length of the roll's axis.</param>
/// <param name="Standing">On end, or on the side, where it can roll.</param>
public sealed record RollContents(Length Diameter, Length Width, Mass WeightEach, int Count, RollStanding Standing) : Contents
{
    [JsonIgnore]
    public override Mass? Weight => Times(WeightEach, Count);

    [JsonIgnore]
    public override int Pieces => Count;
}

public enum RollStanding
{
    OnEnd,
    OnSide,
}

/// <summary>Furniture: light for its size, easily scratched, seldom flat.</summary>
/// <param name="Boxed">In a carton of its own; else blanket or film alone protects it.</param>
public sealed record FurnitureContents(string Description, bool Boxed) : Contents;

/// <summary>A machine or part of one.</summary>
/// <param name="Fastened">Bolted or strapped to what it stands on.</param>
/// <param name="CentreOfGravity">Height of its centre of gravity over the floor when loaded; null when its maker does not say.</param>
public sealed record MachineryContents(string Description, bool Fastened, Length? CentreOfGravity) : Contents;

/// <summary>One thing that is none of the others. Only size and weight are known.</summary>
public sealed record PieceContents(string Description) : Contents;

/// <param name="Length">Outside length of the carton as it stands.</param>
/// <param name="Width">Outside width of the carton as it stands.</param>
/// <param name="Height">Outside height of the carton as it stands.</param>
/// <param name="GrossWeight">Carton with what is in it.</param>
/// <param name="Board">Board grade; null when unknown, and then no strength is computed.</param>
public sealed record Carton(Length Length, Length Width, Length Height, Mass GrossWeight, Board? Board);

public enum StackKind
{
    /// <summary>Straight above one another: strong.</summary>
    Column,

    /// <summary>Layers turned so that they tie each other: steady, but much weaker for cartons.</summary>
    Interlocked,
}
