using Fettle.Readiness.Holds;
using JasperFx.Events;
using JasperFx.Events.Projections;
using Marten;
using Marten.Events.Aggregation;

namespace Fettle.Web.Holds;

public static class HoldStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Events.AddEventType<HoldPlaced>();
        marten.Events.AddEventType<HoldMessageSent>();
        marten.Events.AddEventType<ReworkOffered>();
        marten.Events.AddEventType<ReworkOfferWithdrawn>();
        marten.Events.AddEventType<ReworkAuthorised>();
        marten.Events.AddEventType<HoldDeclarationCorrected>();
        marten.Events.AddEventType<HoldExceptionRequested>();
        marten.Events.AddEventType<HoldDisputed>();
        marten.Events.AddEventType<HoldDecided>();
        marten.Events.AddEventType<HoldInspected>();
        marten.Events.AddEventType<HoldReminded>();
        marten.Events.AddEventType<HoldEscalated>();
        marten.Projections.Add(new HoldProjection(), ProjectionLifecycle.Inline);
        marten.Projections.Add(new HeldUnitProjection(), ProjectionLifecycle.Inline);
        HeldUnit.Configure(marten);
        marten.Schema.For<Hold>()
            .Duplicate(hold => hold.Placed.PickupId)
            .Duplicate(hold => hold.Placed.Pickup.TerminalId)
            .Duplicate(hold => hold.Placed.Pickup.ShipperId)
            .Duplicate(hold => hold.IsOpen);
    }
}

public sealed partial class HoldProjection : SingleStreamProjection<Hold, Guid>
{
    public override Hold? Evolve(Hold? snapshot, Guid id, IEvent e) =>
        e.Data is HoldEvent happened ? Hold.Evolve(snapshot, happened) : snapshot;
}
