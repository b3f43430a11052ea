using System.Globalization;
using Fettle.Readiness.Scorecards;

namespace Fettle.Web.FloorUse;

/// <summary>What stacking is worth, in words: no figure without what it takes for granted.</summary>
public static class WorthWords
{
    public static string Feet(double feet) => T("{0:#,0.0} ft", feet);

    /// <summary>Three figures: what it rests on bears no more.</summary>
    public static string Dollars(double money)
    {
        var step = money < 1000 ? 1 : Math.Pow(10, Math.Floor(Math.Log10(money)) - 2);
        return T("${0:#,0}", Math.Round(money / step) * step);
    }

    public static string Dollars(decimal money) => Dollars((double)money);

    public static string Trailers(double trailers) => trailers.ToString("#,0.0", CultureInfo.InvariantCulture);

    /// <summary>"At $2.50 a trailer-mile (a round figure, no source) and 30 % offered back."</summary>
    public static string Assumed(WorthTerms terms) => terms.CostPerTrailerMile == new WorthSettings().CostPerTrailerMile
        ? T("Taken for granted: ${0:0.00} for a mile of a whole trailer (a round figure of ours, no source: set your own) and {1:0 %} of what is saved offered back.", terms.CostPerTrailerMile, terms.ShareOffered)
        : T("Taken for granted: ${0:0.00} for a mile of a whole trailer, as set for this portal, and {1:0 %} of what is saved offered back.", terms.CostPerTrailerMile, terms.ShareOffered);

    /// <summary>How the figures come about.</summary>
    public static string Method => T("Each pickup was planned three times as it was declared: nothing stacked, two high where declared stackable, with nothing against it, and strong enough by calculation, and with decking beams besides. Feet saved are linear feet of trailer; 53 of them are a trailer. Money is the part of a trailer saved, times the lane's miles, times the cost of a trailer-mile. Weeks are whole, Monday to Sunday, from the first with freight on, those without freight too; a year is 52.2 such weeks.");

    public static string Care => T("Computed from declarations, nothing measured: room that is saved is worth money only when other freight fills it, and plans are the shortest found, not always the shortest there are. What is put on top of what is decided at the dock, by the carrier's tariff, the makers' ratings and those who see the freight; nobody stands under freight being set on another.");

    public static string Weeks(Spread spread) => T(spread.Count == 1 ? "{0} whole week" : "{0} whole weeks", spread.Count);

    /// <summary>What is missing; null when nothing is.</summary>
    public static string? Missing(AccountFloor floor)
    {
        var parts = new List<string>();
        if (floor.Waiting > 0)
            parts.Add(T("{0} pickups are still being worked out and are in no figure.", floor.Waiting));
        if (floor.Worth.NotPlanned > 0)
            parts.Add(T("{0} pickups cannot be planned (too many units at once, or one that passes no door) and are in no figure.", floor.Worth.NotPlanned));
        if (floor.Worth.SavedAWeek is { IsEnough: false } few)
            parts.Add(T("Only {0}: too few to say how it usually is.", Weeks(few)));
        return parts.Count == 0 ? null : string.Join(' ', parts);
    }

    /// <summary>Names and figures of a spread over weeks, from the worst to the best.</summary>
    public static IReadOnlyList<(string Name, double Value)> Rows(Spread spread) =>
    [
        (T("Worst week"), spread.Least),
        (T("A quarter of the weeks are below"), spread.LowerQuartile),
        (T("Middle week (median)"), spread.Median),
        (T("A quarter of the weeks are above"), spread.UpperQuartile),
        (T("Best week"), spread.Most),
    ];
}
