using Fettle.Readiness.Scorecards;
using Fettle.Testing;
using Fettle.Web.Digests;
using Fettle.Web.FloorUse;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Languages;
using Fettle.Web.Notices;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using static Fettle.Testing.AccountHistory;

namespace Fettle.Web.Tests.Digests;

/// <summary>Monday's mail about the week before: one to each, however often and late it is written.</summary>
public sealed class WeeklyDigestTests(WeeklyDigestTests.Week week) : IClassFixture<WeeklyDigestTests.Week>
{
    private static readonly DateOnly Monday = new(2026, 11, 16);

    private static readonly DateTimeOffset After = new(2026, 11, 23, 6, 0, 0, TimeSpan.Zero);

    [Fact]
    public async Task Each_manager_and_each_shipper_with_freight_is_owed_one_mail_run_twice_and_late()
    {
        var job = week.Portal.Services.GetRequiredService<WeeklyDigestJob>();
        await job.DoAsync(Monday, After, CancellationToken.None);
        Assert.Empty(await job.DoAsync(Monday, After, CancellationToken.None));
        Assert.Empty(await job.DoAsync(Monday, After.AddDays(3), CancellationToken.None));

        var notices = await NoticesAsync(Monday);

        Assert.Equal(
            ["dock@bramblewick.example", "dock@cedargate.example", "mona@fettle.example", "owen@fettle.example"],
            notices.Select(notice => notice.To).Order());
        // What each is told of: their own accounts at their own carrier, and a shipper of itself.
        Assert.Equal(["Bramblewick Glassware"], Names(notices, "mona@fettle.example"));
        Assert.Equal(["Cedar Gate Fasteners"], Names(notices, "owen@fettle.example"));
        Assert.Equal(["Bramblewick Glassware"], Names(notices, "dock@bramblewick.example"));
        var mona = notices.Single(notice => notice.To.StartsWith("mona", StringComparison.Ordinal)).Digest!;
        // Twelve sound lines and three thinly wrapped ones at her carrier; the five at the other carrier are the shipper's own to see.
        Assert.Equal((15, 12), (mona.Lines, mona.Ready));
        Assert.Equal(3, mona.Accounts[0].Habits.Best[0].Stopped);
        Assert.Equal(20, notices.Single(notice => notice.To == "dock@bramblewick.example").Digest!.Lines);
    }

    [Fact]
    public async Task A_week_without_freight_is_no_mail()
    {
        Assert.Empty(await week.Portal.Services.GetRequiredService<WeeklyDigestJob>().DoAsync(Monday.AddDays(-700), After, CancellationToken.None));
    }

    [Theory]
    // 05:59 on Monday in Chicago is 11:59 UTC; whenever in the week it runs, it tells of the week before.
    [InlineData("America/Chicago", "2026-11-23T11:59:00Z", "2026-11-16")]
    [InlineData("America/Chicago", "2026-11-23T03:00:00Z", "2026-11-09")]
    [InlineData("UTC", "2026-11-26T15:00:00Z", "2026-11-16")]
    [InlineData("UTC", "2026-11-29T23:59:00Z", "2026-11-16")]
    public async Task The_week_told_of_is_the_last_that_is_over_where_the_portal_is(string zone, string at, string told)
    {
        await JobAt(DateTimeOffset.Parse(at, System.Globalization.CultureInfo.InvariantCulture), new() { TimeZone = zone }).RunAsync(CancellationToken.None);

        Assert.NotEmpty(await NoticesAsync(DateOnly.Parse(told, System.Globalization.CultureInfo.InvariantCulture)));
    }

    [Fact]
    public async Task Switched_off_it_writes_nothing()
    {
        var before = (await NoticesAsync(Monday.AddDays(-14))).Count;
        await JobAt(new(2026, 11, 11, 6, 0, 0, TimeSpan.Zero), new() { Weekly = false }).RunAsync(CancellationToken.None);
        Assert.Equal(before, (await NoticesAsync(Monday.AddDays(-14))).Count);
    }

