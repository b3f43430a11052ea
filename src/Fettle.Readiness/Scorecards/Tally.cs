using Fettle.Readiness.Claims;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;

namespace Fettle.Readiness.Scorecards;

/// <summary>What the accounts desk counts. Lines unless the name says otherwise. Stored by name: a name keeps its meaning.</summary>
public enum Tallied
{
    Lines,
    Units,

    /// <summary>Nothing stopped it when it was handed in.</summary>
    Ready,

    /// <summary>Stopped by the check when it was handed in.</summary>
    Held,
    HeldUnits,

    /// <summary>Declared stackable.</summary>
    Stackable,
    StackableUnits,

    /// <summary>Declared stackable, and by calculation carries a like unit.</summary>
    Carries,
    CarriesUnits,

    /// <summary>Not declared stackable, though by calculation it carries a like unit.</summary>
    Unclaimed,

    /// <summary>An inspection tried whether it carries another unit.</summary>
    StackTested,

    /// <summary>And it did.</summary>
    StackHeld,

    /// <summary>Another unit is known to have ridden on top of some of it.</summary>
    CarriedFreight,

    /// <summary>And all that carried arrived clean.</summary>
    CarriedClean,

    /// <summary>An outcome of what travelled was reported.</summary>
    Delivered,
    DeliveredUnits,

    /// <summary>All of it arrived clean.</summary>
    Clean,
    CleanUnits,

    /// <summary>Some of it was missing.</summary>
    Short,
    ShortUnits,

    /// <summary>Some of it was damaged.</summary>
    Damaged,
    DamagedUnits,

    /// <summary>The consignee refused some of it.</summary>
    Refused,
    RefusedUnits,

    /// <summary>The same, and it travelled as it was declared.</summary>
    Travelled,

    /// <summary>And some of it was damaged.</summary>
    TravelledDamaged,

    /// <summary>And nothing had been found, not even a caution.</summary>
    Unforeseen,

    /// <summary>Holds, whoever caused them.</summary>
    HoldsPlaced,
    HoldsDecided,

    /// <summary>Whole minutes from placing to decision, of the holds that are decided.</summary>
    HeldMinutes,
    Released,
    ReleasedAsException,
    Reworked,
    Returned,
    RefusedAtTerminal,

    /// <summary>The shipper claims for some of it, and has not taken the claim back.</summary>
    UnderClaim,

    /// <summary>What is claimed, US cents.</summary>
    ClaimedCents,

    /// <summary>A claim for it was paid, in full or in part.</summary>
    ClaimPaid,

    /// <summary>What was paid, US cents.</summary>
    ClaimPaidCents,

    /// <summary>A claim for it stands disallowed.</summary>
    ClaimDisallowed,
}

/// <summary>Counts that merge: those of many lines are the sum of theirs, in any order. Immutable.</summary>
public sealed class Tally : IEquatable<Tally>
{
    /// <summary>All that is counted, in the order of storage.</summary>
    public static readonly IReadOnlyList<Tallied> All = Enum.GetValues<Tallied>();

    public static readonly Tally Zero = new(new long[All.Count]);

    private readonly long[] counts;

    private Tally(long[] counts) => this.counts = counts;

    public long this[Tallied what] => counts[(int)what];

    /// <summary>Nothing is counted.</summary>
    public bool IsZero => counts.All(count => count == 0);

    public static Tally operator +(Tally a, Tally b) => Combine(a, b, 1);

    public static Tally operator -(Tally a, Tally b) => Combine(a, b, -1);

    /// <summary>A tally read back from storage; what is not among the counts is nought.</summary>
    public static Tally From(params IEnumerable<(Tallied What, long Count)> counts)
    {
        var all = new long[All.Count];
        foreach (var (what, count) in counts)
            all[(int)what] = count;
        return new(all);
    }

    public static Tally Sum(IEnumerable<Tally> tallies)
    {
        var sum = new long[All.Count];
        foreach (var tally in tallies)
        {
            for (var i = 0; i < sum.Length; i++)
                sum[i] = checked(sum[i] + tally.counts[i]);
        }

        return new(sum);
    }

