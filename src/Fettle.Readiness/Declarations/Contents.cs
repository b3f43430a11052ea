using System.Text.Json.Serialization;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;

namespace Fettle.Readiness.Declarations;

/// <summary>What a handling unit holds. Each kind brings the rules that fit it.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(CartonContents), "cartons")]
[JsonDerivedType(typeof(PieceContents), "piece")]
public abstract record Contents;

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

    /// <summary>
    /// The same cartons in the same places, told one way: a lone unfinished layer is one full layer of as many. The check
    /// reads this, so that how a layer was typed changes nothing.
    /// </summary>
    [JsonIgnore]
    public CartonContents Settled => Layers > 0 ? this : this with { PerLayer = TopLayer, Layers = 1, TopLayer = 0 };
}

/// <summary>One thing that is not made of cartons: a machine, a crate's inside, a roll. Only size and weight are known.</summary>
public sealed record PieceContents(string Description) : Contents;

/// <param name="Length">Outside length of the carton as it stands.</param>
/// <param name="Width">Outside width of the carton as it stands.</param>
/// <param name="Height">Outside height of the carton as it stands.</param>
/// <param name="GrossWeight">Carton with what is in it.</param>
/// <param name="Board">Board grade; null when unknown, and then no strength is computed.</param>
public sealed record Carton(Length Length, Length Width, Length Height, Mass GrossWeight, Board? Board);

public enum StackKind
{
    /// <summary>Cartons straight above one another: strong.</summary>
    Column,

    /// <summary>Layers turned so that cartons tie each other: steady, but much weaker.</summary>
    Interlocked,
}
