using System.Numerics;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// An L: a rectangle of X by Y without its far corner, so that what is left is InnerY high beyond InnerX. A whole rectangle
/// has InnerX = X and InnerY = Y. Sides are ranks in <see cref="CartonSums"/>. The longer side comes first, so that an L and
/// its mirror image are one piece, and Ls without an arm are the rectangles that they are.
/// </summary>
internal readonly record struct LPiece(int X, int Y, int InnerX, int InnerY)
{
    public bool IsRectangle => InnerX == X;

    /// <summary>The same piece with its two axes swapped. Not public: a record prints its public properties, and this one has no end.</summary>
    internal LPiece Swapped => new(Y, X, InnerY, InnerX);

    /// <summary>One number, never 0, for each piece; ranks are below 32,768.</summary>
    public ulong Key => 1ul << 63 | ((ulong)(uint)X << 48) | ((ulong)(uint)Y << 32) | ((ulong)(uint)InnerX << 16) | (uint)InnerY;

    public static LPiece Of(ulong key) => new((int)(key >> 48 & 0x7FFF), (int)(key >> 32 & 0xFFFF), (int)(key >> 16 & 0xFFFF), (int)(key & 0xFFFF));

    /// <summary>The piece without empty arms, lying as it is.</summary>
    internal LPiece Trimmed =>
        InnerX == 0 ? new(X, InnerY, X, InnerY)
        : InnerY == 0 ? new(InnerX, Y, InnerX, Y)
        : InnerX >= X || InnerY >= Y ? new(X, Y, X, Y)
        : this;

    /// <summary>Whether the axes must be swapped for the longer side to come first.</summary>
    public bool LiesAcross => X < Y || (X == Y && InnerX < InnerY);
}

/// <summary>How a piece is cut in two; see <see cref="LShapeSearch"/>.</summary>
internal enum LCut : byte
{
    None,
    Corner,
    StepAcross,
    StepAlong,
    UnderArm,
    BesideArm,
    BelowInner,
    LeftOfInner,
    Zigzag,
    ZigzagSwapped,
}

/// <summary>A cut at U along X and V along Y; a zigzag of a rectangle also at Top.</summary>
internal readonly record struct LSplit(LCut Cut, short U, short V, short Top);

/// <summary>What is known of each piece met. Open addressing, because pieces are looked up millions of times.</summary>
internal sealed class LPieces
{
    public struct Fact
    {
        public ulong Key;

        /// <summary>Cartons that were placed, and by which cut.</summary>
        public short Found;

        public LSplit Split;

        /// <summary>No more than this fit.</summary>
        public short AtMost;

        /// <summary>This many were looked for in vain ...</summary>
        public short Missed;

        /// <summary>... with cuts within cuts to this depth.</summary>
        public byte SearchedDepth;
    }

    private Fact[] facts = new Fact[1 << 8];

    // Part of the key beside the index, so that a look-up seldom reads the wrong fact; an index of 0 marks a free slot.
    private (uint Tag, int IndexPlusOne)[] slots = new (uint, int)[1 << 9];

    public int Count { get; private set; }

    /// <summary>Not to be held on to across <see cref="Add"/>.</summary>
    public ref Fact this[int index] => ref facts[index];

    /// <summary>The index of a piece, or -1.</summary>
    public int Find(ulong key)
    {
        var hash = Hash(key);
        for (var slot = Slot(hash); slots[slot].IndexPlusOne != 0; slot = (slot + 1) & (slots.Length - 1))
        {
            if (slots[slot].Tag == unchecked((uint)hash) && facts[slots[slot].IndexPlusOne - 1].Key == key)
                return slots[slot].IndexPlusOne - 1;
        }

        return -1;
    }

    /// <summary>Adds a piece that is not there yet.</summary>
    public int Add(in Fact fact)
    {
        if (Count == facts.Length)
        {
            Array.Resize(ref facts, Count * 2);
            slots = new (uint, int)[facts.Length * 2];
            for (var i = 0; i < Count; i++)
                Put(facts[i].Key, i);
        }

        facts[Count] = fact;
        Put(fact.Key, Count);
        return Count++;
    }

    private void Put(ulong key, int index)
    {
        var hash = Hash(key);
        var slot = Slot(hash);
        while (slots[slot].IndexPlusOne != 0)
            slot = (slot + 1) & (slots.Length - 1);
        slots[slot] = (unchecked((uint)hash), index + 1);
    }

    // Multiplying by 2^64 / golden ratio spreads neighbouring keys over the upper bits.
    private static ulong Hash(ulong key) => unchecked((key ^ (key >> 29)) * 0x9E3779B97F4A7C15);

    private int Slot(ulong hash) => (int)(hash >> (64 - BitOperations.Log2((uint)slots.Length)));
}
