using Fettle.Readiness.Findings;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Scorecards;

[Route("api/v1")]
[Authorize(Policies.AccountManager)]
public sealed class AccountsController(IDocumentStore store, AccountDesk desk, TimeProvider clock) : ApiController
{
    private DateOnly Today => DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);

    /// <summary>
    /// The shippers that the caller looks after, with how their freight did at the caller's carrier. Every share has its
    /// count and where it plausibly lies; those of few lines are moved towards what is usual among the accounts.
    /// </summary>
    /// <param name="name">Part of a name.</param>
    /// <param name="lane">Part of a terminal's name or a destination: only freight on such lanes then counts.</param>
    /// <param name="least">At least so many lines.</param>
    /// <param name="months">3, 6, 12 (the default) or 24 months up to this one.</param>
    [HttpGet("accounts")]
    [ProducesResponseType<AccountsAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    public async Task<IActionResult> List(CancellationToken cancel, string? name = null, string? lane = null, int? least = null, int? months = null)
    {
        if (Wrong(months) is { } wrong)
            return wrong;
        var list = await AccountList.OfAsync(store, Caller.Rights, AccountFilter.Of(name, lane, least, months, null, up: false), Today, cancel);
        return Ok(new AccountsAnswer(
            PeriodAnswer.Of(list.Period),
            [.. list.Rows.Select(row => new AccountSummary(row.Id, row.Name, CountsOf(row.Tally), ShareAnswer.Of(row.Ready), ShareAnswer.Of(row.Damaged), StackingAnswer.Of(row.Stacking)))]));
    }

    /// <summary>One account: its true trouble, how far it is borne out that its freight carries another unit, the habits that would cure most, weeks, findings, sites, builders.</summary>
    /// <param name="months">3, 6, 12 (the default) or 24 months up to this one.</param>
    [HttpGet("accounts/{id:guid}")]
    [ProducesResponseType<AccountAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Get(Guid id, CancellationToken cancel, int? months = null)
    {
        if (Wrong(months) is { } wrong)
            return wrong;
        return await desk.AccountAsync(Caller.Rights, id, PeriodOf(months), cancel) is { } account ? Ok(AccountAnswer.Of(account)) : Answers.NotFound("account");
    }

    /// <summary>For each finding how often freight arrives damaged with it and without it, the kind of freight and the lane's length held constant.</summary>
    /// <param name="months">3, 6, 12 (the default) or 24 months up to this one.</param>
    [HttpGet("rules/effect")]
    [ProducesResponseType<RuleEffectsAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    public async Task<IActionResult> Rules(CancellationToken cancel, int? months = null)
    {
        if (Wrong(months) is { } wrong)
            return wrong;
        var period = PeriodOf(months);
        return Ok(RuleEffectsAnswer.Of(period, await store.RuleEffectsAsync(new(Caller.Rights.CarrierId, [.. Caller.Rights.AccountShipperIds], null, period), cancel)));
    }

    private static ObjectResult? Wrong(int? months) =>
        months is { } asked && !Period.Choices.Contains(asked) ? Answers.Unreadable([new("months", $"Choose one of: {string.Join(", ", Period.Choices)}.")]) : null;

    private Period PeriodOf(int? months) => Period.Last(AccountFilter.MonthsOf(months), Today);

    internal static IReadOnlyDictionary<string, long> CountsOf(Tally tally) => Tally.All.ToDictionary(LineRecord.NameOf, what => tally[what]);
}

/// <param name="From">First day.</param>
/// <param name="To">Last day; whole months, by the day on which freight was handed in, UTC.</param>
public sealed record PeriodAnswer(DateOnly From, DateOnly To, int Months)
{
    public static PeriodAnswer Of(Period period) => new(period.From, period.Last(), period.Length);
}

/// <param name="Part">Lines, of the whole.</param>
/// <param name="Estimate">0 to 1.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of it.</param>
/// <param name="Enough">False when there are too few lines to say anything by it.</param>
public sealed record ShareAnswer(long Part, long Whole, double Estimate, double Low, double High, bool Enough)
{
    public static ShareAnswer Of(Share share)
    {
        var plausible = share.Interval;
        return new(share.Part, share.Whole, Round(share.Estimate), Round(plausible.Low), Round(plausible.High), share.IsEnough);
    }

    private static double Round(double value) => Math.Round(value, 6);
}

/// <param name="Units">Handling units behind it; the shares are of lines.</param>
/// <param name="Carries">By calculation, of those declared stackable.</param>
/// <param name="Tested">Carried another unit on trial, of those tried.</param>
/// <param name="ArrivedClean">Of those that another unit rode on top of.</param>
public sealed record StackingAnswer(long Units, ShareAnswer Declared, ShareAnswer Carries, ShareAnswer Tested, ShareAnswer ArrivedClean)
{
    public static StackingAnswer Of(StackEvidence evidence) =>
        new(evidence.Units, ShareAnswer.Of(evidence.Declared), ShareAnswer.Of(evidence.Carries), ShareAnswer.Of(evidence.Tested), ShareAnswer.Of(evidence.ArrivedClean));
}

public sealed record AccountsAnswer(PeriodAnswer Period, IReadOnlyList<AccountSummary> Accounts);

/// <param name="Counts">Lines unless the name says otherwise.</param>
/// <param name="Ready">Nothing stopped it.</param>
/// <param name="Damaged">Of the lines that travelled as declared.</param>
public sealed record AccountSummary(Guid Id, string Name, IReadOnlyDictionary<string, long> Counts, ShareAnswer Ready, ShareAnswer Damaged, StackingAnswer Stacking);

public sealed record AccountAnswer(
    Guid Id,
    string Name,
    PeriodAnswer Period,
    TroubleAnswer Trouble,
    IReadOnlyDictionary<string, long> Counts,
    ShareAnswer Ready,
    ShareAnswer Clean,
    ShareAnswer Damaged,
    StackingAnswer Stacking,
    IReadOnlyList<FreightAnswer> Freight,
    IReadOnlyList<HabitAnswer> Habits,
    IReadOnlyList<WeekAnswer> Weeks,
    IReadOnlyList<FindingCountAnswer> Findings,
    IReadOnlyList<GroupAnswer> Sites,
    IReadOnlyList<GroupAnswer> Builders)
{
    public static AccountAnswer Of(Account account)
    {
        var evidence = account.Evidence;
        return new(
            account.Shipper.Id,
            account.Shipper.Name,
            PeriodAnswer.Of(evidence.Period),
            new(evidence.Trouble.Kind.Word(), evidence.Trouble.Code, evidence.Trouble.Lines, evidence.Trouble.Among),
            AccountsController.CountsOf(evidence.Tally),
            ShareAnswer.Of(evidence.Ready),
            ShareAnswer.Of(evidence.Clean),
            ShareAnswer.Of(evidence.Damaged),
            StackingAnswer.Of(evidence.Stacking),
            [.. evidence.Freight.Select(row => new FreightAnswer(row.Product.Key, account.Places[row.Lane.TerminalId], row.Lane.Destination, row.Tally[Tallied.Lines], StackingAnswer.Of(row.Evidence)))],
            Habits(evidence.Habits),
            [.. evidence.Weeks.Select(week => new WeekAnswer(week.Monday, week.Tally[Tallied.Lines], week.Tally[Tallied.Ready], week.Tally[Tallied.Held]))],
            [.. evidence.Findings.Select(finding => new FindingCountAnswer(finding.Code, FindingCodes.Title(finding.Code), finding.Tally[Tallied.Lines], finding.Stopped, finding.Tally[Tallied.Travelled], finding.Tally[Tallied.TravelledDamaged]))],
            [.. evidence.Sites.Select(site => new GroupAnswer(account.Places[site.Group], site.Tally[Tallied.Lines], ShareAnswer.Of(site.Ready), Habits(site.Habits)))],
            [.. evidence.Builders.Select(builder => new GroupAnswer(builder.Group.Length == 0 ? null : builder.Group, builder.Tally[Tallied.Lines], ShareAnswer.Of(builder.Ready), Habits(builder.Habits)))]);

        static HabitAnswer[] Habits(Habits habits) => [.. habits.Best.Select(habit => new HabitAnswer(habit.Code, FindingCodes.Title(habit.Code), habit.Stopped, habit.AloneFrees, habit.TogetherFrees))];
    }
}

/// <param name="Kind">"stopped" (a finding stops more than anything else), "damaged" (more than is usual), "none" or "too-few".</param>
/// <param name="Among">Held lines for a finding, lines that travelled for damage, else all lines.</param>
public sealed record TroubleAnswer(string Kind, string? Code, long Lines, long Among);

/// <param name="Product">Cartons by their sides in tenths of a millimetre, else the kind.</param>
public sealed record FreightAnswer(string Product, string Terminal, string Destination, long Lines, StackingAnswer Stacking);

/// <param name="Stopped">Lines that it stopped, alone or among others.</param>
/// <param name="AloneFrees">Lines that would have passed without it.</param>
/// <param name="TogetherFrees">Lines that would have passed without it and those before it.</param>
public sealed record HabitAnswer(string Code, string Title, long Stopped, long AloneFrees, long TogetherFrees);

/// <param name="Monday">On which the week begins.</param>
public sealed record WeekAnswer(DateOnly Monday, long Lines, long Ready, long Held);

/// <param name="Travelled">Of the lines with it, those that travelled as declared and whose arrival is known.</param>
public sealed record FindingCountAnswer(string Code, string Title, long Lines, long Stopped, long Travelled, long Damaged);

/// <param name="Name">Null for lines of which it was not told who built them.</param>
public sealed record GroupAnswer(string? Name, long Lines, ShareAnswer Ready, IReadOnlyList<HabitAnswer> Habits);

/// <param name="Unforeseen">With nothing found at all, of the damaged lines.</param>
public sealed record RuleEffectsAnswer(PeriodAnswer Period, ShareAnswer Damaged, ShareAnswer Unforeseen, IReadOnlyList<RuleEffectAnswer> Effects)
{
    public static RuleEffectsAnswer Of(Period period, RuleEffects rules) => new(
        PeriodAnswer.Of(period),
        ShareAnswer.Of(rules.Damaged),
        ShareAnswer.Of(rules.Unforeseen),
        [.. rules.Effects.Select(RuleEffectAnswer.Of)]);
}

/// <param name="Effect">"predicts", "predicts-nothing", "reverse" (damaged less often) or "too-few".</param>
/// <param name="Ratio">Risk of damage with it over that without it; null when it cannot be told.</param>
/// <param name="Compared">Lines in strata that have both, with it and without it.</param>
public sealed record RuleEffectAnswer(string Code, string Title, string Effect, ShareAnswer With, ShareAnswer Without, RatioAnswer? Ratio, long Compared)
{
    public static RuleEffectAnswer Of(RuleEffect effect) => new(
        effect.Code,
        FindingCodes.Title(effect.Code),
        effect.Effect.Word(),
        ShareAnswer.Of(effect.With),
        ShareAnswer.Of(effect.Without),
        effect.Ratio is { } ratio ? new(Math.Round(ratio.Value, 6), Math.Round(ratio.Interval().Low, 6), Math.Round(ratio.Interval().High, 6)) : null,
        effect.ComparedWith + effect.ComparedWithout);
}

/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of it.</param>
public sealed record RatioAnswer(double Value, double Low, double High);
