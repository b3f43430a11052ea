using Fettle.Readiness.Pickups;
using Fettle.Readiness.Scorecards;
using Fettle.Web.FloorUse;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.Scorecards;
using Fettle.Web.Store;
using Hangfire;
using Marten;

namespace Fettle.Web.Digests;

/// <summary>
/// On Monday morning owes each account manager, and each shipper whose freight was handed in, a mail about the week before.
/// Each mail's id follows from the week and the recipient: run twice, late, or on two nodes it owes one. What a mail tells
/// is kept with it, so that it reads the same whenever it is sent or read.
/// </summary>
public sealed class WeeklyDigestJob(IDocumentStore store, Settings settings, TimeProvider clock, DueWork due)
{
    public const string Id = "weekly-digest";

    /// <summary>Mondays, 06:00, in the time zone of the settings.</summary>
    public const string When = "0 6 * * 1";

    /// <summary>Nothing else would find this work again before the next Monday.</summary>
    [AutomaticRetry(Attempts = 8, OnAttemptsExceeded = AttemptsExceededAction.Delete)]
    public async Task RunAsync(CancellationToken cancel)
    {
        if (!settings.Digest.Weekly)
            return;
        var now = clock.GetUtcNow();
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, TimeZoneInfo.FindSystemTimeZoneById(settings.Digest.TimeZone)).DateTime);
        foreach (var notice in await DoAsync(Weeks.Of(today).AddDays(-7), now, cancel))
            due.Notice(notice);
    }

    /// <summary>Writes what is owed of that week and not written yet, each in a transaction of its own.</summary>
    /// <returns>Ids of the notices written now.</returns>
    public async Task<IReadOnlyList<Guid>> DoAsync(DateOnly monday, DateTimeOffset at, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var written = new List<Guid>();
        var managers = (await session.Query<User>().Where(user => user.Rights.Role == Role.AccountManager && !user.Disabled).ToListAsync(cancel)).OrderBy(user => user.Id);
        foreach (var manager in managers)
        {
            if (manager.Rights.CarrierId is not { } carrier || manager.Rights.AccountShipperIds.Count == 0)
                continue;
            var digest = await DigestAsync(session, monday, carrier, [.. manager.Rights.AccountShipperIds], cancel);
            await WriteAsync(Owed(NoticeKind.DigestForManager, digest, manager.Id, manager.UserName, manager.Name, manager.Language, at) is { } notice
                ? Addressed(notice, carrier, Guid.Empty, manager.Id)
                : null);
        }

        var shippers = await session.Query<Shipper>().ToListAsync(cancel);
        var all = await DigestAsync(session, monday, null, [.. shippers.Select(shipper => shipper.Id)], cancel);
        foreach (var account in all.Accounts)
        {
            var shipper = shippers.Single(shipper => shipper.Id == account.ShipperId);
            await WriteAsync(Owed(NoticeKind.DigestForShipper, new(monday, [account]), shipper.Id, shipper.Email, shipper.Name, await LanguageAsync(session, shipper.Id, cancel), at) is { } notice
                ? Addressed(notice, Guid.Empty, shipper.Id, null)
                : null);
        }

        return written;

        async Task WriteAsync(Notice? notice)
        {
            if (notice is null || await session.Query<Notice>().AnyAsync(known => known.Id == notice.Id, cancel))
                return;
            await using var saving = store.LightweightSession();
            saving.Insert(notice);
            try
            {
                await saving.SaveChangesAsync(cancel);
                written.Add(notice.Id);
            }
            catch (Exception raced) when (Streams.IsRace(raced))
            {
                // Another node wrote it in this moment.
            }
        }
    }

    /// <summary>The week of these accounts, at one carrier or at all.</summary>
    private async Task<WeekDigest> DigestAsync(IQuerySession session, DateOnly monday, Guid? carrier, Guid[] shipperIds, CancellationToken cancel)
    {
        var span = new Period(monday.AddDays(-7 * WeekDigest.Before), monday.AddDays(7));
        var weeks = await store.RunAsync(new(carrier, shipperIds, null, span), Facet.Week, cancel);
        var (from, until) = (At(monday), At(monday.AddDays(7)));
        var lines = session.Query<LineRecord>().Where(line => line.ShipperId.IsOneOf(shipperIds) && line.At >= from && line.At < until);
        var floors = session.Query<PickupFloorUse>().Where(use => use.ShipperId.IsOneOf(shipperIds) && use.At >= from && use.At < until && use.Method == PickupFloorUse.CurrentMethod);
        if (carrier is { } own)
        {
            lines = lines.Where(line => line.CarrierId == own);
            floors = floors.Where(use => use.CarrierId == own);
        }

        var stops = (await lines.ToListAsync(cancel)).ToLookup(line => line.ShipperId, line => new StopCount(line.Line.Declared.Stops, 1));
        var saved = (await floors.ToListAsync(cancel)).ToLookup(use => use.ShipperId, use => use.Taken?.SavedByStacking.Feet ?? 0);
        var names = (await session.LoadManyAsync<Shipper>(cancel, shipperIds)).ToDictionary(shipper => shipper.Id, shipper => shipper.Name);
        return WeekDigest.Of(monday, shipperIds.Distinct().Where(names.ContainsKey).Select(id => AccountWeek.Of(
            id,
            names[id],
            monday,
            weeks[id].Select(week => new WeekCount(week.Since, week.Lines, week.Ready)),
            Habits.Of(stops[id]),
            saved[id].Sum())));
    }

    /// <summary>That of whoever last handed freight of the shipper in; an API key has none.</summary>
    private static async Task<string?> LanguageAsync(IQuerySession session, Guid shipperId, CancellationToken cancel)
    {
        var last = await session.Query<Pickup>().Where(pickup => pickup.Header.ShipperId == shipperId).OrderByDescending(pickup => pickup.SubmittedAt).FirstOrDefaultAsync(cancel);
        return last is null ? null : (await session.LoadAsync<User>(last.SubmittedBy.Id, cancel))?.Language;
    }

    private static Notice Addressed(Notice notice, Guid carrier, Guid shipper, Guid? person)
    {
        (notice.CarrierId, notice.ShipperId, notice.PersonId) = (carrier, shipper, person);
        return notice;
    }

    /// <summary>Null when nothing was handed in: no news, no mail.</summary>
    private static Notice? Owed(NoticeKind kind, WeekDigest digest, Guid recipient, string to, string toName, string? language, DateTimeOffset at) => digest.Lines == 0 ? null : new()
    {
        Id = StableId.From("notice", kind, recipient, digest.Monday.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)),
        Kind = kind,
        PickupId = Guid.Empty,
        About = digest.Monday.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
        Digest = digest,
        To = to,
        ToName = toName,
        Language = language,
        ShipperId = Guid.Empty,
        SiteId = Guid.Empty,
        CarrierId = Guid.Empty,
        TerminalId = Guid.Empty,
        CreatedAt = at,
        DueAt = at,
    };

    private static DateTimeOffset At(DateOnly day) => new(day.ToDateTime(TimeOnly.MinValue), TimeSpan.Zero);
}
