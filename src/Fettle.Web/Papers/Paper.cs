using Fettle.Engineering.Units;

namespace Fettle.Web.Papers;

/// <summary>What is in the printer.</summary>
public enum Paper
{
    Letter,
    A4,
}

public static class PaperSizes
{
    /// <summary>Letter for those who measure in inches, else A4 (ISO 216).</summary>
    public static Paper For(UnitSystem units) => units == UnitSystem.Imperial ? Paper.Letter : Paper.A4;

    /// <summary>Width and height in points of 1/72 in.</summary>
    public static (double Width, double Height) Size(this Paper paper) => paper switch
    {
        Paper.Letter => (612, 792),
        Paper.A4 => (595.28, 841.89),
    };
}
