using Fettle.Readiness;
using JasperFx;
using JasperFx.Events;
using Marten;
using Marten.Exceptions;
using StreamExists = JasperFx.Events.ExistingStreamIdCollisionException;
using StreamExistsInMarten = Marten.Exceptions.ExistingStreamIdCollisionException;

namespace Fettle.Web.Store;

/// <summary>The one way in which a decision becomes stored events.</summary>
public static class Streams
{
    private const int Tries = 4;

    /// <summary>
    /// Reads the state, decides, appends and saves in one transaction. When somebody else was quicker the state is read
    /// again in a new session and decided anew, so that the decider itself says what to tell the loser.
    /// </summary>
    /// <param name="alongside">Documents that must be saved with the events or not at all: notices, keys.</param>
    public static async Task<Decision<TEvent>> DecideAsync<TState, TEvent>(
        this IDocumentStore store,
        Guid streamId,
        Func<TState?, Decision<TEvent>> decide,
        Action<IDocumentSession, IReadOnlyList<TEvent>> alongside,
        CancellationToken cancel)
        where TState : class
        where TEvent : class
    {
        for (var attempt = 1; ; attempt++)
        {
            // A session whose save failed stays poisoned: each attempt has its own.
            await using var session = store.LightweightSession();
            var stream = await session.Events.FetchForWriting<TState>(streamId, cancel);
            var decision = decide(stream.Aggregate);
            if (decision.Refusal is not null || decision.Events.Count == 0)
                return decision;
            stream.AppendMany(decision.Events.Cast<object>());
            alongside(session, decision.Events);
            try
            {
                await session.SaveChangesAsync(cancel);
                return decision;
            }
            catch (Exception raced) when (attempt < Tries && IsRace(raced))
            {
            }
        }
    }

    /// <summary>Somebody else wrote first.</summary>
    public static bool IsRace(Exception e) =>
        e is EventStreamUnexpectedMaxEventIdException or StreamExists or StreamExistsInMarten or ConcurrencyException or DocumentAlreadyExistsException;
}
