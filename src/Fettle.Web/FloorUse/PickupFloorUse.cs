using Fettle.Readiness.Pickups;
using Fettle.Readiness.Scorecards;
using Fettle.Web.FloorPlans;
using Fettle.Engineering.TrailerFloor;
using Marten;
using Lane = Fettle.Readiness.Scorecards.Lane;

namespace Fettle.Web.FloorUse;

/// <summary>
/// What one submitted pickup takes of a trailer. Planning takes up to a second, so that it is done once, in the background,
/// and pages only add up. Can be computed again from the pickup at any time, with the same result.
/// </summary>
public sealed record PickupFloorUse
{
    /// <summary>Counts up when planning changes: what an earlier way computed is computed again.</summary>
    // 2: nothing stands on freight that is fragile or whose shipper asks for no top load or for decking.
    public const int CurrentMethod = 2;

    /// <summary>The pickup's.</summary>
    public Guid Id { get; init; }

    public required Guid CarrierId { get; init; }

    public required Guid ShipperId { get; init; }

    public required Guid SiteId { get; init; }

    /// <summary>When it was handed in, UTC.</summary>
    public required DateTimeOffset At { get; init; }

    public required Lane Lane { get; init; }

    public required double Miles { get; init; }

    public required int Units { get; init; }

    /// <summary>Null when it has more units than are planned at once, or one that passes no door.</summary>
    public required FloorTaken? Taken { get; init; }

    public required int Method { get; init; }

    public PickupFloor Floor => new(Id, DateOnly.FromDateTime(At.UtcDateTime), Lane, Miles, Units, Taken);

    /// <summary>Plans the pickup.</summary>
    public static PickupFloorUse Of(Pickup pickup)
    {
        LoadUnits[] units = [.. pickup.Declaration.HandlingUnits.Zip(pickup.Units, DeclaredLoad.Of)];
        var count = units.Sum(unit => unit.Count);
        return new()
        {
            Id = pickup.Id,
            CarrierId = pickup.Header.CarrierId,
            ShipperId = pickup.Header.ShipperId,
            SiteId = pickup.Header.SiteId,
            At = pickup.SubmittedAt.ToUniversalTime(),
            Lane = Lane.Of(pickup.Header.TerminalId, pickup.Header.Destination, pickup.Declaration.Lane.Miles),
            Miles = pickup.Declaration.Lane.Miles,
            Units = count,
            Taken = count > LoadPlanner.MostUnits ? null : FloorTaken.Of(units, DeclaredLoad.TrailerOf(pickup.Header.Equipment)),
            Method = CurrentMethod,
        };
    }

    public static void Configure(StoreOptions marten) => marten.Schema.For<PickupFloorUse>()
        .Duplicate(use => use.ShipperId)
        .Duplicate(use => use.At)
        .Duplicate(use => use.Method);
}
