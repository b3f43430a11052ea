using Fettle.Readiness.Claims;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Scorecards;
using JasperFx.Events;
using Marten;
using Marten.Events.Projections;

namespace Fettle.Web.Scorecards;

/// <summary>
/// Keeps lines and cells up to date in the transaction that stores an event. It only copies and counts: rebuilt from the
/// same events it gives the same records and the same cells.
/// </summary>
public sealed class ScorecardProjection : IProjection
{
    public async Task ApplyAsync(IDocumentOperations operations, IReadOnlyList<IEvent> events, CancellationToken cancellation)
    {
        var facts = await FactsAsync(operations, events, cancellation);
        if (facts.Count == 0)
            return;
        var begun = facts.OfType<LineDeclared>().Select(fact => LineRecord.IdOf(fact.Line)).ToHashSet();
        Guid[] known = [.. facts.Select(fact => LineRecord.IdOf(fact.Line)).Distinct().Where(id => !begun.Contains(id))];
        var before = known.Length == 0 ? [] : (await operations.LoadManyAsync<LineRecord>(cancellation, known)).ToDictionary(record => record.Id);

        var changes = new List<(ScoredLine? Before, ScoredLine After)>();
        foreach (var about in facts.GroupBy(fact => fact.Line))
        {
            var record = before.GetValueOrDefault(LineRecord.IdOf(about.Key));
            if (about.Aggregate(record?.Line, ScoredLine.Evolve) is not { } after || after == record?.Line)
                continue;
            changes.Add((record?.Line, after));
            operations.Store(LineRecord.Of(after, record?.Version ?? Guid.Empty));
        }

        CellTable.Add(operations, CellSheet.Empty.Change(changes));
    }

    private static async Task<IReadOnlyList<LineFact>> FactsAsync(IDocumentOperations operations, IReadOnlyList<IEvent> events, CancellationToken cancel)
    {
        var placed = events.Select(e => e.Data).OfType<HoldPlaced>().ToDictionary(hold => hold.HoldId, LineFacts.LineOf);
        Guid[] earlier = [.. events.Select(e => e.Data).OfType<HoldDecided>().Select(hold => hold.HoldId).Distinct().Where(id => !placed.ContainsKey(id))];
        if (earlier.Length > 0)
        {
            foreach (var line in await operations.LoadManyAsync<LineOfHold>(cancel, earlier))
                placed.Add(line.Id, new(line.PickupId, line.Reference));
        }

        var facts = new List<LineFact>();
        foreach (var e in events)
        {
            switch (e.Data)
            {
                case PickupSubmitted submitted:
                    facts.AddRange(LineFacts.Of(submitted));
                    break;
                case OutcomeRecorded recorded:
                    facts.AddRange(LineFacts.Of(recorded));
                    break;
                case InspectionRecorded inspected:
                    facts.AddRange(LineFacts.Of(inspected) is { } tested ? [tested] : []);
                    break;
                case ClaimFiled filed:
                    facts.AddRange(LineFacts.Of(filed));
                    break;
                case ClaimAnswered answered:
                    facts.AddRange(LineFacts.Of(answered));
                    break;
                case ClaimWithdrawn withdrawn:
                    facts.AddRange(LineFacts.Of(withdrawn));
                    break;
                case HoldPlaced hold:
                    operations.Store(new LineOfHold { Id = hold.HoldId, PickupId = hold.PickupId, Reference = hold.HandlingUnit.Reference });
                    facts.Add(LineFacts.Of(hold));
                    break;
                case HoldDecided decided when placed.TryGetValue(decided.HoldId, out var line):
                    facts.Add(LineFacts.Of(decided, line));
                    break;
                default:
                    // Of no concern to the accounts desk.
                    break;
            }
        }

        return facts;
    }
}
