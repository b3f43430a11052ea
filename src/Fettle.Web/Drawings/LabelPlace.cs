using Fettle.Engineering.Units;

namespace Fettle.Web.Drawings;

/// <summary>
/// Where logistic labels go on a loaded pallet, after the GS1 General Specifications: the same label on two sides that
/// meet, the bars between 400 and 800 mm above the floor and no nearer than 50 mm to an upright edge.
/// </summary>
internal static class LabelPlace
{
    public static readonly Length Lowest = Length.FromMillimetres(400);
    public static readonly Length Highest = Length.FromMillimetres(800);
    public static readonly Length FromEdge = Length.FromMillimetres(50);

    // A6, the smallest size that is recommended.
    public static readonly Length Width = Length.FromMillimetres(105);
    public static readonly Length Height = Length.FromMillimetres(148);
}
