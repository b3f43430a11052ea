using System.Net;
using System.Text.Json.Nodes;
using Fettle.Testing;
using Fettle.Web.Evidence;
using Fettle.Web.Notices;
using Fettle.Web.Photos;
using Fettle.Web.Pickups;
using Fettle.Web.Tests.Inspections;
using Fettle.Web.Tests.Photos;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace Fettle.Web.Tests.Evidence;

/// <summary>What is removed for its age, what not, and what the file says of it. A portal of its own: its clock goes on by years.</summary>
public sealed class RetentionTests : IAsyncLifetime
{
    private static readonly DateTimeOffset Start = new(2026, 11, 24, 15, 0, 0, TimeSpan.Zero);

    private readonly FakeTimeProvider clock = new(Start);
    private Portal portal = null!;
    private HttpClient clerk = null!;
    private HttpClient reviewer = null!;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        portal = await Portal.StartAsync(runsJobs: false, clock: clock, settings: new Dictionary<string, string?> { ["Fettle:Retention:Years"] = "6" });
        clerk = await portal.ApiAsync(portal.Parties.Clerk);
        reviewer = await portal.ApiAsync(portal.Parties.Reviewer);
    }

    public ValueTask DisposeAsync() => portal.DisposeAsync();

    [Fact]
    public async Task Nothing_is_removed_before_its_time_and_after_it_the_file_says_what_was()
    {
        var pickup = await InspectedAsync();
        var before = await portal.Services.GetRequiredService<EvidenceDesk>().HeadAsync(pickup, Cancel);
        var photo = Assert.Single(EvidenceArchive.Read(new MemoryStream(await ZipAsync(pickup))).Keys, name => name.StartsWith("photos/", StringComparison.Ordinal));

        clock.SetUtcNow(Start.AddYears(6).AddMinutes(-1));
        await RunAsync();
        Assert.Equal((1, 2), await KeptAsync(pickup));

        clock.SetUtcNow(Start.AddYears(6).AddDays(1));
        await RunAsync();
        Assert.Equal((0, 0), await KeptAsync(pickup));

        var file = EvidenceArchive.Read(new MemoryStream(await ZipAsync(pickup)));
        Assert.DoesNotContain(photo, file.Keys);
        var findings = EvidenceCheck.Of(file, before.Head);
        Assert.Empty(findings.Problems);
        Assert.Contains(findings.Facts, fact => fact.EndsWith("was removed by retention on 2032-11-25: photos and mails are kept for 6 years.", StringComparison.Ordinal));
        Assert.Contains("\"kind\":\"personal_data_removed\"", System.Text.Encoding.UTF8.GetString(file["records.jsonl"]), StringComparison.Ordinal);

        // A second run finds nothing to do and says nothing more.
        await RunAsync();
        Assert.Equal(await ZipAsync(pickup), await ZipAsync(pickup));
        Assert.Equal(file["records.jsonl"], EvidenceArchive.Read(new MemoryStream(await ZipAsync(pickup)))["records.jsonl"]);
    }

    [Fact]
    public async Task A_run_that_was_cut_off_after_saying_it_is_finished_by_the_next()
    {
        var pickup = await InspectedAsync();
        clock.SetUtcNow(Start.AddYears(6).AddDays(1));
        Photo photo;
        await using (var session = portal.Store.QuerySession())
            photo = await session.Query<Photo>().SingleAsync(one => one.PickupId == pickup, Cancel);
        await portal.Services.GetRequiredService<EvidenceDesk>().SealAsync(pickup, [EvidenceNotes.Removed(photo.Id, photo.Sha256, clock.GetUtcNow(), "said")], Cancel);
        Assert.Equal((1, 2), await KeptAsync(pickup));

        clock.Advance(TimeSpan.FromDays(1));
        await RunAsync();

        Assert.Equal((0, 0), await KeptAsync(pickup));
        Assert.Empty(EvidenceCheck.Of(EvidenceArchive.Read(new MemoryStream(await ZipAsync(pickup))), null).Problems);
    }

    [Fact]
    public async Task What_somebody_is_still_to_be_reminded_of_is_kept_until_they_were()
    {
        var pickup = await InspectedAsync();
        await using (var session = portal.Store.LightweightSession())
        {
            var reminder = (await session.Query<Notice>().Where(notice => notice.PickupId == pickup).ToListAsync(Cancel))[0];
            reminder.DueAt = Start.AddYears(6).AddDays(3);
            session.Store(reminder);
            await session.SaveChangesAsync(Cancel);
        }

        clock.SetUtcNow(Start.AddYears(6).AddDays(2));
        await RunAsync();
        Assert.Equal((1, 2), await KeptAsync(pickup));

        clock.SetUtcNow(Start.AddYears(6).AddDays(3));
        await RunAsync();
        Assert.Equal((0, 0), await KeptAsync(pickup));
    }

    [Fact]
    public async Task What_happened_lately_keeps_an_old_pickup()
    {
        var pickup = await InspectedAsync();
        clock.SetUtcNow(Start.AddYears(6).AddDays(1));
        var again = await reviewer.PostAsync($"/api/v1/pickups/{pickup}/arrival", new JsonObject());
        Assert.True(again.Status == HttpStatusCode.OK, again.ToString());
        await RunAsync();
        Assert.Equal((1, 2), await KeptAsync(pickup));
    }

    [Fact]
    public async Task Nothing_is_ever_removed_where_no_time_is_set()
    {
        var pickup = await InspectedAsync();
        clock.SetUtcNow(Start.AddYears(80));
        portal.Services.GetRequiredService<Settings>().Retention.Years = null;
        await RunAsync();
        Assert.Equal((1, 2), await KeptAsync(pickup));
    }

    private Task RunAsync() => portal.Services.GetRequiredService<RetentionJob>().RunAsync(Cancel);

    private async Task<Guid> InspectedAsync()
    {
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(clock.GetUtcNow()));
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        var pickup = Guid.Parse(declared.Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{pickup}/submission", new JsonObject())).Status);
        await portal.Services.GetRequiredService<FollowUpJob>().RunAsync(pickup, Cancel);
        var inspection = Guid.CreateVersion7();
        var inspected = await reviewer.PostAsync("/api/v1/inspections", new JsonObject { ["id"] = inspection.ToString(), ["pickupId"] = pickup.ToString(), ["reference"] = "A1", ["measured"] = new JsonObject { ["height"] = 53.5 } });
        Assert.True(inspected.Status == HttpStatusCode.Created, inspected.ToString());
        Assert.Equal(HttpStatusCode.Created, (await reviewer.SendPhotoAsync(inspection, Pictures.Jpeg())).Status);
        return pickup;
    }

    private async Task<(int Photos, int Mails)> KeptAsync(Guid pickup)
    {
        await using var session = portal.Store.QuerySession();
        return (
            await session.Query<Photo>().CountAsync(photo => photo.PickupId == pickup, Cancel),
            await session.Query<Notice>().CountAsync(notice => notice.PickupId == pickup, Cancel));
    }

    private Task<byte[]> ZipAsync(Guid pickup) => clerk.GetByteArrayAsync($"/api/v1/pickups/{pickup}/evidence.zip", Cancel);
}