    /// <summary>What one line adds.</summary>
    public static Tally Of(ScoredLine line)
    {
        var counts = new long[All.Count];
        var declared = line.Declared;
        Count(Tallied.Lines, true);
        counts[(int)Tallied.Units] = declared.Quantity;
        Count(Tallied.Ready, declared.Verdict != Verdict.Hold);
        Both(Tallied.Held, Tallied.HeldUnits, declared.Verdict == Verdict.Hold);
        Both(Tallied.Stackable, Tallied.StackableUnits, declared.Stackable);
        Both(Tallied.Carries, Tallied.CarriesUnits, declared is { Stackable: true, CarriesLikeUnit: true });
        Count(Tallied.Unclaimed, declared is { Stackable: false, CarriesLikeUnit: true });
        Count(Tallied.StackTested, line.StackTest is not null);
        Count(Tallied.StackHeld, line.StackTest is { Held: true });
        foreach (var hold in line.Holds)
        {
            counts[(int)Tallied.HoldsPlaced]++;
            if (hold is not { Became: { } decision, Minutes: { } minutes })
                continue;
            counts[(int)Tallied.HoldsDecided]++;
            counts[(int)Tallied.HeldMinutes] += minutes;
            counts[(int)Of(decision)]++;
        }

        LineClaim[] claims = [.. line.Claims.Where(claim => !claim.IsWithdrawn)];
        var paid = claims.Where(claim => claim.Answer == ClaimAnswer.Paid).ToArray();
        Count(Tallied.UnderClaim, claims.Length > 0);
        counts[(int)Tallied.ClaimedCents] = claims.Sum(claim => claim.Cents);
        Count(Tallied.ClaimPaid, paid.Length > 0);
        counts[(int)Tallied.ClaimPaidCents] = paid.Sum(claim => claim.AnsweredCents);
        Count(Tallied.ClaimDisallowed, claims.Any(claim => claim.Answer == ClaimAnswer.Disallowed));

        // What did not travel arrived neither well nor badly.
        DeliveredPart[] parts = [.. line.Delivered?.Parts.Where(part => part.Kind != OutcomeKind.Stayed) ?? []];
        if (parts.Length > 0)
        {
            var damaged = Arrived(OutcomeKind.Damaged) > 0;
            var carried = parts.Where(part => part is { CarriedFreight: true, Count: > 0 }).ToArray();
            Count(Tallied.Delivered, true);
            counts[(int)Tallied.DeliveredUnits] = parts.Sum(part => (long)part.Count);
            counts[(int)Tallied.CleanUnits] = Arrived(OutcomeKind.Clean);
            counts[(int)Tallied.ShortUnits] = Arrived(OutcomeKind.Short);
            counts[(int)Tallied.DamagedUnits] = Arrived(OutcomeKind.Damaged);
            counts[(int)Tallied.RefusedUnits] = Arrived(OutcomeKind.Refused);
            Count(Tallied.Clean, Array.TrueForAll(parts, part => part.Kind == OutcomeKind.Clean));
            Count(Tallied.Short, Arrived(OutcomeKind.Short) > 0);
            Count(Tallied.Damaged, damaged);
            Count(Tallied.Refused, Arrived(OutcomeKind.Refused) > 0);
            Count(Tallied.CarriedFreight, carried.Length > 0);
            Count(Tallied.CarriedClean, carried.Length > 0 && Array.TrueForAll(carried, part => part.Kind == OutcomeKind.Clean));
            Count(Tallied.Travelled, !line.ChangedBeforeTravel);
            Count(Tallied.TravelledDamaged, damaged && !line.ChangedBeforeTravel);
            Count(Tallied.Unforeseen, damaged && !line.ChangedBeforeTravel && declared.Findings.Count == 0);

            long Arrived(OutcomeKind kind) => parts.Where(part => part.Kind == kind).Sum(part => (long)part.Count);
        }

        return new(counts);

        void Count(Tallied what, bool so) => counts[(int)what] = so ? 1 : 0;

        void Both(Tallied lines, Tallied units, bool so)
        {
            Count(lines, so);
            counts[(int)units] = so ? declared.Quantity : 0;
        }

        static Tallied Of(HoldDecision decision) => decision switch
        {
            HoldDecision.Release => Tallied.Released,
            HoldDecision.ReleaseAsException => Tallied.ReleasedAsException,
            HoldDecision.Rework => Tallied.Reworked,
            HoldDecision.Return => Tallied.Returned,
            HoldDecision.Refuse => Tallied.RefusedAtTerminal,
        };
    }

    public bool Equals(Tally? other) => other is not null && counts.AsSpan().SequenceEqual(other.counts);

    public override bool Equals(object? obj) => Equals(obj as Tally);

    public override int GetHashCode() => counts.Aggregate(0, HashCode.Combine);

    /// <summary>What is not nought, for a failing test.</summary>
    public override string ToString() => string.Join(", ", All.Where(what => this[what] != 0).Select(what => $"{what} {this[what]}"));

    private static Tally Combine(Tally a, Tally b, int sign)
    {
        var sum = new long[a.counts.Length];
        for (var i = 0; i < sum.Length; i++)
            sum[i] = checked(a.counts[i] + (sign * b.counts[i]));
        return new(sum);
    }
}
