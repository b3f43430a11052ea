using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stacking;

/// <summary>
/// What columns lose when each carton stands a little beside the one below: 2.5 % for every 1 % of offset in any direction
/// (Park, thesis, Michigan State University, 2010). A refinement of the "misaligned" row of <see cref="Derating"/> for when
/// the offset is known; never use both.
/// </summary>
public static class Offset
{
    private const double LossPerOffset = 2.5;

    /// <summary>The share of strength left; at 40 % offset nothing. The two directions are taken one after the other (our choice).</summary>
    /// <param name="lengthways">Offset along the carton's length; its sign does not matter.</param>
    /// <param name="crossways">Offset along its width.</param>
    /// <param name="cartonLength">Length of the carton, above zero.</param>
    /// <param name="cartonWidth">Width of the carton, above zero.</param>
    public static double StrengthLeft(Length lengthways, Length crossways, Length cartonLength, Length cartonWidth)
    {
        Require.Positive(cartonLength.Metres, nameof(cartonLength));
        Require.Positive(cartonWidth.Metres, nameof(cartonWidth));
        return Left(lengthways.Abs() / cartonLength) * Left(crossways.Abs() / cartonWidth);
    }

    private static double Left(double offset) => Math.Max(0, 1 - (LossPerOffset * offset));
}
