using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Store;
using JasperFx.Events;
using JasperFx.Events.Projections;
using Marten;
using Marten.Events.Aggregation;
using Marten.Events.Projections;

namespace Fettle.Web.Pickups;

public static class PickupStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Events.AddEventType<PickupSubmitted>();
        marten.Events.AddEventType<OutcomeRecorded>();
        marten.Projections.Add(new PickupProjection(), ProjectionLifecycle.Inline);
        marten.Projections.Add(new DeclaredUnitProjection(), ProjectionLifecycle.Inline);
        marten.Schema.For<Pickup>()
            .Index(pickup => pickup.SubmittedAt)
            .Duplicate(pickup => pickup.Header.ShipperId)
            .Duplicate(pickup => pickup.Header.TerminalId);
        marten.Schema.For<DeclaredUnit>()
            .Duplicate(unit => unit.ShipperId)
            .Duplicate(unit => unit.CarrierId);
        marten.Schema.For<FollowUp>().Index(followUp => followUp.DoneAt!);
    }
}

public sealed partial class PickupProjection : SingleStreamProjection<Pickup, Guid>
{
    public override Pickup? Evolve(Pickup? snapshot, Guid id, IEvent e) =>
        e.Data is PickupEvent happened ? Pickup.Evolve(snapshot, happened) : snapshot;
}

/// <summary>One line of a submitted pickup, as the accounts desk counts it.</summary>
public sealed record DeclaredUnit
{
    public Guid Id { get; init; }

    public required Guid PickupId { get; init; }

    public required Guid ShipperId { get; init; }

    public required Guid CarrierId { get; init; }

    public required DateTimeOffset At { get; init; }

    public required int Quantity { get; init; }

    public required bool Held { get; init; }

    public required bool DeclaredStackable { get; init; }

    public required bool CarriesLikeUnit { get; init; }

    /// <summary>Codes of the findings that stopped it.</summary>
    public required IReadOnlyList<string> Stops { get; init; }
}

/// <summary>Copies, and counts nothing: a rebuild gives the same documents.</summary>
public sealed class DeclaredUnitProjection : IProjection
{
    public Task ApplyAsync(IDocumentOperations operations, IReadOnlyList<IEvent> events, CancellationToken cancellation)
    {
        foreach (var submitted in events.Select(e => e.Data).OfType<PickupSubmitted>())
        {
            foreach (var (unit, line) in submitted.Units.Zip(submitted.Declaration.HandlingUnits))
                operations.Store(Of(submitted, unit, line));
        }

        return Task.CompletedTask;
    }

    private static DeclaredUnit Of(PickupSubmitted submitted, UnitJudgement unit, HandlingUnit line) => new()
    {
        Id = StableId.From(submitted.PickupId, unit.Reference),
        PickupId = submitted.PickupId,
        ShipperId = submitted.Header.ShipperId,
        CarrierId = submitted.Header.CarrierId,
        At = submitted.At,
        Quantity = unit.Quantity,
        Held = unit.Verdict == Verdict.Hold,
        DeclaredStackable = line.Stackable,
        CarriesLikeUnit = unit.CarriesLikeUnit,
        Stops = [.. unit.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Code).Distinct()],
    };
}
