using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Parties;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.RuleSets;

[Route("api/v1/rule-sets")]
public sealed class RuleSetsController(IDocumentStore store, TimeProvider clock, CarrierRuleBook book) : ApiController
{
    /// <summary>The built-in rules, then each carrier's that the caller may see: which version judges now, its limits, and all versions.</summary>
    [HttpGet]
    [ProducesResponseType<RuleSetsAnswer>(StatusCodes.Status200OK, AsJson)]
    public async Task<IActionResult> List(CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        await using var session = store.QuerySession();
        var carriers = await session.Query<Carrier>().OrderBy(carrier => carrier.Name).ToListAsync(cancel);
        var answers = new List<RuleSetAnswer> { RuleSetAnswer.OfBuiltIn() };
        foreach (var carrier in carriers.Where(carrier => Caller.MaySeeRulesOf(carrier.Id)))
            answers.Add(RuleSetAnswer.Of(carrier, await book.OfAsync(carrier.Id, cancel), now));
        return Ok(new RuleSetsAnswer(answers));
    }
}

public sealed record RuleSetsAnswer(IReadOnlyList<RuleSetAnswer> RuleSets);

/// <param name="CarrierId">Null for the built-in rules.</param>
/// <param name="InForce">What judges now; the built-in rules where a carrier has none of its own yet.</param>
/// <param name="Versions">In their order; also those whose time is over or to come.</param>
/// <param name="Limits">Of the version in force.</param>
public sealed record RuleSetAnswer(
    Guid? CarrierId,
    string? Carrier,
    RuleSetVersion InForce,
    IReadOnlyList<RuleSetVersionAnswer> Versions,
    IReadOnlyList<LimitAnswer> Limits)
{
    public static RuleSetAnswer OfBuiltIn() => new(null, null, RuleSet.BuiltIn.Identity, [], LimitAnswer.Of(RuleSet.BuiltIn));

    public static RuleSetAnswer Of(Carrier carrier, CarrierRules? rules, DateTimeOffset now)
    {
        var inForce = rules?.RulesAt(now) ?? RuleSet.BuiltIn;
        return new(
            carrier.Id,
            carrier.Name,
            inForce.Identity,
            [.. (rules?.Versions ?? []).Select(version => new RuleSetVersionAnswer(version.Version, version.From, rules!.Until(version), version.At))],
            LimitAnswer.Of(inForce));
    }
}

/// <param name="Until">Null while no later version is known; equal to <paramref name="From"/> when a later one took its place before it began.</param>
public sealed record RuleSetVersionAnswer(int Version, DateTimeOffset From, DateTimeOffset? Until, DateTimeOffset PublishedAt);

/// <param name="Limit">"overhang.clearance": never changes.</param>
/// <param name="Figure">A limit's figure; null for a severity or a yes or no.</param>
/// <param name="Severity">"stop", "caution" or "tip".</param>
/// <param name="Applies">Of what is reckoned with or not.</param>
/// <param name="DiffersFromBuiltIn">It is the carrier's own.</param>
public sealed record LimitAnswer(string Limit, Quantity? Figure, string? Severity, bool? Applies, bool DiffersFromBuiltIn)
{
    public static IReadOnlyList<LimitAnswer> Of(RuleSet rules) =>
    [
        .. from limit in Readiness.RuleSets.Limit.All
           let value = limit.Of(rules)
           select new LimitAnswer(
               limit.Path,
               LimitText.Quantity(limit, value),
               value is Severity severity ? severity.Word() : null,
               value as bool?,
               !value.Equals(limit.Of(RuleSet.BuiltIn))),
    ];
}
