using Fettle.Engineering.Units;

namespace Fettle.Readiness.Scorecards;

/// <summary>What is taken for granted when feet become money; printed beside every such figure.</summary>
/// <param name="CostPerTrailerMile">What a mile of a whole trailer costs the carrier, in US dollars; 0 or more.</param>
/// <param name="ShareOffered">The share of what is saved that is offered back to the shipper, 0 to 1.</param>
public sealed record WorthTerms(decimal CostPerTrailerMile, double ShareOffered);

/// <summary>One pickup with what it takes of a trailer.</summary>
/// <param name="On">Day on which it was handed in, UTC.</param>
/// <param name="Miles">Of its lane, as declared.</param>
/// <param name="Taken">Null when it could not be planned.</param>
public sealed record PickupFloor(Guid PickupId, DateOnly On, Lane Lane, double Miles, int Units, FloorTaken? Taken);

/// <summary>One week's pickups together.</summary>
/// <param name="Monday">On which the week begins (ISO 8601).</param>
/// <param name="Flat">Feet of trailer with nothing stacked.</param>
/// <param name="Stacked">Feet two high where allowed.</param>
/// <param name="Decked">Feet with decking beams besides.</param>
/// <param name="Money">What stacking saves the carrier in US dollars.</param>
/// <param name="DeckMoney">What decking beams save besides.</param>
public sealed record WeekWorth(DateOnly Monday, int Pickups, double Flat, double Stacked, double Decked, decimal Money, decimal DeckMoney)
{
    public double Saved => Flat - Stacked;

    public double SavedByDecking => Stacked - Decked;
}

/// <summary>
/// What double-stacking of one account's freight is worth, from the floor plans of its real pickups: whole weeks, each
/// counted, those without freight too.
/// </summary>
/// <param name="Weeks">From the first with freight to the last that is over, in order.</param>
/// <param name="NotPlanned">Pickups in these weeks that could not be planned and count nowhere.</param>
/// <param name="Filled">Share of the trailer's room up to the last unit's end: flat, stacked, decked.</param>
public sealed record Worth(WorthTerms Terms, IReadOnlyList<WeekWorth> Weeks, int NotPlanned, (double Flat, double Stacked, double Decked) Filled)
{
    /// <summary>What a trailer is called after: feet saved become trailers by it. Inside it is half a foot shorter.</summary>
    public const double TrailerFeet = 53;

    /// <summary>Weeks in a mean Gregorian year of 365.2425 days.</summary>
    public const double WeeksAYear = 365.2425 / 7;

    public int Pickups => Weeks.Sum(week => week.Pickups);

    public double Flat => Weeks.Sum(week => week.Flat);

    public double Stacked => Weeks.Sum(week => week.Stacked);

    public double Decked => Weeks.Sum(week => week.Decked);

    public double Saved => Flat - Stacked;

    /// <summary>By decking beams, beyond stacking.</summary>
    public double SavedByDecking => Stacked - Decked;

    /// <summary>Feet saved a week by stacking; null without a whole week.</summary>
    public Spread? SavedAWeek => Spread.Of(Weeks.Select(week => week.Saved));

    /// <summary>US dollars saved a week by stacking; null without a whole week.</summary>
    public Spread? MoneyAWeek => Spread.Of(Weeks.Select(week => (double)week.Money));

    /// <summary>53-ft trailers a year that stacking leaves free, at the pace of these weeks.</summary>
    public double TrailersAYear => AYear(Saved) / TrailerFeet;

    public double DeckTrailersAYear => AYear(SavedByDecking) / TrailerFeet;

    /// <summary>US dollars a year that stacking saves the carrier, at the pace of these weeks.</summary>
    public decimal MoneyAYear => (decimal)AYear((double)Weeks.Sum(week => week.Money));

    public decimal DeckMoneyAYear => (decimal)AYear((double)Weeks.Sum(week => week.DeckMoney));

    /// <summary>The part of <see cref="MoneyAYear"/> that is offered back.</summary>
    public decimal OfferedAYear => MoneyAYear * (decimal)Terms.ShareOffered;

    /// <summary>Whole weeks of the period, as far as they are over.</summary>
    /// <param name="pickups">Of one account, or of one lane of it; each once.</param>
    /// <param name="today">A week counts when its Sunday is before this day.</param>
    public static Worth Of(IReadOnlyCollection<PickupFloor> pickups, Period period, DateOnly today, WorthTerms terms)
    {
        var whole = period.WeeksWithin().Where(week => week.AddDays(7) <= today).ToArray();
        var byWeek = pickups.ToLookup(pickup => Scorecards.Weeks.Of(pickup.On));
        var weeks = whole.SkipWhile(week => !byWeek[week].Any()).Select(week => WeekOf(week, [.. byWeek[week]], terms)).ToArray();
        FloorTaken[] taken = [.. weeks.SelectMany(week => byWeek[week.Monday]).Select(pickup => pickup.Taken).OfType<FloorTaken>()];
        return new(
            terms,
            weeks,
            weeks.Sum(week => byWeek[week.Monday].Count(pickup => pickup.Taken is null)),
            (FilledBy(taken, t => t.Flat), FilledBy(taken, t => t.Stacked), FilledBy(taken, t => t.Decked)));
    }

    private static WeekWorth WeekOf(DateOnly monday, IReadOnlyList<PickupFloor> pickups, WorthTerms terms)
    {
        var planned = pickups.Where(pickup => pickup.Taken is not null).ToArray();
        return new(
            monday,
            planned.Length,
            planned.Sum(pickup => pickup.Taken!.Flat.Feet),
            planned.Sum(pickup => pickup.Taken!.Stacked.Feet),
            planned.Sum(pickup => pickup.Taken!.Decked.Feet),
            planned.Sum(pickup => MoneyOf(pickup.Taken!.SavedByStacking, pickup.Miles, terms)),
            planned.Sum(pickup => MoneyOf(pickup.Taken!.SavedByDecking, pickup.Miles, terms)));
    }

    /// <summary>The part of a trailer that is left free, times the miles, times what a mile of a trailer costs.</summary>
    private static decimal MoneyOf(Length saved, double miles, WorthTerms terms) => (decimal)(saved.Feet / TrailerFeet * miles) * terms.CostPerTrailerMile;

    private static double FilledBy(IReadOnlyCollection<FloorTaken> taken, Func<FloorTaken, Length> way)
    {
        var room = taken.Sum(one => way(one).Feet * one.SectionSquareFeet);
        return room == 0 ? 0 : taken.Sum(one => one.CubicFeet) / room;
    }

    private double AYear(double sum) => Weeks.Count == 0 ? 0 : sum / Weeks.Count * WeeksAYear;
}
