using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.MixedCartons;

/// <summary>One way to build the load. Better attempts compare greater.</summary>
internal sealed class Attempt(IReadOnlyList<CartonKind> kinds, PalletRoom room, Work work) : IComparable<Attempt>
{
    private readonly Pile pile = new(kinds, room, work);
    private readonly int[] left = [.. kinds.Select(kind => kind.Count)];
    private readonly LeftOutReason[] reasons = [.. kinds.Select(_ => LeftOutReason.NotTried)];
    private readonly int[] foundNoneAt = [.. kinds.Select(_ => -1)];

    /// <summary>What bears goes first, in layers and then alone; then what is fragile likewise.</summary>
    /// <returns>False when no layer could be drafted, so that asking for fuller ones would change nothing.</returns>
    public bool Build(double leastShare, Order order)
    {
        var drafts = LayerDraft.Of(kinds, room, leastShare, left).OrderByDescending(d => Rank(d, order)).ToList();
        var rest = Enumerable.Range(0, kinds.Count).OrderByDescending(i => Rank(kinds[i], order)).ThenByDescending(i => kinds[i].Length.Metres * kinds[i].Width.Metres).ToList();
        foreach (var fragile in (bool[])[false, true])
        {
            foreach (var draft in drafts.Where(d => d.Pressure == 0 == fragile))
                Stack(draft, leastShare);
            PlaceAlone([.. rest.Where(i => fragile || kinds[i].Bears > Force.Zero)]);
        }

        return drafts.Count > 0;
    }

    public int CompareTo(Attempt? other)
    {
        if (other is null)
            return 1;
        var byVolume = Volume().CompareTo(other.Volume());
        if (byVolume != 0 || pile.Cartons.Count == 0)
            return byVolume;
        // A hundredth of the deck more or less at the top is no better or worse.
        var byTop = Math.Round(FlatTop(), 2).CompareTo(Math.Round(other.FlatTop(), 2));
        return byTop != 0 ? byTop : other.Centre()!.Value.Height.CompareTo(Centre()!.Value.Height);
    }

    public MixedLoad Load()
    {
        var (x, y) = Shift();
        var cartons = pile.Cartons.Select((c, i) => new PlacedCarton(
            c.Stance.Kind,
            Length.FromNanometres(c.Seat.X + x),
            Length.FromNanometres(c.Seat.Y + y),
            Length.FromNanometres(c.Seat.Z),
            Length.FromNanometres(c.Stance.Along),
            Length.FromNanometres(c.Stance.Across),
            Length.FromNanometres(c.Stance.Up),
            c.Stance.Down,
            c.Stance.Turned,
            c.Seat.Support,
            Force.FromNewtons(pile.BorneBy(i))));
        return new MixedLoad(
            [.. cartons],
            LeftOut(),
            Length.FromNanometres(Top()),
            Centre(),
            pile.Cartons.Select(c => c.Seat.Z).Distinct().Count(),
            pile.Cartons.Where(c => c.Seat.Z == 0).Sum(c => c.Stance.Area) / room.DeckArea,
            (double)Volume() / (room.DeckArea * room.Height.Nanometres),
            FlatTop());
    }

    private static double Rank(LayerDraft draft, Order order) => order == Order.Strong ? draft.Pressure : draft.Mass;

    private static double Rank(CartonKind kind, Order order) => order switch
    {
        Order.Strong => kind.Bears.Newtons / (kind.Length.Metres * kind.Width.Metres),
        Order.Heavy => kind.Mass.Kilograms,
        Order.Broad => kind.Length.Metres * kind.Width.Metres,
        _ => kind.Height.Metres,
    };

    /// <summary>Puts a layer on, if enough of it rests at one level; what does not is placed alone later.</summary>
    private void Stack(LayerDraft draft, double leastShare)
    {
        var before = pile.Cartons.Count;
        var level = -1L;
        var refused = new List<int>();
        foreach (var (stance, x, y) in draft.Cartons)
        {
            var seat = pile.SeatAt(stance, x, y);
            if (work.IsSpent || seat.IsRefused || (level >= 0 && seat.Z != level) || pile.TryPlace(stance, seat) is not null)
                refused.Add(stance.Kind);
            else
                level = seat.Z;
        }

        if (pile.Cartons.Skip(before).Sum(c => c.Stance.Area) < leastShare * room.DeckArea)
        {
            refused = [.. draft.Cartons.Select(c => c.Stance.Kind)];
            pile.TakeOffTo(before);
        }

        foreach (var kind in refused)
            left[kind]++;
    }

