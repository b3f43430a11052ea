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
        marten.Events.AddEventType<HoldDecided>();
        marten.Projections.Add(new HoldProjection(), ProjectionLifecycle.Inline);
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
