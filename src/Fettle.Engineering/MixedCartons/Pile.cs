using System.Runtime.InteropServices;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.MixedCartons;

/// <summary>
/// Cartons put down on a deck one after the other, from above: each comes to rest on the highest thing under it. Nothing gets
/// onto a pile but through <see cref="TryPlace"/>, which keeps every promise: inside the room, supported, and no carton under
/// more than it bears. Each carton hands what it weighs and bears to those it touches, by area of contact.
/// </summary>
internal sealed class Pile(IReadOnlyList<CartonKind> kinds, PalletRoom room, Work work)
{
    /// <summary>Comparisons of shares and forces allow for rounding; on the limit counts as within it.</summary>
    private const double Slack = 1e-9;

    private readonly List<Resting> cartons = [];
    private readonly List<(int Below, double Share)[]> rests = [];
    private readonly List<double> borne = [];
    private readonly List<double> covered = [];

    public IReadOnlyList<Resting> Cartons => cartons;

    public Mass Mass { get; private set; }

    /// <summary>Weight that rests on a carton, in newtons.</summary>
    public double BorneBy(int carton) => borne[carton];

    /// <summary>Some of a carton's top is bare.</summary>
    public bool IsOpen(int carton) => covered[carton] < cartons[carton].Stance.Area * (1 - Slack);

    /// <summary>Where a carton would come to rest at a place, or why it cannot.</summary>
    public Seat SeatAt(Stance stance, long x, long y)
    {
        work.Spend(cartons.Count + 1);
        if (x < 0 || y < 0 || x + stance.Along > room.DeckLength.Nanometres || y + stance.Across > room.DeckWidth.Nanometres)
            return Seat.Refused;
        var (z, area) = (0L, 0.0);
        foreach (ref readonly var c in CollectionsMarshal.AsSpan(cartons))
        {
            if (c.Top < z)
                continue;
            var contact = c.Overlap(x, y, stance.Along, stance.Across);
            if (contact == 0)
                continue;
            area = c.Top > z ? contact : area + contact;
            z = c.Top;
        }

        var support = z == 0 ? 1 : area / stance.Area;
        return z + stance.Up > room.Height.Nanometres || support < room.LeastSupport - Slack ? Seat.Refused : new Seat(x, y, z, Math.Min(1, support));
    }

    /// <summary>Puts a carton down on a seat that was found for the pile as it is, unless the pile would not bear it.</summary>
    public LeftOutReason? TryPlace(Stance stance, Seat seat)
    {
        if (Mass + kinds[stance.Kind].Mass > room.Mass)
            return LeftOutReason.Weight;
        var below = Below(stance, seat);
        var extra = new double[cartons.Count];
        var weight = Force.WeightOf(kinds[stance.Kind].Mass).Newtons;
        HandDown(weight, below, extra);
        // What a carton rests on was put down before it, so one pass from the last to the first reaches the deck.
        for (var i = extra.Length - 1; i >= 0; i--)
        {
            if (extra[i] == 0)
                continue;
            if (borne[i] + extra[i] > Bears(cartons[i].Stance) * (1 + Slack))
                return LeftOutReason.Strength;
            HandDown(extra[i], rests[i], extra);
        }

        for (var i = 0; i < extra.Length; i++)
            borne[i] += extra[i];
        Add(new Resting(stance, seat), below);
        return null;
    }

    /// <summary>Takes the last cartons off again.</summary>
    public void TakeOffTo(int count)
    {
        var (kept, below) = (cartons.Take(count).ToArray(), rests.Take(count).ToArray());
        cartons.Clear();
        rests.Clear();
        borne.Clear();
        covered.Clear();
        Mass = Mass.Zero;
        for (var i = 0; i < count; i++)
            Add(kept[i], below[i]);
        var loads = new double[count];
        for (var i = count - 1; i >= 0; i--)
        {
            borne[i] = loads[i];
            HandDown(loads[i] + Force.WeightOf(kinds[kept[i].Stance.Kind].Mass).Newtons, below[i], loads);
        }
    }

    private void Add(Resting carton, (int Below, double Share)[] below)
    {
        cartons.Add(carton);
        rests.Add(below);
        borne.Add(0);
        covered.Add(0);
        Mass += kinds[carton.Stance.Kind].Mass;
        foreach (var (i, share) in below)
            covered[i] += share * carton.Seat.Support * carton.Stance.Area;
    }

    private static void HandDown(double load, (int Below, double Share)[] to, double[] loads)
    {
        foreach (var (i, share) in to)
            loads[i] += load * share;
    }

    private double Bears(Stance stance) => stance.Down == CartonFace.Base ? kinds[stance.Kind].Bears.Newtons : 0;

    private (int Below, double Share)[] Below(Stance stance, Seat seat)
    {
        var contacts = new List<(int Below, double Share)>();
        for (var i = 0; i < cartons.Count; i++)
        {
            if (cartons[i].Top == seat.Z && cartons[i].Overlap(seat.X, seat.Y, stance.Along, stance.Across) is > 0 and var contact)
                contacts.Add((i, contact));
        }

        var all = contacts.Sum(c => c.Share);
        return [.. contacts.Select(c => (c.Below, c.Share / all))];
    }
}

/// <summary>A place where a carton would rest. One that is refused has no support.</summary>
internal readonly record struct Seat(long X, long Y, long Z, double Support)
{
    public static Seat Refused => default;

    public bool IsRefused => Support == 0;
}

/// <summary>A carton that rests on its seat.</summary>
internal readonly record struct Resting(Stance Stance, Seat Seat)
{
    public long Top => Seat.Z + Stance.Up;

    /// <summary>Area, seen from above, shared with a rectangle; zero when they only touch.</summary>
    public double Overlap(long x, long y, long along, long across)
    {
        var l = Math.Min(Seat.X + Stance.Along, x + along) - Math.Max(Seat.X, x);
        var w = Math.Min(Seat.Y + Stance.Across, y + across) - Math.Max(Seat.Y, y);
        return (double)Math.Max(0, l) * Math.Max(0, w);
    }
}

/// <summary>Comparisons that may still be made: counted, not timed, so that equal questions have equal answers.</summary>
internal sealed class Work(long left)
{
    public bool IsSpent => left <= 0;

    public void Spend(int comparisons) => left -= comparisons;
}
