using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using static Fettle.Web.Tests.Drawings.Freight;

namespace Fettle.Web.Tests.BuildSheets;

/// <summary>A handling unit of each kind of contents.</summary>
internal static class Kinds
{
    /// <summary>Cartons of 16 × 12 that lie both ways, so that a turned layer looks different: five a layer on 44 × 28 of deck.</summary>
    public static readonly HandlingUnit Interlocked = Pallet("A1", (16, 12, 10), perLayer: 5, layers: 4, StackKind.Interlocked) with { Stackable = true, Quantity = 4 };

    public static readonly IReadOnlyList<HandlingUnit> All =
    [
        Interlocked,
        Pallet("A2", (15.5, 12, 10), perLayer: 8, layers: 4, top: 3) with { Protection = new(3, true, CornerBoards.ToPlatform, true, true, 2, true), Fragile = Fragility.Glass, Partitions = true },
        Loose,
        OnPallet("MX", new MixedCartonContents([new(new(In(16), In(12), In(10), Lb(22), null), 20), new(new(In(20), In(16), In(12), Lb(61), null), 8)])),
        Crate with { Contents = new CrateContents("Glass panes", true) },
        OnPallet("DR", new DrumContents(In(23), In(35), Lb(420), 4, 1, DrumMaterial.Steel)),
        OnPallet("BG", new BagContents(Lb(50), 5, 8, StackKind.Interlocked)),
        OnPallet("RL", new RollContents(In(20), In(40), Lb(300), 4, RollStanding.OnSide)),
        OnPallet("FU", new FurnitureContents("Sideboard", false)) with { Requests = new(NoTopLoad: true, Strap: true) },
        OnPallet("MA", new MachineryContents("Lathe", true, In(30))),
        Crate with { Reference = "PC", Kind = HandlingUnitKind.Piece, Hazardous = true, ConfirmedBy = "Dana Dock" },
    ];

    private static HandlingUnit OnPallet(string reference, Contents contents) => Tidy with { Reference = reference, Contents = contents };
}
