using Fettle.Engineering.Units;

namespace Fettle.Engineering.MixedCartons;

/// <summary>Cartons alike in size, weight and strength.</summary>
/// <param name="Length">Outer length; over zero.</param>
/// <param name="Width">Outer width; over zero.</param>
/// <param name="Height">Outer height when upright; over zero.</param>
/// <param name="Mass">Gross mass of one; over zero.</param>
/// <param name="Count">How many; zero or more.</param>
/// <param name="Bears">
/// What one may bear on top when upright: its compression strength after derating, divided by the wanted safety
/// (docs/engineering/derating.md). In a mixed load cartons rarely stand edge on edge, so derate as for interlocked layers.
/// Nothing for fragile goods.
/// </param>
/// <param name="KeepUpright">False when it may also lie on its side or end, where it then bears nothing.</param>
public sealed record CartonKind(Length Length, Length Width, Length Height, Mass Mass, int Count, Force Bears, bool KeepUpright = true)
{
    /// <summary>How it may stand, upright first.</summary>
    internal IEnumerable<Stance> Stances(int kind)
    {
        var (l, w, h) = (Length.Nanometres, Width.Nanometres, Height.Nanometres);
        (CartonFace Down, long Along, long Across, long Up)[] faces = KeepUpright
            ? [(CartonFace.Base, l, w, h)]
            : [(CartonFace.Base, l, w, h), (CartonFace.Side, l, h, w), (CartonFace.End, w, h, l)];
        foreach (var (down, along, across, up) in faces)
        {
            yield return new Stance(kind, along, across, up, down, false);
            if (along != across)
                yield return new Stance(kind, across, along, up, down, true);
        }
    }
}

/// <summary>What a carton stands on.</summary>
public enum CartonFace
{
    /// <summary>Its base (length × width): upright.</summary>
    Base,

    /// <summary>Its side (length × height).</summary>
    Side,

    /// <summary>Its end (width × height).</summary>
    End,
}

/// <summary>One way for a carton to stand, in nanometres along the deck, across it and up.</summary>
internal readonly record struct Stance(int Kind, long Along, long Across, long Up, CartonFace Down, bool Turned)
{
    public double Area => (double)Along * Across;
}
