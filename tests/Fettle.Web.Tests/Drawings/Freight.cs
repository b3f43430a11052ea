using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Web.Tests.Drawings;

/// <summary>Handling units to be drawn and written about, named after what is special about them.</summary>
internal static class Freight
{
    public static Length In(double inches) => Length.FromInches(inches);

    public static Mass Lb(double pounds) => Mass.FromPounds(pounds);

    public static Platform Deck(double length = 48, double width = 40, double height = 5.5) =>
        new(In(length), In(width), In(height), Lb(45), PlatformMaterial.Wood, Lb(2500));

    public static readonly Protection Wrapped = new(3, true, CornerBoards.ToPlatform, false, false, 0, false);

    /// <summary>Eight cartons a layer in two rows of four turned ones: 48 × 31 on a deck of 48 × 40, four layers.</summary>
    public static readonly HandlingUnit Tidy = Pallet("A1", (15.5, 12, 10), perLayer: 8, layers: 4);

    /// <summary>Declared 50 × 44 on a deck of 48 × 40: 1 in past each end, 2 in past each side; film stops above the pallet.</summary>
    public static readonly HandlingUnit Overhanging = Pallet("B2", (16, 12, 9), perLayer: 10, layers: 4) with
    {
        Outer = new(In(50), In(44), In(41.5)),
        Protection = new(1, false, CornerBoards.None, false, false, 0, false),
    };

    public static readonly HandlingUnit UnfinishedTop = Pallet("C3", (12, 10, 10), perLayer: 16, layers: 3, top: 5);

    public static readonly HandlingUnit Crate = new()
    {
        Reference = "D4",
        Quantity = 1,
        Kind = HandlingUnitKind.Crate,
        Outer = new(In(80), In(36), In(52)),
        GrossWeight = Lb(1250),
        Contents = new PieceContents("Lathe"),
    };

    public static readonly HandlingUnit Loose = new()
    {
        Reference = "E5",
        Quantity = 12,
        Kind = HandlingUnitKind.LooseCarton,
        Outer = new(In(18), In(12), In(10)),
        GrossWeight = Lb(22),
        Contents = new CartonContents(new Carton(In(18), In(12), In(10), Lb(22), null), 1, 1, StackKind.Column),
    };

    public static HandlingUnit Pallet(
        string reference, (double Length, double Width, double Height) carton, int perLayer, int layers, StackKind stack = StackKind.Column, int top = 0) => new()
        {
            Reference = reference,
            Quantity = 1,
            Kind = HandlingUnitKind.Pallet,
            Platform = Deck(),
            Outer = new(In(48), In(40), In(5.5 + (carton.Height * (layers + (top > 0 ? 1 : 0))))),
            GrossWeight = Lb(45) + (Lb(22.5) * ((perLayer * layers) + top)),
            Contents = new CartonContents(new Carton(In(carton.Length), In(carton.Width), In(carton.Height), Lb(22.5), null), perLayer, layers, stack, top),
            Protection = Wrapped,
        };
}
