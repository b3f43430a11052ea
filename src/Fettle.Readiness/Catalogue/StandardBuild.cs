using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Catalogue;

/// <summary>A unit that a shipper builds again and again, on the way it was declared for, and how each carrier's rules judge it.</summary>
/// <param name="Judgements">The last one by each carrier that it is used with, one at least.</param>
public sealed record StandardBuild(HandlingUnit Unit, Lane Lane, IReadOnlyList<BuildJudgement> Judgements)
{
    /// <summary>No carrier that it is used with would hold it.</summary>
    public bool Passes => Judgements.All(judgement => judgement.Passes);

    /// <summary>The judgement that stands against it, the latest; null when it passes.</summary>
    public BuildJudgement? Against => Judgements.Where(judgement => !judgement.Passes).MaxBy(judgement => judgement.At);

    /// <summary>From a line of a declaration. Null when the rules would hold it: a build that is kept is one that travels.</summary>
    /// <param name="carrierId">Whose rules these are; null while no terminal is chosen.</param>
    public static StandardBuild? Of(HandlingUnit unit, Lane lane, Guid? carrierId, RuleSet rules, DateTimeOffset at)
    {
        // How many there are of it, and who built it, is another matter each time.
        var build = new StandardBuild(unit with { Quantity = 1, BuiltBy = null }, lane, []).Recheck(carrierId, rules, at);
        return build.Passes ? build : null;
    }

    /// <summary>
    /// Judged by a carrier's rules as they are now. The same build when this very version has judged it for that carrier
    /// already, so that doing it twice changes nothing.
    /// </summary>
    public StandardBuild Recheck(Guid? carrierId, RuleSet rules, DateTimeOffset at)
    {
        if (Judgements.Any(judgement => judgement.CarrierId == carrierId && judgement.RuleSet == rules.Identity))
            return this;
        var result = ReadinessCheck.Run(Unit, Lane, rules);
        return this with
        {
            Judgements =
            [
                .. Judgements.Where(judgement => judgement.CarrierId != carrierId),
                new(carrierId, rules.Identity, result.Verdict, result.Findings, at),
            ],
        };
    }

    public bool Equals(StandardBuild? other) => other is not null && Unit == other.Unit && Lane == other.Lane && Judgements.SequenceEqual(other.Judgements);

    public override int GetHashCode() => HashCode.Combine(Unit, Lane, Judgements.Count);
}

/// <param name="CarrierId">Whose rules judged; null for those that hold where no carrier is chosen.</param>
public sealed record BuildJudgement(Guid? CarrierId, RuleSetVersion RuleSet, Verdict Verdict, IReadOnlyList<Finding> Findings, DateTimeOffset At)
{
    public bool Passes => Verdict != Verdict.Hold;
}
