using Fettle.Engineering.Units;

namespace Fettle.Engineering.Axles;

/// <summary>
/// The most that a group of consecutive axles may carry over bridges of the Interstate system: 23 USC 127, 23 CFR 658.17,
/// W = 500 · (L · N / (N − 1) + 12 N + 36) pounds, L in feet between the outer axles.
/// </summary>
public static class BridgeFormula
{
    /// <summary>Two consecutive tandems may carry 34,000 lb each when their outer axles are at least this far apart: 36 ft.</summary>
    public static readonly Length TandemPairExemption = Length.FromFeet(36);

    private const double Step = 500;

    /// <summary>
    /// The allowed mass to the nearest 500 lb; exactly between two steps the lower one (weakly sourced, and the cautious
    /// reading). The cap of 80,000 lb on the whole combination is another rule, see <see cref="AxleLimits"/>.
    /// </summary>
    /// <param name="outerAxles">Distance between the first and the last axle of the group, above zero.</param>
    /// <param name="axles">Axles in the group, two or more.</param>
    public static Mass Allowed(Length outerAxles, int axles)
    {
        Require.Positive(outerAxles.Metres, nameof(outerAxles));
        Require.AtLeast(2, axles);
        var pounds = Step * ((outerAxles.Feet * axles / (axles - 1)) + (12 * axles) + 36);
        return Mass.FromPounds(Math.Ceiling((pounds / Step) - 0.5 - 1e-9) * Step);
    }

    /// <summary>The formula's result with the exemption for two consecutive tandems: 68,000 lb over four axles 36 to 38 ft apart.</summary>
    /// <param name="outerAxles">Distance between the first axle of the first tandem and the last of the second.</param>
    public static Mass AllowedTandemPair(Length outerAxles)
    {
        var formula = Allowed(outerAxles, 4);
        return outerAxles >= TandemPairExemption ? Mass.Max(formula, AxleLimits.Tandem * 2) : formula;
    }
}
