using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>A unit that stands on the floor or the deck, with all that rides on it, as it would be carried about in one piece.</summary>
internal sealed class Pile
{
    /// <summary>On a second level only loose freight may ride: pieces that take at most this share of what carries them.</summary>
    public const double LooseShare = 0.25;

    private readonly IReadOnlyList<LoadUnits> units;
    private readonly List<Piece> pieces = [];
    private readonly List<Placement> bare;
    private readonly Length highest;
    private readonly bool onDeck;

    /// <summary>The piece on which more may be put.</summary>
    private readonly int carrying;

    /// <summary>What may still be put on it.</summary>
    private Mass left;

    /// <summary>One unit of a pile; X along the lowest unit's length and Y along its width, from its corner.</summary>
    /// <param name="Unit">Index into the units.</param>
    /// <param name="Place">Its footprint.</param>
    /// <param name="Bottom">Above what the pile stands on.</param>
    /// <param name="On">Index into the pile's pieces of what it stands on.</param>
    public readonly record struct Piece(int Unit, Placement Place, Length Bottom, int? On);

    /// <summary>A bare place on top.</summary>
    /// <param name="Place">In the pile's own directions.</param>
    /// <param name="Waste">How much narrower the unit is than the bare rectangle that it is put in, in metres.</param>
    public readonly record struct Room(Placement Place, double Waste);

    /// <param name="units">All units, one by one.</param>
    /// <param name="lower">The one that stands.</param>
    /// <param name="upper">A second one to stand on the lower; it must be allowed to.</param>
    /// <param name="highest">How high the pile may be.</param>
    /// <param name="most">How heavy the pile may be, on a deck; null on the floor.</param>
    public Pile(IReadOnlyList<LoadUnits> units, int lower, int? upper, Length highest, Mass? most = null)
    {
        (this.units, this.highest, onDeck) = (units, highest, most is not null);
        var below = units[lower];
        Place = new(Length.Zero, Length.Zero, below.Length, below.Width);
        MayTurn = below.MayTurn;
        pieces.Add(new(lower, Place, Length.Zero, null));
        left = below.MayBear;
        if (most is { } limit)
            left = Mass.Min(left, limit - below.Weight);
        if (upper is { } second)
        {
            Add(second, Centred(units[second], below), on: 0);
            left = Mass.Min(left, units[second].MayBear);
            carrying = 1;
        }

        bare = [pieces[carrying].Place];
    }

    public IReadOnlyList<Piece> Pieces => pieces;

    /// <summary>Of the lowest unit, in the pile's own directions.</summary>
    public Placement Place { get; }

    /// <summary>The lowest unit and all that rides may be turned.</summary>
    public bool MayTurn { get; private set; }

    public int Lowest => pieces[0].Unit;

    public bool IsAlone => pieces.Count == 1;

    public Mass Weight => pieces.Aggregate(Mass.Zero, (sum, piece) => sum + units[piece.Unit].Weight);

    /// <summary>The bare place on top that a unit would waste least of; null when none takes it.</summary>
    public Room? RoomFor(int rider)
    {
        var unit = units[rider];
        var carrier = pieces[carrying];
        var below = units[carrier.Unit];
        if (!unit.MayRide || unit.Weight > left || left <= Mass.Zero || carrier.Bottom + below.Height + unit.Height > highest)
            return null;
        if ((onDeck || carrying > 0) && unit.Area > LooseShare * below.Area)
            return null;
        Room? best = null;
        foreach (var free in bare)
        {
            Try(free, unit.Length, unit.Width);
            if (unit.MayTurn && unit.Length != unit.Width)
                Try(free, unit.Width, unit.Length);
        }

        return best;

        void Try(Placement free, Length length, Length width)
        {
            if (length > free.Length || width > free.Width)
                return;
            var waste = Math.Min((free.Length - length).Metres, (free.Width - width).Metres);
            if (best is null || waste < best.Value.Waste)
                best = new(free with { Length = length, Width = width }, waste);
        }
    }

    /// <summary>Puts a unit where <see cref="RoomFor"/> said.</summary>
    public void Put(int rider, Placement place)
    {
        Add(rider, place, carrying);
        // What the rider covers is cut out of every bare rectangle; rectangles that lie in another are dropped.
        var cut = bare.SelectMany(free => Without(free, place)).ToList();
        bare.Clear();
        bare.AddRange(cut.Where(a => !cut.Exists(b => a != b && Within(a, b))));
    }

    private void Add(int unit, Placement place, int on)
    {
        var carrier = pieces[on];
        pieces.Add(new(unit, place, carrier.Bottom + units[carrier.Unit].Height, on));
        left -= units[unit].Weight;
        MayTurn &= units[unit].MayTurn;
    }

    private static Placement Centred(LoadUnits upper, LoadUnits lower)
    {
        var (length, width) = upper.ForStack.FitsStraight(lower.ForStack) ? (upper.Length, upper.Width) : (upper.Width, upper.Length);
        return new((lower.Length - length) / 2, (lower.Width - width) / 2, length, width);
    }

    private static IEnumerable<Placement> Without(Placement free, Placement taken)
    {
        if (taken.X >= free.Right || taken.Right <= free.X || taken.Y >= free.Top || taken.Top <= free.Y)
        {
            yield return free;
            yield break;
        }

        if (taken.X > free.X)
            yield return free with { Length = taken.X - free.X };
        if (taken.Right < free.Right)
            yield return free with { X = taken.Right, Length = free.Right - taken.Right };
        if (taken.Y > free.Y)
            yield return free with { Width = taken.Y - free.Y };
        if (taken.Top < free.Top)
            yield return free with { Y = taken.Top, Width = free.Top - taken.Top };
    }

    private static bool Within(Placement a, Placement b) => a.X >= b.X && a.Right <= b.Right && a.Y >= b.Y && a.Top <= b.Top;
}
