using Fettle.Readiness.Scorecards;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Parties;
using Fettle.Web.Scorecards;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.FloorUse;

[Route("api/v1/accounts/{id:guid}/floor-use")]
public sealed class FloorUseController(IDocumentStore store, FloorUseDesk desk) : ApiController
{
    /// <summary>
    /// What an account's freight takes of trailers with nothing stacked, two high where allowed, and with decking beams, week
    /// by week, and what that is worth by the assumptions in the answer. A shipper sees its own.
    /// </summary>
    /// <param name="months">3, 6, 12 (the default) or 24 months up to this one.</param>
    [HttpGet]
    [ProducesResponseType<FloorUseAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Get(Guid id, CancellationToken cancel, int? months = null)
    {
        if (months is { } asked && !Period.Choices.Contains(asked))
            return Answers.Unreadable([new("months", $"Choose one of: {string.Join(", ", Period.Choices)}.")]);
        await using var session = store.QuerySession();
        if (FloorUseDesk.ScopeOf(Caller.Rights, id, desk.PeriodOf(months)) is not { } scope || await session.LoadAsync<Shipper>(id, cancel) is not { } shipper)
            return Answers.NotFound("account");
        var floor = await desk.OfAsync(scope, cancel);
        var places = await PlaceNames.OfAsync(session, [shipper], cancel);
        return Ok(FloorUseAnswer.Of(floor, floor.Lanes(desk.Today), places));
    }
}

/// <param name="CostPerTrailerMile">Assumption: what a mile of a whole trailer costs the carrier, US dollars.</param>
/// <param name="ShareOffered">Assumption: the share of what is saved that is offered back, 0 to 1.</param>
/// <param name="Waiting">Pickups that have not been planned yet and are in no figure.</param>
/// <param name="Lanes">Each with the id by which a negotiation sheet is asked for; what saves most first.</param>
public sealed record FloorUseAnswer(PeriodAnswer Period, decimal CostPerTrailerMile, double ShareOffered, int Waiting, WorthAnswer Worth, IReadOnlyList<LaneFloorAnswer> Lanes, IReadOnlyList<WeekFloorAnswer> Weeks)
{
    public static FloorUseAnswer Of(AccountFloor floor, IReadOnlyList<LaneFloor> lanes, PlaceNames places) => new(
        PeriodAnswer.Of(floor.Period),
        floor.Worth.Terms.CostPerTrailerMile,
        floor.Worth.Terms.ShareOffered,
        floor.Waiting,
        WorthAnswer.Of(floor.Worth),
        [.. lanes.Select(lane => new LaneFloorAnswer(lane.Id, places[lane.Lane.TerminalId], lane.Lane.Destination, lane.Lane.Miles.Word(), WorthAnswer.Of(lane.Worth)))],
        [.. floor.Worth.Weeks.Select(WeekFloorAnswer.Of)]);
}

/// <param name="Weeks">Whole weeks looked at, those without freight too.</param>
/// <param name="NotPlanned">Pickups that cannot be planned and are in no figure.</param>
/// <param name="SavedAWeek">Feet that stacking saves a week; null without a whole week.</param>
/// <param name="MoneyAWeek">US dollars that stacking saves a week; null without a whole week.</param>
/// <param name="TrailersAYear">53-ft trailers, at the pace of these weeks.</param>
/// <param name="DeckTrailersAYear">What decking beams save beyond that.</param>
public sealed record WorthAnswer(
    int Weeks,
    int Pickups,
    int NotPlanned,
    WaysAnswer LinearFeet,
    WaysAnswer CubeUse,
    SpreadAnswer? SavedAWeek,
    SpreadAnswer? MoneyAWeek,
    double TrailersAYear,
    decimal MoneyAYear,
    decimal OfferedAYear,
    double DeckTrailersAYear,
    decimal DeckMoneyAYear)
{
    public static WorthAnswer Of(Worth worth) => new(
        worth.Weeks.Count,
        worth.Pickups,
        worth.NotPlanned,
        WaysAnswer.Of(worth.Flat, worth.Stacked, worth.Decked),
        WaysAnswer.Of(worth.Filled.Flat, worth.Filled.Stacked, worth.Filled.Decked),
        SpreadAnswer.Of(worth.SavedAWeek),
        SpreadAnswer.Of(worth.MoneyAWeek),
        Math.Round(worth.TrailersAYear, 3),
        Math.Round(worth.MoneyAYear, 2),
        Math.Round(worth.OfferedAYear, 2),
        Math.Round(worth.DeckTrailersAYear, 3),
        Math.Round(worth.DeckMoneyAYear, 2));
}

/// <param name="Flat">Nothing stands on anything.</param>
/// <param name="Stacked">Two high where what was declared and computed allows it.</param>
/// <param name="Decked">With decking beams besides.</param>
public sealed record WaysAnswer(double Flat, double Stacked, double Decked)
{
    public static WaysAnswer Of(double flat, double stacked, double decked) => new(Math.Round(flat, 3), Math.Round(stacked, 3), Math.Round(decked, 3));
}

/// <param name="Count">Weeks.</param>
/// <param name="Enough">False when there are too few weeks to say anything by it.</param>
public sealed record SpreadAnswer(int Count, double Worst, double LowerQuartile, double Median, double UpperQuartile, double Best, bool Enough)
{
    public static SpreadAnswer? Of(Spread? spread) => spread is null
        ? null
        : new(spread.Count, Round(spread.Least), Round(spread.LowerQuartile), Round(spread.Median), Round(spread.UpperQuartile), Round(spread.Most), spread.IsEnough);

    private static double Round(double value) => Math.Round(value, 3);
}

/// <param name="From">The carrier's terminal.</param>
/// <param name="Miles">"short", "medium", "long" or "very-long".</param>
public sealed record LaneFloorAnswer(Guid Id, string From, string Destination, string Miles, WorthAnswer Worth);

/// <param name="Monday">On which the week begins.</param>
/// <param name="MoneySaved">US dollars that stacking saves.</param>
public sealed record WeekFloorAnswer(DateOnly Monday, int Pickups, WaysAnswer LinearFeet, decimal MoneySaved)
{
    public static WeekFloorAnswer Of(WeekWorth week) => new(week.Monday, week.Pickups, WaysAnswer.Of(week.Flat, week.Stacked, week.Decked), Math.Round(week.Money, 2));
}
