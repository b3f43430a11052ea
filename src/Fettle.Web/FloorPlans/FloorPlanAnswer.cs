using Fettle.Engineering.Axles;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Fettle.Web.Declarations;

namespace Fettle.Web.FloorPlans;

/// <summary>A trailer's plan. Lengths and weights are in the units that were asked in.</summary>
/// <param name="UsedLength">From the nose to the last unit's end.</param>
/// <param name="LinearFeet">The same in feet, whatever the units; not rounded.</param>
/// <param name="LowerBound">No way to stack and set these units takes less.</param>
/// <param name="Proved">Everything is in, and nothing shorter is possible.</param>
/// <param name="FloorUse">Share of the floor covered, up to the last unit's end, 0 to 1.</param>
/// <param name="CubeUse">Share of the whole trailer's room filled, 0 to 1.</param>
/// <param name="DeckHeight">Of the second floor above the first; null when there is none.</param>
/// <param name="Balance">Null when nothing is in the trailer.</param>
/// <param name="Unplaced">What does not go in, and why.</param>
public sealed record FloorPlanAnswer(
    double UsedLength,
    double LinearFeet,
    double LowerBound,
    bool Proved,
    double FloorUse,
    double CubeUse,
    double? DeckHeight,
    BalanceAnswer? Balance,
    IReadOnlyList<PositionAnswer> Positions,
    IReadOnlyList<UnplacedAnswer> Unplaced)
{
    public static FloorPlanAnswer Of(LoadPlan plan, IReadOnlyList<string> references, UnitSystem units)
    {
        return new(
            Long(plan.LengthUsed),
            Math.Round(plan.LinearFeet, 6),
            Long(plan.LowerBound),
            plan.IsOptimal,
            Math.Round(plan.FloorUsed, 6),
            Math.Round(plan.CubeUsed, 6),
            plan.DeckHeight is { } deck ? Long(deck) : null,
            plan.Balance is { } balance ? BalanceOf(balance) : null,
            [.. plan.Positions.Select(p => new PositionAnswer(
                references[p.Kind], Long(p.Place.X), Long(p.Place.Y), Long(p.Bottom), Long(p.Place.Length), Long(p.Place.Width), Long(p.Height), (int)p.Level, p.On))],
            [.. plan.LeftOut.Select(left => new UnplacedAnswer(references[left.Kind], left.Count, left.Reason.Word(), LoadWords.Why(left.Reason)))]);

        double Long(Length length) => Math.Round(length.In(units), 6);
        double Heavy(Mass mass) => Math.Round(mass.In(units), 6);

        BalanceAnswer BalanceOf(LoadBalance balance) => new(
            Heavy(balance.Weight),
            Long(balance.Centre),
            Math.Round(balance.LeftShare, 6),
            LoadWords.VehicleOf(plan.Trailer) is { } vehicle && balance.On(vehicle) is var axles
                ? new(Heavy(axles.Steer), Heavy(axles.Drive), Heavy(axles.Trailer), Heavy(axles.Gross), AxleLimits.Interstate.Allow(axles))
                : null);
    }
}

/// <summary>How the declared weight lies. The driver and the carrier weigh and decide.</summary>
/// <param name="Weight">Of all units in the trailer.</param>
/// <param name="Centre">Of the weight, behind the nose.</param>
/// <param name="LeftShare">Share of the weight left of the middle, 0 to 1.</param>
/// <param name="Axles">For a 53-foot trailer (600 to 640 in inside): on an illustrative tractor and trailer; null for others.</param>
public sealed record BalanceAnswer(double Weight, double Centre, double LeftShare, AxlesAnswer? Axles);

/// <summary>What each group of axles would carry on a vehicle taken as an illustration; its empty weights are not those of yours.</summary>
/// <param name="WithinInterstateLimits">12,000 lb steering, 34,000 lb a tandem, 80,000 lb in all.</param>
public sealed record AxlesAnswer(double Steer, double Drive, double Trailer, double Gross, bool WithinInterstateLimits);

/// <summary>Where one unit stands: x from the nose, y from the left wall, z from the floor, to its nearest corner.</summary>
/// <param name="Length">Its side along the trailer.</param>
/// <param name="Width">Its side across the trailer.</param>
/// <param name="Level">0 on the floor, 1 on another unit or on the deck, 2 on a unit of level 1.</param>
/// <param name="On">Which of the positions it stands on, counted from 0; null on the floor and on the deck.</param>
public sealed record PositionAnswer(string Reference, double X, double Y, double Z, double Length, double Width, double Height, int Level, int? On);

/// <param name="Reason">"too-tall", "too-wide", "too-long" or "no-room-left".</param>
/// <param name="Message">The same as a sentence.</param>
public sealed record UnplacedAnswer(string Reference, int Quantity, string Reason, string Message);
