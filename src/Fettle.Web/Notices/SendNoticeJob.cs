using Fettle.Web.Evidence;
using Fettle.Web.Store;
using Marten;
using MimeKit;

namespace Fettle.Web.Notices;

/// <summary>
/// Sends one notice. Safe to run twice at the same time (the second finds it taken) and again after a crash (the same
/// message with the same Message-Id goes out, for it cannot be known whether the first arrived).
/// </summary>
public sealed class SendNoticeJob(IDocumentStore store, LetterDesk letters, EvidenceDesk evidence, Post post, Settings settings, TimeProvider clock, ILogger<SendNoticeJob> log)
{
    /// <summary>A node gives up before its time ends by this part of it, since the nodes' clocks differ, and two must never send at once.</summary>
    private const double Margin = 0.1;

    private static readonly TimeSpan LongestWait = TimeSpan.FromMinutes(15);

    /// <summary>Given up after so long of trying; a person is shown it and can send it again.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromDays(2);

    /// <summary>How long a node may be at one mail: three minutes, unless set otherwise.</summary>
    private TimeSpan Lease => post.Longest + TimeSpan.FromSeconds(settings.Jobs.WritingSeconds);

    public async Task RunAsync(Guid noticeId, CancellationToken cancel)
    {
        if (await TakeAsync(noticeId, cancel) is not { } notice)
            return;
        string? problem = null;
        var forGood = false;
        using var deadline = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        deadline.CancelAfter(Lease * (1 - Margin));
        try
        {
            await using var session = store.QuerySession();
            if (await LetterDesk.IsOvertakenAsync(notice, session, deadline.Token))
            {
                await SettleAsync(notice, null, false, CancellationToken.None, overtaken: true);
                return;
            }

            var letter = await letters.WriteAsync(notice, session, deadline.Token);
            using var message = Letters.LetterMessage.Build(letter, post.From, new MailboxAddress(notice.ToName, notice.To), notice.MessageId, notice.CreatedAt);
            await post.SendAsync(message, deadline.Token);
        }
        catch (PostRefusedException e)
        {
            (problem, forGood) = (e.Message, true);
        }
        catch (OperationCanceledException) when (deadline.IsCancellationRequested && !cancel.IsCancellationRequested)
        {
            problem = "The mail server took too long over it.";
        }
        catch (Exception e) when (!cancel.IsCancellationRequested)
        {
            log.LogWarning(e, "Notice {Notice} could not be sent", notice.Id);
            problem = e.Message;
        }

        await SettleAsync(notice, problem, forGood, CancellationToken.None);
    }

    /// <summary>Marks the notice as being sent, or finds that there is nothing to do.</summary>
    private async Task<Notice?> TakeAsync(Guid id, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        var notice = await session.LoadAsync<Notice>(id, cancel);
        var now = clock.GetUtcNow();
        var waits = notice is { State: NoticeState.Due } && notice.DueAt <= now;
        var orphaned = notice is { State: NoticeState.Sending } && notice.SendingUntil <= now;
        if (notice is null || !(waits || orphaned))
            return null;
        notice.State = NoticeState.Sending;
        notice.SendingUntil = now + Lease;
        notice.Tries++;
        notice.TriedSince ??= now;
        // What the mail says stands fast from the first try on.
        if (notice.PickupId != Guid.Empty)
            notice.Evidence ??= await evidence.HeadAsync(notice.PickupId, cancel);
        session.Store(notice);
        try
        {
            await session.SaveChangesAsync(cancel);
            return notice;
        }
        catch (Exception raced) when (Streams.IsRace(raced))
        {
            return null;
        }
    }

    private async Task SettleAsync(Notice notice, string? problem, bool forGood, CancellationToken cancel, bool overtaken = false)
    {
        await using var session = store.LightweightSession();
        var now = clock.GetUtcNow();
        notice.SendingUntil = null;
        if (problem is null)
        {
            notice.State = overtaken ? NoticeState.Overtaken : NoticeState.Sent;
            notice.SentAt = overtaken ? null : now;
            notice.LastError = null;
        }
        else
        {
            notice.LastError = problem.Length > 500 ? problem[..500] : problem;
            notice.State = forGood || now - notice.TriedSince > Patience ? NoticeState.Failed : NoticeState.Due;
            // 15 s, 30 s, 1 min … a quarter of an hour.
            var wait = TimeSpan.FromSeconds(15 * Math.Pow(2, Math.Min(notice.Tries - 1, 10)));
            notice.DueAt = now + (wait < LongestWait ? wait : LongestWait);
        }

        session.Store(notice);
        await session.SaveChangesAsync(cancel);
    }
}
