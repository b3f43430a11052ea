using Fettle.Readiness.Inspections;
using JasperFx.Events;
using JasperFx.Events.Projections;
using Marten;
using Marten.Events.Aggregation;

namespace Fettle.Web.Inspections;

public static class InspectionStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Events.AddEventType<InspectionRecorded>();
        marten.Events.AddEventType<InspectionPhotographed>();
        marten.Events.AddEventType<InspectionLedToHold>();
        marten.Projections.Add(new InspectionProjection(), ProjectionLifecycle.Inline);
        marten.Schema.For<Inspection>()
            .Duplicate(inspection => inspection.Recorded.PickupId)
            .Duplicate(inspection => inspection.Recorded.Pickup.TerminalId)
            .Duplicate(inspection => inspection.HoldId!)
            .Index(inspection => inspection.Recorded.At);
    }
}

public sealed partial class InspectionProjection : SingleStreamProjection<Inspection, Guid>
{
    public override Inspection? Evolve(Inspection? snapshot, Guid id, IEvent e) =>
        e.Data is InspectionEvent happened ? Inspection.Evolve(snapshot, happened) : snapshot;
}
