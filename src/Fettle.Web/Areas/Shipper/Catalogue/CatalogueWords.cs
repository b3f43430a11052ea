using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Web.Catalogue;
using Fettle.Web.Drawings;

namespace Fettle.Web.Areas.Shipper.Catalogue;

/// <summary>Entries of the catalogue in few words, in inches and pounds.</summary>
public static class CatalogueWords
{
    private const UnitSystem Units = UnitSystem.Imperial;

    public static string Build(HandlingUnit unit) =>
        $"{Words.Layers(unit) ?? Words.Kind(unit)}; {Words.Size(Units, unit.Outer.Length, unit.Outer.Width, unit.Outer.Height)}, {Words.Show(unit.GrossWeight, Units)}";

    public static string Size(Carton carton) => Words.Size(Units, carton.Length, carton.Width, carton.Height);

    public static string Weight(Mass mass) => Words.Show(mass, Units);

    public static string Board(Carton carton) => carton.Board is { } board ? T("{0}, ECT {1}", board.Flute, Declarations.Writing.Text(board.EdgeCrush)) : T("not known");

    public static string Deck(Platform platform) => $"{Words.Size(Units, platform.Length, platform.Width, platform.Height)}, {T(platform.Material.ToString()).ToLowerInvariant()}";

    public static string Kind(CatalogueKind kind) => kind switch
    {
        CatalogueKind.Carton => T("Carton"),
        CatalogueKind.Platform => T("Pallet"),
        CatalogueKind.Build => T("Standard build"),
    };
}
