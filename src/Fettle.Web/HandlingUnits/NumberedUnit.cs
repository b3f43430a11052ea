using System.Globalization;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Pickups;
using Fettle.Web.Store;
using JasperFx.Events;
using JasperFx.Events.Projections;
using Marten;
using Marten.Events.Projections;

namespace Fettle.Web.HandlingUnits;

/// <summary>One physical unit of a submitted pickup, found by what is scanned or typed from its label.</summary>
public sealed record NumberedUnit
{
    public Guid Id { get; init; }

    /// <summary>Eighteen digits; null for a unit of a shipper without a company prefix.</summary>
    public required string? Sscc { get; init; }

    /// <summary>"P-4K7Q2M/A1-1".</summary>
    public required string Number { get; init; }

    /// <summary>For labels on which the number has no room: the pickup's number and the unit's place in it, "P-4K7Q2M#12".</summary>
    public required string Short { get; init; }

    public required Guid PickupId { get; init; }

    /// <summary>The declared line's.</summary>
    public required string Reference { get; init; }

    /// <summary>Which of the line's units, from 1.</summary>
    public required int Index { get; init; }

    /// <summary>Which of the pickup's units, from 1.</summary>
    public required int Place { get; init; }

    public required Guid ShipperId { get; init; }

    public required Guid SiteId { get; init; }

    public required Guid CarrierId { get; init; }

    public required Guid TerminalId { get; init; }

    public static Guid IdOf(Guid pickupId, string reference, int index) => StableId.From("unit", pickupId, reference, index);

    /// <summary>"P-4K7Q2M#12".</summary>
    public static string ShortOf(string pickupNumber, int place) => string.Create(CultureInfo.InvariantCulture, $"{pickupNumber}#{place}");

    public static void Configure(StoreOptions marten)
    {
        UnitSerials.Configure(marten);
        marten.Projections.Add(new NumberedUnitProjection(), ProjectionLifecycle.Inline);
        marten.Schema.For<NumberedUnit>()
            .Duplicate(unit => unit.Sscc!)
            .Duplicate(unit => unit.Number)
            .Duplicate(unit => unit.Short)
            .Duplicate(unit => unit.PickupId);
    }
}

/// <summary>Copies, and counts nothing: a rebuild gives the same documents.</summary>
public sealed class NumberedUnitProjection : IProjection
{
    public Task ApplyAsync(IDocumentOperations operations, IReadOnlyList<IEvent> events, CancellationToken cancellation)
    {
        foreach (var submitted in events.Select(e => e.Data).OfType<PickupSubmitted>())
            operations.Store(submitted.Numbers.Select((number, i) => Of(submitted, number, i + 1)).ToArray());
        return Task.CompletedTask;
    }

    private static NumberedUnit Of(PickupSubmitted submitted, UnitNumber number, int place) => new()
    {
        Id = NumberedUnit.IdOf(submitted.PickupId, number.Reference, number.Index),
        Sscc = number.Sscc?.Value,
        Number = number.Own(submitted.Header.Number),
        Short = NumberedUnit.ShortOf(submitted.Header.Number, place),
        PickupId = submitted.PickupId,
        Reference = number.Reference,
        Index = number.Index,
        Place = place,
        ShipperId = submitted.Header.ShipperId,
        SiteId = submitted.Header.SiteId,
        CarrierId = submitted.Header.CarrierId,
        TerminalId = submitted.Header.TerminalId,
    };
}
