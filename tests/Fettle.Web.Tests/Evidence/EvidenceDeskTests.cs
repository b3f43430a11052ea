using System.Net;
using Fettle.Readiness.Evidence;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Fettle.Web.Evidence;
using Fettle.Web.Notices;
using Fettle.Web.Store;
using Fettle.Web.Tests.Inspections;
using Fettle.Web.Tests.Photos;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;

namespace Fettle.Web.Tests.Evidence;

/// <summary>The file of a real pickup, from the database to whoever asks for it.</summary>
public sealed class EvidenceDeskTests(SharedPortal shared)
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_file_holds_every_event_of_the_pickup_and_its_holds_and_agrees()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        var files = await FileAsync(hold.Placed.PickupId);

        Assert.Empty(EvidenceCheck.Of(files, null).Problems);
        var records = System.Text.Encoding.UTF8.GetString(files["records.jsonl"]);
        Assert.Contains("\"kind\":\"pickup_submitted\"", records, StringComparison.Ordinal);
        Assert.Contains("\"kind\":\"hold_placed\"", records, StringComparison.Ordinal);
        Assert.Contains(hold.Placed.Number, records, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_state_gives_the_same_file()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        var clerk = await shared.ClerkAsync();
        var address = $"/api/v1/pickups/{hold.Placed.PickupId}/evidence.zip";
        Assert.Equal(await clerk.GetByteArrayAsync(address, Cancel), await clerk.GetByteArrayAsync(address, Cancel));
    }

    [Fact]
    public async Task A_later_head_goes_on_from_an_earlier_one()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        var desk = await DeskAsync();
        var before = await desk.HeadAsync(hold.Placed.PickupId, Cancel);
        Assert.Equal(before, await desk.HeadAsync(hold.Placed.PickupId, Cancel));

        var reviewer = await shared.ReviewerAsync();
        var decided = await reviewer.PostAsync($"/api/v1/holds/{hold.Id}/decisions", new System.Text.Json.Nodes.JsonObject { ["decision"] = "refuse", ["reason"] = "The deck is broken." });
        Assert.Equal(HttpStatusCode.Created, decided.Status);
        var after = await desk.HeadAsync(hold.Placed.PickupId, Cancel);

        Assert.True(after.Count > before.Count);
        Assert.NotEqual(before.Head, after.Head);
        var findings = EvidenceCheck.Of(await FileAsync(hold.Placed.PickupId), before.Head);
        Assert.Empty(findings.Problems);
        Assert.Contains(findings.Facts, fact => fact.StartsWith($"The head given is that of record {before.Count} of {after.Count}", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Ten_who_ask_at_once_make_one_chain()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        var desk = await DeskAsync();
        var heads = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => desk.HeadAsync(hold.Placed.PickupId, Cancel)));
        Assert.Single(heads.Distinct());
        Assert.Empty(EvidenceCheck.Of(await FileAsync(hold.Placed.PickupId), heads[0].Head).Problems);
    }

    [Fact]
    public async Task An_event_that_was_changed_in_the_database_is_named_in_the_file_and_the_head_stays()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        var desk = await DeskAsync();
        var head = await desk.HeadAsync(hold.Placed.PickupId, Cancel);
        await ExecuteAsync("update fettle.mt_events set data = jsonb_set(data, '{exceptionRequest}', '\"never\"') where stream_id = $1 and type = 'pickup_submitted'", hold.Placed.PickupId);

        Assert.Equal(head, await desk.HeadAsync(hold.Placed.PickupId, Cancel));
        var problem = Assert.Single(EvidenceCheck.Of(await FileAsync(hold.Placed.PickupId), null).Problems);
        Assert.Matches(@"^Record 1, pickup submitted of \d{4}-\d\d-\d\d \d\d:\d\d:\d\d UTC, was changed\.$", problem);
    }

    [Fact]
    public async Task An_event_that_was_taken_out_of_the_database_is_named_even_when_its_document_went_too()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        await (await DeskAsync()).HeadAsync(hold.Placed.PickupId, Cancel);
        await ExecuteAsync("delete from fettle.mt_events where stream_id = $1", hold.Id);
        await ExecuteAsync("delete from fettle.mt_doc_hold where id = $1", hold.Id);

        var problem = Assert.Single(EvidenceCheck.Of(await FileAsync(hold.Placed.PickupId), null).Problems);
        Assert.Matches("^Record 2, hold placed of .* UTC, is missing\\.$", problem);
    }

    [Fact]
    public async Task A_mail_carries_the_head_at_its_foot_and_so_proves_what_came_before_it()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        var portal = await shared.PortalAsync();
        Notice[] notices;
        await using (var session = portal.Store.QuerySession())
            notices = [.. await session.Query<Notice>().Where(notice => notice.PickupId == hold.Placed.PickupId).ToListAsync(Cancel)];
        foreach (var notice in notices)
            await portal.Services.GetRequiredService<SendNoticeJob>().RunAsync(notice.Id, Cancel);

        var mails = portal.Mail.Messages.Where(mail => mail.Subject!.Contains(hold.Placed.Pickup.Number, StringComparison.Ordinal)).ToArray();
        Assert.Equal(2, mails.Length);
        var file = await FileAsync(hold.Placed.PickupId);
        foreach (var mail in mails)
        {
            var head = mail.TextBody!.Trim().Split('\n')[^1].Trim();
            Assert.Contains(head, mail.HtmlBody!, StringComparison.Ordinal);
            Assert.Contains("File of this pickup: 2 records so far.", mail.TextBody!.ReplaceLineEndings(" "), StringComparison.Ordinal);
            var findings = EvidenceCheck.Of(file, head);
            Assert.Empty(findings.Problems);
            Assert.Contains(findings.Facts, fact => fact.Contains("that of record 2 of 2", StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Inspections_and_their_photos_are_in_the_file_and_a_changed_photo_is_named()
    {
        var pickup = await shared.SoundAsync();
        var inspection = await shared.InspectedAsync(pickup);
        Assert.Equal(HttpStatusCode.Created, (await (await shared.ReviewerAsync()).SendPhotoAsync(inspection, Pictures.Jpeg())).Status);
        var photo = Assert.Single(await shared.PhotosAsync(pickup.Id));

        var file = await FileAsync(pickup.Id);
        Assert.Empty(EvidenceCheck.Of(file, null).Problems);
        Assert.Equal(await shared.StoredAsync(photo.Id), file[$"photos/{photo.Id}.jpg"]);
        var records = System.Text.Encoding.UTF8.GetString(file["records.jsonl"]);
        foreach (var kind in (string[])["inspection_recorded", "inspection_photographed", "photo_kept"])
            Assert.Contains($"\"kind\":\"{kind}\"", records, StringComparison.Ordinal);
        Assert.Contains("Pickup", Papers.Scanned.Text(file["summary.pdf"]), StringComparison.OrdinalIgnoreCase);
        Assert.Contains(Papers.Scanned.Squeezed($"Inspected by {photo.By.Name}"), Papers.Scanned.Text(file["summary.pdf"]), StringComparison.Ordinal);

        await ExecuteAsync("update fettle.photo_bytes set picture = '\\xffd8ffd9' where id = $1", photo.Id);
        Assert.Equal([$"Photo {photo.Id} was changed: a record names it with the hash {photo.Sha256}."], EvidenceCheck.Of(await FileAsync(pickup.Id), null).Problems);
        await ExecuteAsync("delete from fettle.photo_bytes where id = $1", photo.Id);
        await ExecuteAsync("delete from fettle.mt_doc_photo where id = $1", photo.Id);
        Assert.Equal([$"Photo {photo.Id} with the hash {photo.Sha256}, which a record names, is missing."], EvidenceCheck.Of(await FileAsync(pickup.Id), null).Problems);
    }

    [Fact]
    public async Task A_note_is_chained_once_however_often_it_is_made()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        var desk = await DeskAsync();
        var note = EvidenceNotes.PersonalData(hold.Placed.PickupId, DateTimeOffset.UnixEpoch, "2 mails", "Kept for 6 years.");
        await desk.SealAsync(hold.Placed.PickupId, [note], Cancel);
        var (chain, _) = await desk.SealAsync(hold.Placed.PickupId, [note with { At = DateTimeOffset.UnixEpoch.AddDays(1) }], Cancel);

        Assert.Equal(note, Assert.Single(chain.Notes));
        Assert.Single(chain.Links, link => link.Kind == EvidenceNotes.PersonalDataRemoved);
        Assert.Empty(EvidenceCheck.Of(await FileAsync(hold.Placed.PickupId), null).Problems);
    }

    [Fact]
    public async Task A_draft_has_no_file_yet()
    {
        var clerk = await shared.ClerkAsync();
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.NotFound, (await clerk.GetAsync($"/api/v1/pickups/{declared.Json.At("id")}/evidence.zip", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Nobody_gets_the_file_of_somebody_else_s_freight()
    {
        var hold = Assert.Single(await shared.HeldAsync());
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.OtherClerkAsync()).GetAsync($"/api/v1/pickups/{hold.Placed.PickupId}/evidence.zip", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("olaf")).GetAsync($"/pickups/{hold.Placed.PickupId}/evidence.zip")).Status);
        Assert.Equal(HttpStatusCode.OK, (await (await shared.PersonAsync("rita")).GetAsync($"/pickups/{hold.Placed.PickupId}/evidence.zip")).Status);
    }

    private async Task<EvidenceDesk> DeskAsync() => (await shared.PortalAsync()).Services.GetRequiredService<EvidenceDesk>();

    private async Task<IReadOnlyDictionary<string, byte[]>> FileAsync(Guid pickup) =>
        EvidenceArchive.Read(new MemoryStream(await (await shared.ClerkAsync()).GetByteArrayAsync($"/api/v1/pickups/{pickup}/evidence.zip", Cancel)));

    private async Task ExecuteAsync(string sql, Guid id)
    {
        await using var session = (await shared.PortalAsync()).Store.LightweightSession();
        await using var command = new NpgsqlCommand(sql);
        command.Parameters.AddWithValue(id);
        await session.ExecuteAsync(command, Cancel);
    }
}
