using Fettle.Engineering.Statistics;
using Fettle.Readiness.Declarations;

namespace Fettle.Readiness.Scorecards;

/// <summary>What the history says of a finding and damage.</summary>
public enum Effect
{
    /// <summary>Too few lines to say.</summary>
    TooFew,

    /// <summary>Freight with it is damaged oftener: the whole interval lies above 1.</summary>
    Predicts,

    /// <summary>With data enough the interval still holds 1: it does not tell which freight arrives damaged.</summary>
    PredictsNothing,

    /// <summary>Freight with it is damaged less often, as freight is that people take care of.</summary>
    Reverse,
}

/// <summary>
/// How often lines arrive damaged with a finding and without it, commodity and lane length held constant. Only lines that
/// travelled as declared count: what was rebuilt says nothing of how it had been built.
/// </summary>
/// <param name="Code">The finding.</param>
/// <param name="With">Damaged, of the lines with it.</param>
/// <param name="Without">Damaged, of the lines without it.</param>
/// <param name="Ratio">Of risks, by Mantel and Haenszel; null when it cannot be told.</param>
/// <param name="Strata">In which lines with it and lines without it could be compared.</param>
public sealed record RuleEffect(string Code, Share With, Share Without, CommonRatio? Ratio, int Strata)
{
    /// <summary>Fewer comparable lines with, or without, the finding say nothing; our choice.</summary>
    public const int LeastLines = 30;

    /// <summary>Fewer damaged lines among them say nothing; our choice.</summary>
    public const int LeastDamaged = 5;

    /// <summary>Lines with it, in strata in which there are also lines without it.</summary>
    public required long ComparedWith { get; init; }

    public required long ComparedWithout { get; init; }

    public required long ComparedDamaged { get; init; }

    public Effect Effect => (Ratio, ComparedWith, ComparedWithout, ComparedDamaged) switch
    {
        (_, < LeastLines, _, _) or (_, _, < LeastLines, _) or (_, _, _, < LeastDamaged) => Effect.TooFew,
        (null, _, _, _) => Effect.TooFew,
        ({ } ratio, _, _, _) when ratio.Interval().Low > 1 => Effect.Predicts,
        ({ } ratio, _, _, _) when ratio.Interval().High < 1 => Effect.Reverse,
        _ => Effect.PredictsNothing,
    };
}

/// <summary>Whether the rules tell the truth.</summary>
/// <param name="Damaged">Damaged, of all lines that travelled as declared.</param>
/// <param name="Unforeseen">With nothing found at all, of the damaged ones.</param>
/// <param name="Effects">By what they say, the strongest first.</param>
public sealed record RuleEffects(Share Damaged, Share Unforeseen, IReadOnlyList<RuleEffect> Effects)
{
    /// <summary>The counts that <see cref="Of(IEnumerable{ValueTuple{Commodity, MileBand, string, Tally}})"/> looks at.</summary>
    public static readonly IReadOnlyList<Tallied> Counts = [Tallied.Travelled, Tallied.TravelledDamaged, Tallied.Unforeseen];

    /// <param name="cells">Tallies by commodity, lane length and code, where the empty code stands for all lines.</param>
    public static RuleEffects Of(IEnumerable<(Commodity Commodity, MileBand Miles, string Code, Tally Tally)> cells)
    {
        var all = new Dictionary<(Commodity, MileBand), Tally>();
        var byCode = new SortedDictionary<string, Dictionary<(Commodity, MileBand), Tally>>(StringComparer.Ordinal);
        foreach (var (commodity, miles, code, tally) in cells)
        {
            var strata = all;
            if (code.Length > 0 && !byCode.TryGetValue(code, out strata))
                byCode.Add(code, strata = []);
            strata![(commodity, miles)] = strata.TryGetValue((commodity, miles), out var so) ? so + tally : tally;
        }

        var total = Tally.Sum(all.Values);
        var effects = byCode.Select(pair => Of(pair.Key, pair.Value, all))
            .OrderBy(effect => effect.Effect switch { Effect.Predicts => 0, Effect.PredictsNothing => 1, Effect.Reverse => 2, Effect.TooFew => 3 })
            .ThenByDescending(effect => effect.Ratio?.Interval().Low ?? 0)
            .ThenBy(effect => effect.Code, StringComparer.Ordinal);
        return new(
            Share.Plain(total[Tallied.TravelledDamaged], total[Tallied.Travelled]),
            Share.Plain(total[Tallied.Unforeseen], total[Tallied.TravelledDamaged]),
            [.. effects]);
    }

    private static RuleEffect Of(string code, Dictionary<(Commodity, MileBand), Tally> with, Dictionary<(Commodity, MileBand), Tally> all)
    {
        Stratum[] strata =
        [
            .. from pair in all
               let own = with.GetValueOrDefault(pair.Key) ?? Tally.Zero
               let rest = pair.Value - own
               select new Stratum(Whole(own, Tallied.TravelledDamaged), Whole(own, Tallied.Travelled), Whole(rest, Tallied.TravelledDamaged), Whole(rest, Tallied.Travelled)),
        ];
        var comparable = Array.FindAll(strata, stratum => stratum is { With: > 0, Without: > 0 });
        var (crude, compared) = (Stratum.Crude(strata), Stratum.Crude(comparable));
        return new(code, Share.Plain(crude.CasesWith, crude.With), Share.Plain(crude.CasesWithout, crude.Without), MantelHaenszel.RiskRatio(comparable), comparable.Length)
        {
            ComparedWith = compared.With,
            ComparedWithout = compared.Without,
            ComparedDamaged = compared.CasesWith + compared.CasesWithout,
        };

        static int Whole(Tally tally, Tallied what) => checked((int)tally[what]);
    }
}
