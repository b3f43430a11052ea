using System.Collections.Concurrent;
using Fettle.Engineering.Statistics;

namespace Fettle.Readiness.Scorecards;

/// <summary>
/// What is usual among the accounts that somebody looks after: what is believed of an account before its own freight is
/// looked at, so that three lucky lines do not lead the list.
/// </summary>
public sealed record AccountBook(
    int Accounts,
    BetaRate Ready,
    BetaRate Stackable,
    BetaRate Carries,
    BetaRate StackHeld,
    BetaRate CarriedClean,
    BetaRate Clean,
    BetaRate Damaged)
{
    /// <summary>
    /// The usual rate counts for at most this many lines, however alike the accounts are: with so many lines of its own an
    /// account always says at least as much itself. Our choice.
    /// </summary>
    public const double MostLines = 100;

    // Some hundredths of a per cent of the usual rate, at a quarter of the time: nobody reads more of it.
    private const double Within = 1e-3;

    /// <summary>When nothing is known of others: Jeffreys' prior.</summary>
    public static readonly AccountBook None = new(0, BetaRate.Jeffreys, BetaRate.Jeffreys, BetaRate.Jeffreys, BetaRate.Jeffreys, BetaRate.Jeffreys, BetaRate.Jeffreys, BetaRate.Jeffreys);

    // Accounts are looked at oftener than they change: what was fitted to the same counts is given again.
    private static readonly ConcurrentDictionary<int, (Tally[] Accounts, AccountBook Book)> Fitted = new();

    private const int MostFitted = 64;

    /// <summary>Estimated from what each account did.</summary>
    public static AccountBook Of(IEnumerable<Tally> accounts)
    {
        Tally[] own = [.. accounts];
        var key = own.Aggregate(0, HashCode.Combine);
        if (Fitted.TryGetValue(key, out var known) && known.Accounts.AsSpan().SequenceEqual(own))
            return known.Book;
        var book = Fit(own);
        if (Fitted.Count >= MostFitted)
            Fitted.Clear();
        Fitted[key] = (own, book);
        return book;
    }

    private static AccountBook Fit(IReadOnlyCollection<Tally> accounts) => new(
        accounts.Count(account => account[Tallied.Lines] > 0),
        Usual(accounts, Tallied.Ready, Tallied.Lines),
        Usual(accounts, Tallied.Stackable, Tallied.Lines),
        Usual(accounts, Tallied.Carries, Tallied.Stackable),
        Usual(accounts, Tallied.StackHeld, Tallied.StackTested),
        Usual(accounts, Tallied.CarriedClean, Tallied.CarriedFreight),
        Usual(accounts, Tallied.Clean, Tallied.Delivered),
        Usual(accounts, Tallied.TravelledDamaged, Tallied.Travelled));

    private static BetaRate Usual(IReadOnlyCollection<Tally> accounts, Tallied part, Tallied whole)
    {
        var fitted = BetaRate.MostLikely(accounts.Select(account => (checked((int)account[part]), checked((int)account[whole]))), Within);
        if (fitted is not { } prior)
            return BetaRate.Jeffreys;
        var lines = prior.Alpha + prior.Beta;
        return lines <= MostLines ? prior : new(prior.Alpha * MostLines / lines, prior.Beta * MostLines / lines);
    }
}
