using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Holds;
using JasperFx.Events;
using Marten;
using Marten.Events.Aggregation;

namespace Fettle.Web.Boards;

/// <summary>A submitted pickup as the dock sees it: still to come, here, or gone. Flat and indexed, as <see cref="HeldUnit"/> is for holds.</summary>
public sealed record DockPickup
{
    /// <summary>The pickup's id.</summary>
    public Guid Id { get; init; }

    public required string Number { get; init; }

    public required Guid ShipperId { get; init; }

    public required Guid CarrierId { get; init; }

    public required Guid TerminalId { get; init; }

    /// <summary>Handling units.</summary>
    public required int Quantity { get; init; }

    public required double GrossPounds { get; init; }

    public required UnitSystem Units { get; init; }

    /// <summary>Codes of what stopped any of it.</summary>
    public required IReadOnlyList<string> Stops { get; init; }

    public required bool Fragile { get; init; }

    /// <summary>Floor that it takes, units times footprint, in square feet.</summary>
    public required double FloorSquareFeet { get; init; }

    public required DateTimeOffset WindowFrom { get; init; }

    public required DateTimeOffset WindowTo { get; init; }

    public required string TimeZone { get; init; }

    /// <summary>Since when it is expected or here: its submission, then its arrival.</summary>
    public required DateTimeOffset Since { get; init; }

    public bool IsHere { get; init; }

    /// <summary>It has been delivered, or how it was is recorded.</summary>
    public bool IsGone { get; init; }

    public static DockPickup? After(DockPickup? state, PickupEvent happened) => happened switch
    {
        PickupSubmitted submitted => Of(submitted),
        FreightArrived arrived => state! with { IsHere = true, Since = arrived.At.ToUniversalTime() },
        OutcomeRecorded => state! with { IsHere = false, IsGone = true },
        // What else happens to a pickup does not move it.
        _ => state,
    };

    private static DockPickup Of(PickupSubmitted submitted)
    {
        var lines = submitted.Declaration.HandlingUnits;
        return new()
        {
            Id = submitted.PickupId,
            Number = submitted.Header.Number,
            ShipperId = submitted.Header.ShipperId,
            CarrierId = submitted.Header.CarrierId,
            TerminalId = submitted.Header.TerminalId,
            Quantity = lines.Sum(line => line.Quantity),
            GrossPounds = lines.Sum(line => line.Quantity * line.GrossWeight.Pounds),
            Units = submitted.Declaration.Units,
            Stops = [.. submitted.Units.SelectMany(unit => unit.Findings).Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Code).Distinct().Order(StringComparer.Ordinal)],
            Fragile = lines.Any(line => line.Fragile != Fragility.None),
            FloorSquareFeet = lines.Sum(HeldUnit.Floor),
            WindowFrom = submitted.Header.Window.From.ToUniversalTime(),
            WindowTo = submitted.Header.Window.To.ToUniversalTime(),
            TimeZone = submitted.Header.Window.TimeZone,
            Since = submitted.At.ToUniversalTime(),
        };
    }

    public static void Configure(StoreOptions marten)
    {
        marten.Projections.Add(new DockPickupProjection(), JasperFx.Events.Projections.ProjectionLifecycle.Inline);
        marten.Schema.For<DockPickup>()
            .Duplicate(pickup => pickup.TerminalId)
            .Duplicate(pickup => pickup.ShipperId)
            .Duplicate(pickup => pickup.IsHere)
            .Duplicate(pickup => pickup.WindowFrom)
            .Duplicate(pickup => pickup.WindowTo)
            .Duplicate(pickup => pickup.Since);
    }
}

public sealed partial class DockPickupProjection : SingleStreamProjection<DockPickup, Guid>
{
    public override DockPickup? Evolve(DockPickup? snapshot, Guid id, IEvent e) =>
        e.Data is PickupEvent happened ? DockPickup.After(snapshot, happened) : snapshot;
}