    private void PlaceAlone(IReadOnlyList<int> order)
    {
        // What is placed makes new places for what found none before.
        int before;
        do
        {
            before = pile.Cartons.Count;
            foreach (var kind in order)
            {
                while (left[kind] > 0 && foundNoneAt[kind] != pile.Cartons.Count)
                {
                    if (PlaceOne(kind))
                        left[kind]--;
                    else
                        foundNoneAt[kind] = pile.Cartons.Count;
                }
            }
        }
        while (pile.Cartons.Count > before);
    }

    private bool PlaceOne(int kind)
    {
        reasons[kind] = work.IsSpent ? LeftOutReason.NotTried : LeftOutReason.Room;
        foreach (var face in kinds[kind].Stances(kind).Where(room.Takes).GroupBy(s => s.Down))
        {
            foreach (var (stance, seat) in Seats(face).OrderBy(s => s.Seat.Z).ThenByDescending(s => s.Seat.Support).ThenBy(s => s.Seat.X).ThenBy(s => s.Seat.Y))
            {
                if (pile.TryPlace(stance, seat) is not { } refusal)
                    return true;
                reasons[kind] = refusal;
                if (refusal == LeftOutReason.Weight)
                    return false;
            }
        }

        return false;
    }

    private List<(Stance Stance, Seat Seat)> Seats(IEnumerable<Stance> stances)
    {
        var seats = new List<(Stance, Seat)>();
        foreach (var stance in stances.TakeWhile(_ => !work.IsSpent))
        {
            foreach (var (x, y) in Places(stance))
            {
                if (pile.SeatAt(stance, x, y) is { IsRefused: false } seat)
                    seats.Add((stance, seat));
            }
        }

        return seats;
    }

    /// <summary>The deck's corners, and on and beside every carton whose top is not wholly covered, corner on corner.</summary>
    private HashSet<(long X, long Y)> Places(Stance s)
    {
        var (farX, farY) = (room.DeckLength.Nanometres - s.Along, room.DeckWidth.Nanometres - s.Across);
        var places = new HashSet<(long, long)> { (0, 0), (farX, 0), (0, farY), (farX, farY) };
        for (var i = 0; i < pile.Cartons.Count; i++)
        {
            if (!pile.IsOpen(i))
                continue;
            var (seat, stance) = (pile.Cartons[i].Seat, pile.Cartons[i].Stance);
            var (right, top) = (seat.X + stance.Along, seat.Y + stance.Across);
            places.UnionWith([
                (seat.X, seat.Y), (right, seat.Y), (seat.X, top),
                (right - s.Along, top - s.Across), (right - s.Along, top), (right, top - s.Across)]);
        }

        return places;
    }

    private Int128 Volume() => pile.Cartons.Aggregate((Int128)0, (sum, c) => sum + (Int128)c.Stance.Along * c.Stance.Across * c.Stance.Up);

    private long Top() => pile.Cartons.Select(c => c.Top).DefaultIfEmpty().Max();

    private double FlatTop()
    {
        var top = Top();
        return pile.Cartons.Where(c => c.Top == top).Sum(c => c.Stance.Area) / room.DeckArea;
    }

    /// <summary>How far the load must move to lie in the middle of the deck.</summary>
    private (long X, long Y) Shift()
    {
        if (pile.Cartons.Count == 0)
            return (0, 0);
        var (nearX, nearY) = (pile.Cartons.Min(c => c.Seat.X), pile.Cartons.Min(c => c.Seat.Y));
        var (farX, farY) = (pile.Cartons.Max(c => c.Seat.X + c.Stance.Along), pile.Cartons.Max(c => c.Seat.Y + c.Stance.Across));
        return ((room.DeckLength.Nanometres - nearX - farX) / 2, (room.DeckWidth.Nanometres - nearY - farY) / 2);
    }

    private CentreOfGravity? Centre()
    {
        if (pile.Cartons.Count == 0)
            return null;
        var (x, y) = Shift();
        return CentreOfGravity.Of(pile.Cartons.Select(c => new Part(
            kinds[c.Stance.Kind].Mass,
            Length.FromNanometres(c.Seat.Z + c.Stance.Up / 2),
            Length.FromNanometres(c.Seat.X + x + c.Stance.Along / 2 - room.DeckLength.Nanometres / 2),
            Length.FromNanometres(c.Seat.Y + y + c.Stance.Across / 2 - room.DeckWidth.Nanometres / 2))));
    }

    private LeftOut[] LeftOut() => [.. kinds
        .Select((kind, i) => kind.Stances(i).Any(room.Takes)
            ? new LeftOut(i, left[i], reasons[i])
            : new LeftOut(i, kind.Count, LeftOutReason.TooLarge))
        .Where(l => l.Count > 0)];
}
