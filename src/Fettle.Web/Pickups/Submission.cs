using Fettle.Readiness;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Pickups;
using Fettle.Web.Declarations;
using Fettle.Web.HandlingUnits;
using Fettle.Web.Jobs;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Pickups;

/// <summary>Hands a draft in, judged by the carrier's rules in force at that moment: event, draft and follow-up in one transaction, then a hint to the job server.</summary>
public sealed class Submission(IDocumentStore store, CarrierRuleBook rules, DueWork due)
{
    public async Task<Decision<PickupEvent>> SubmitAsync(
        Draft draft,
        PickupHeader header,
        Declaration declaration,
        string? exceptionRequest,
        Actor by,
        DateTimeOffset at,
        Action<IDocumentSession, Pickup>? alongside,
        CancellationToken cancel)
    {
        var decision = await RecordAsync(draft, header, declaration, exceptionRequest, by, at, AndFollowUp, cancel);
        if (decision.Refusal is null)
            due.FollowUp(draft.Id);
        return decision;

        void AndFollowUp(IDocumentSession session, Pickup pickup)
        {
            session.Insert(new FollowUp { Id = draft.Id, DueAt = at });
            alongside?.Invoke(session, pickup);
        }
    }

    /// <summary>The same without a word to the job server: for history, whose follow-up is saved with it.</summary>
    /// <param name="followUp">Adds what follows to the transaction.</param>
    public async Task<Decision<PickupEvent>> RecordAsync(
        Draft draft,
        PickupHeader header,
        Declaration declaration,
        string? exceptionRequest,
        Actor by,
        DateTimeOffset at,
        Action<IDocumentSession, Pickup> followUp,
        CancellationToken cancel)
    {
        var inForce = await rules.InForceAsync(header.CarrierId, at, cancel);
        var command = new SubmitPickup(draft.Id, header, declaration, await NumberAsync(header, declaration, cancel), inForce, string.IsNullOrWhiteSpace(exceptionRequest) ? null : exceptionRequest.Trim(), by, at);
        try
        {
            return await store.DecideAsync<Pickup, PickupEvent>(
                draft.Id,
                state => Pickup.Decide(state, command),
                (session, events) =>
                {
                    draft.SubmittedAt = at;
                    session.Store(draft);
                    followUp(session, events.Aggregate(default(Pickup), Pickup.Evolve)!);
                },
                cancel);
        }
        catch (Exception raced) when (Streams.IsRace(raced))
        {
            // Not the submission but the draft was changed by somebody else in this moment.
            return Decision<PickupEvent>.Refuse(new ChangedMeanwhile());
        }
    }

    private async Task<IReadOnlyList<UnitNumber>> NumberAsync(PickupHeader header, Declaration declaration, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var shipper = await session.LoadAsync<Shipper>(header.ShipperId, cancel)
            ?? throw new InvalidOperationException($"There is no shipper {header.ShipperId}.");
        return await UnitSerials.NumberAsync(session, declaration, shipper, cancel);
    }
}
