using Fettle.Readiness.RuleSets;
using JasperFx.Events;
using JasperFx.Events.Projections;
using Marten;
using Marten.Events.Aggregation;

namespace Fettle.Web.RuleSets;

/// <summary>
/// A carrier's rules are a stream under the carrier's id. Events hold whole rule sets, each limit under its name: a limit
/// that was added since takes its default when an old event is read.
/// </summary>
public static class RuleSetStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Events.AddEventType<RuleSetDrafted>();
        marten.Events.AddEventType<RuleSetChanged>();
        marten.Events.AddEventType<RuleSetDraftDropped>();
        marten.Events.AddEventType<RuleSetPublished>();
        marten.Projections.Add(new CarrierRulesProjection(), ProjectionLifecycle.Inline);
        marten.Schema.For<CarrierRules>();
        marten.Schema.For<RulePreview>().Index(preview => preview.State).Duplicate(preview => preview.CarrierId);
    }
}

public sealed partial class CarrierRulesProjection : SingleStreamProjection<CarrierRules, Guid>
{
    public override CarrierRules? Evolve(CarrierRules? snapshot, Guid id, IEvent e) =>
        e.Data is RuleSetEvent happened ? CarrierRules.Evolve(snapshot, happened) : snapshot;
}