    [Fact]
    public async Task The_letter_is_the_same_whenever_it_is_read_and_speaks_the_readers_language()
    {
        await week.Portal.Services.GetRequiredService<WeeklyDigestJob>().DoAsync(Monday, After, CancellationToken.None);
        var letters = week.Portal.Services.GetRequiredService<LetterDesk>();
        await using var session = week.Portal.Store.QuerySession();
        var notices = await NoticesAsync(Monday);
        var manager = notices.Single(notice => notice.Kind == NoticeKind.DigestForManager && notice.To.StartsWith("mona", StringComparison.Ordinal));
        var shipper = notices.Single(notice => notice.To == "dock@bramblewick.example");

        var first = await letters.WriteAsync(manager, session, CancellationToken.None);
        Assert.Equal("Week of 16 November 2026: 3 of 15 lines held", first.Subject);
        Assert.Contains("What to change", first.Text, StringComparison.Ordinal);
        Assert.Contains("3 of 3 held lines would have passed", Flat(first.Text), StringComparison.Ordinal);
        Assert.Equal(first.Html, (await letters.WriteAsync(manager, session, CancellationToken.None)).Html);
        var picture = Assert.Single(first.Pictures);
        Assert.Contains($"cid:{picture.ContentId}", first.Html, StringComparison.Ordinal);
        Keep("manager", picture.Png.ToArray(), LetterPreview.Html(first));

        var own = await letters.WriteAsync(shipper, session, CancellationToken.None);
        Assert.Contains("17 of 20 lines were ready to go at once.", Flat(own.Text), StringComparison.Ordinal);
        Assert.Contains("nobody else's are in them", Flat(own.Text), StringComparison.Ordinal);
        Assert.All((string[])["fail", "bad", "worst", "fault", "blame", "worse", "wrong", "Cedar Gate"], word => Assert.DoesNotContain(word, own.Text, StringComparison.OrdinalIgnoreCase));
        Keep("shipper", own.Pictures[0].Png.ToArray(), LetterPreview.Html(own));

        shipper.Language = Language.Spanish.Code;
        var spanish = await letters.WriteAsync(shipper, session, CancellationToken.None);
        Assert.Equal("Su carga, semana del 16 de noviembre de 2026: 17 de 20 líneas listas para salir", spanish.Subject);
        Assert.DoesNotContain("lines", spanish.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_goes_out_as_mail_and_only_the_manager_reads_it_here()
    {
        // A week that no other test writes about later than now: what is not due yet is not sent.
        var before = Monday.AddDays(-7);
        await week.Portal.Services.GetRequiredService<WeeklyDigestJob>().DoAsync(before, After, CancellationToken.None);
        var notice = (await NoticesAsync(before)).Single(notice => notice.To == "mona@fettle.example");
        await week.Portal.Services.GetRequiredService<SendNoticeJob>().RunAsync(notice.Id, CancellationToken.None);
        await week.Portal.Services.GetRequiredService<SendNoticeJob>().RunAsync(notice.Id, CancellationToken.None);

        Assert.Single(week.Portal.Mail.Messages, message => message.MessageId == notice.MessageId);
        await using var session = week.Portal.Store.QuerySession();
        var mona = await session.Query<User>().SingleAsync(user => user.UserName == "mona@fettle.example");
        var owen = await session.Query<User>().SingleAsync(user => user.UserName == "owen@fettle.example");
        Assert.True(NoticeList.MaySee(notice, new(mona.Id, mona.Name, mona.Rights)));
        Assert.False(NoticeList.MaySee(notice, new(owen.Id, owen.Name, owen.Rights)));
        Assert.False(NoticeList.MaySee(notice, new(Guid.CreateVersion7(), "Colleague", mona.Rights)));
        Assert.False(NoticeList.MaySee(notice, new(Guid.CreateVersion7(), "Clara", week.Portal.Parties.Clerk)));
    }

    private WeeklyDigestJob JobAt(DateTimeOffset now, DigestSettings digest) => new(
        week.Portal.Store, new Settings { Digest = digest }, new FakeTimeProvider(now), week.Portal.Services.GetRequiredService<DueWork>());

    private async Task<IReadOnlyList<Notice>> NoticesAsync(DateOnly monday)
    {
        var about = monday.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        await using var session = week.Portal.Store.QuerySession();
        return await session.Query<Notice>().Where(notice => notice.About == about).ToListAsync();
    }

    private static IEnumerable<string> Names(IEnumerable<Notice> notices, string to) => notices.Single(notice => notice.To == to).Digest!.Accounts.Select(account => account.Name);

    private static string Flat(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static void Keep(string name, byte[] png, string html)
    {
        if (Environment.GetEnvironmentVariable("FETTLE_PICTURES") is not { Length: > 0 } folder)
            return;
        File.WriteAllBytes(Path.Combine(folder, $"digest-{name}.png"), png);
        File.WriteAllText(Path.Combine(folder, $"digest-{name}.html"), html);
    }

    /// <summary>A portal with two weeks of freight.</summary>
    public sealed class Week : IAsyncLifetime
    {
        public Portal Portal { get; private set; } = null!;

        public async ValueTask InitializeAsync()
        {
            Portal = await Portal.StartAsync(runsJobs: false);
            var parties = Portal.Parties;
            var at = new DateTimeOffset(2026, 11, 18, 15, 0, 0, TimeSpan.Zero);
            Told[] told =
            [
                One(parties.Carrier.Id, parties.Shipper.Id, at, BuiltAs.Sound, [.. Enumerable.Repeat(2, 12)]),
                One(parties.Carrier.Id, parties.Shipper.Id, at, BuiltAs.ThinFilm, 1, 1, 1),
                One(parties.OtherCarrier.Id, parties.Shipper.Id, at, BuiltAs.Sound, 1, 1, 1, 1, 1),
                One(parties.OtherCarrier.Id, parties.OtherShipper.Id, at, BuiltAs.Sound, 4),
                One(parties.Carrier.Id, parties.Shipper.Id, at.AddDays(-7), BuiltAs.Sound, [.. Enumerable.Repeat(1, 20)]),
            ];
            await AppendAsync(Portal.Store, told, CancellationToken.None);
            foreach (var one in told)
                await Portal.Services.GetRequiredService<FloorUseJob>().PlanAsync(one.Submitted.PickupId, CancellationToken.None);
        }

        public ValueTask DisposeAsync() => Portal.DisposeAsync();
    }
}
