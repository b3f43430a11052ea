using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// Cartons that show a face on the outside of a layer, where a label can be read and where film, boards, forks and walls
/// touch. A carton counts on a side when its face is the outermost there.
/// </summary>
/// <param name="NearEnd">Faces on the side at the least X (across the deck's width).</param>
/// <param name="FarEnd">Faces on the side at the greatest X.</param>
/// <param name="NearSide">Faces on the side at the least Y (along the deck's length).</param>
/// <param name="FarSide">Faces on the side at the greatest Y.</param>
/// <param name="Cartons">Cartons that show at least one face; corner cartons show two.</param>
/// <param name="Hidden">Cartons that show none.</param>
/// <param name="Closed">Share of the footprint's outline that is carton face rather than gap, 0 to 1.</param>
public sealed record LayerFacings(int NearEnd, int FarEnd, int NearSide, int FarSide, int Cartons, int Hidden, double Closed)
{
    /// <summary>The facings of a layer; all zero for an empty one.</summary>
    public static LayerFacings Of(LayerPattern layer)
    {
        if (layer.Count == 0)
            return new LayerFacings(0, 0, 0, 0, 0, 0, 0);
        var (nearX, nearY) = (layer.Placements.Min(p => p.X), layer.Placements.Min(p => p.Y));
        var (farX, farY) = (nearX + layer.FootprintLength, nearY + layer.FootprintWidth);
        int nearEnd = 0, farEnd = 0, nearSide = 0, farSide = 0, cartons = 0;
        var faces = Length.Zero;
        foreach (var p in layer.Placements)
        {
            var (atNearX, atFarX, atNearY, atFarY) = (p.X == nearX, p.Right == farX, p.Y == nearY, p.Top == farY);
            nearEnd += atNearX ? 1 : 0;
            farEnd += atFarX ? 1 : 0;
            nearSide += atNearY ? 1 : 0;
            farSide += atFarY ? 1 : 0;
            cartons += atNearX || atFarX || atNearY || atFarY ? 1 : 0;
            faces += p.Width * ((atNearX ? 1 : 0) + (atFarX ? 1 : 0)) + p.Length * ((atNearY ? 1 : 0) + (atFarY ? 1 : 0));
        }

        return new LayerFacings(nearEnd, farEnd, nearSide, farSide, cartons, layer.Count - cartons, faces / (2 * (layer.FootprintLength + layer.FootprintWidth)));
    }
}
