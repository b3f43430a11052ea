using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using JasperFx.Events;
using Marten;
using Marten.Events.Aggregation;

namespace Fettle.Web.Holds;

/// <summary>
/// A hold as the board shows and filters it: flat, small, and indexed, so that thousands are counted and paged in
/// milliseconds. The same events make it as make <see cref="Hold"/>.
/// </summary>
public sealed record HeldUnit
{
    /// <summary>Later than anything that happens to freight.</summary>
    public static readonly DateTimeOffset Never = new(9000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>The hold's id.</summary>
    public Guid Id { get; init; }

    public required Guid PickupId { get; init; }

    public required string Number { get; init; }

    public required string PickupNumber { get; init; }

    public required string Reference { get; init; }

    public required Guid ShipperId { get; init; }

    public required Guid SiteId { get; init; }

    public required Guid CarrierId { get; init; }

    public required Guid TerminalId { get; init; }

    public required int Quantity { get; init; }

    public required double GrossPounds { get; init; }

    public required UnitSystem Units { get; init; }

    /// <summary>Codes of what stops it now.</summary>
    public required IReadOnlyList<string> Stops { get; init; }

    /// <summary>The same in order, as one word: what is alike may be decided together.</summary>
    public required string StopSet { get; init; }

    public required bool Fragile { get; init; }

    /// <summary>Floor that it stands on, units times footprint, in square feet.</summary>
    public required double FloorSquareFeet { get; init; }

    public required DateTimeOffset HeldSince { get; init; }

    public required DateTimeOffset WindowFrom { get; init; }

    public required DateTimeOffset WindowTo { get; init; }

    public required string TimeZone { get; init; }

    public required HoldHours Hours { get; init; }

    public required DateTimeOffset DecideBy { get; init; }

    public HoldTurn? Turn { get; init; }

    public HoldDecision? Decision { get; init; }

    /// <summary>Nothing is decided.</summary>
    public bool IsOpen { get; init; } = true;

    /// <summary>Somebody still has to act: nothing is decided, or it is to be rebuilt here.</summary>
    public bool Waits { get; init; } = true;

    public HoldSide? WaitsFor { get; init; }

    /// <summary>When the time of whoever must act ends; <see cref="Never"/> when nobody must.</summary>
    public DateTimeOffset DueBy { get; init; } = Never;

    /// <summary>From here on a reminder or an escalation is due that has not gone out; <see cref="Never"/> when none is.</summary>
    public DateTimeOffset WatchFrom { get; init; } = Never;

    public static HeldUnit? After(HeldUnit? state, HoldEvent happened)
    {
        var next = happened switch
        {
            HoldPlaced placed => Of(placed),
            HoldDeclarationCorrected corrected => state! with
            {
                Stops = StopsOf(corrected.Findings),
                StopSet = string.Join(' ', StopsOf(corrected.Findings)),
                GrossPounds = corrected.HandlingUnit.GrossWeight.Pounds,
                Fragile = corrected.HandlingUnit.Fragile != Fragility.None,
                FloorSquareFeet = Floor(corrected.HandlingUnit),
            },
            HoldDecided decided => state! with { Decision = decided.Decision, IsOpen = false },
            _ => state!,
        };
        var turn = HoldTurn.After(state?.Turn, happened, next.Hours, next.DecideBy);
        return next with
        {
            Turn = turn,
            Waits = turn is not null,
            WaitsFor = turn?.Side,
            DueBy = turn?.By ?? Never,
            WatchFrom = turn switch
            {
                null or { EscalatedAt: not null } => Never,
                { RemindedAt: not null } => turn.By,
                _ => turn.RemindFrom(next.Hours),
            },
        };
    }

    private static HeldUnit Of(HoldPlaced placed) => new()
    {
        Id = placed.HoldId,
        PickupId = placed.PickupId,
        Number = placed.Number,
        PickupNumber = placed.Pickup.Number,
        Reference = placed.HandlingUnit.Reference,
        ShipperId = placed.Pickup.ShipperId,
        SiteId = placed.Pickup.SiteId,
        CarrierId = placed.Pickup.CarrierId,
        TerminalId = placed.Pickup.TerminalId,
        Quantity = placed.HandlingUnit.Quantity,
        GrossPounds = placed.HandlingUnit.GrossWeight.Pounds,
        Units = placed.Units,
        Stops = StopsOf(placed.Findings),
        StopSet = string.Join(' ', StopsOf(placed.Findings)),
        Fragile = placed.HandlingUnit.Fragile != Fragility.None,
        FloorSquareFeet = Floor(placed.HandlingUnit),
        HeldSince = placed.At.ToUniversalTime(),
        WindowFrom = placed.Pickup.Window.From.ToUniversalTime(),
        WindowTo = placed.Pickup.Window.To.ToUniversalTime(),
        TimeZone = placed.Pickup.Window.TimeZone,
        Hours = placed.Hours ?? HoldHours.Usual,
        DecideBy = placed.DecideBy.ToUniversalTime(),
    };

    private static string[] StopsOf(IReadOnlyList<Finding> findings) =>
        [.. findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Code).Distinct().Order(StringComparer.Ordinal)];

    internal static double Floor(HandlingUnit unit) => unit.Quantity * unit.Outer.Length.Inches * unit.Outer.Width.Inches / 144;

    public static void Configure(StoreOptions marten) => marten.Schema.For<HeldUnit>()
        .Duplicate(unit => unit.PickupId)
        .Duplicate(unit => unit.ShipperId)
        .Duplicate(unit => unit.Waits)
        .Duplicate(unit => unit.HeldSince)
        .Duplicate(unit => unit.WindowFrom)
        .Duplicate(unit => unit.WatchFrom)
        .Duplicate(unit => unit.Fragile)
        .Duplicate(unit => unit.FloorSquareFeet)
        .Duplicate(unit => unit.DueBy)
        .Duplicate(unit => unit.TerminalId)
        .GinIndexJsonData();
}

public sealed partial class HeldUnitProjection : SingleStreamProjection<HeldUnit, Guid>
{
    public override HeldUnit? Evolve(HeldUnit? snapshot, Guid id, IEvent e) =>
        e.Data is HoldEvent happened ? HeldUnit.After(snapshot, happened) : snapshot;
}
