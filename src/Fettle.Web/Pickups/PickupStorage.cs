using Fettle.Readiness.Claims;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using JasperFx.Events;
using JasperFx.Events.Projections;
using Marten;
using Marten.Events.Aggregation;

namespace Fettle.Web.Pickups;

public static class PickupStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Events.AddEventType<PickupSubmitted>();
        marten.Events.AddEventType<OutcomeRecorded>();
        marten.Events.AddEventType<FreightArrived>();
        marten.Events.AddEventType<ClaimFiled>();
        marten.Events.AddEventType<ClaimAnswered>();
        marten.Events.AddEventType<ClaimOfferAccepted>();
        marten.Events.AddEventType<ClaimWithdrawn>();
        marten.Projections.Add(new PickupProjection(), ProjectionLifecycle.Inline);
        marten.Schema.For<Pickup>()
            .Index(pickup => pickup.SubmittedAt)
            .Index(pickup => pickup.Header.Number)
            // So that the pickups of an account can be counted without reading them.
            .Index(pickup => new { pickup.Header.ShipperId, pickup.Header.CarrierId, pickup.SubmittedAt }, index => index.Name = "mt_doc_pickup_idx_account")
            .Duplicate(pickup => pickup.HasClaim)
            .Duplicate(pickup => pickup.HasOpenClaim)
            .Duplicate(pickup => pickup.Header.ShipperId)
            .Duplicate(pickup => pickup.Header.TerminalId);
        marten.Schema.For<FollowUp>().Index(followUp => followUp.DoneAt!);
    }
}

public sealed partial class PickupProjection : SingleStreamProjection<Pickup, Guid>
{
    public override Pickup? Evolve(Pickup? snapshot, Guid id, IEvent e) =>
        e.Data is PickupEvent happened ? Pickup.Evolve(snapshot, happened) : snapshot;
}
