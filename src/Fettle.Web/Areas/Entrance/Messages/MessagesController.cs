using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Notices.Letters;
using Fettle.Web.Security;
using Marten;
using Microsoft.AspNetCore.Mvc;
using NetEscapades.AspNetCore.SecurityHeaders;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Entrance.Messages;

/// <summary>What mail was owed and what became of it, for everyone whose freight it is about.</summary>
[Route("messages")]
public sealed class MessagesController(IDocumentStore store, TimeProvider clock, LetterDesk letters, Post post, DueWork due) : Controller
{
    private const int Most = 200;

    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel, bool all = false)
    {
        await using var session = store.QuerySession();
        var notices = await NoticeList.VisibleTo(session.Query<Notice>(), Caller)
            .Where(notice => all || notice.State != NoticeState.NotSent)
            .OrderByDescending(notice => notice.CreatedAt).Take(Most).ToListAsync(cancel);
        return View(new MessagesPage(notices, all, post.GoesToFolder ? post.Folder : null, Caller.Role == Role.Administrator));
    }

    [HttpGet("{id:guid}")]
    [SecurityHeadersPolicy(HeaderPolicies.ShowsMail)]
    public async Task<IActionResult> Show(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await NoticeAsync(session, id, cancel) is { } notice ? await PageAsync(session, notice, null, cancel) : NotFound();
    }

    /// <summary>The mail's own HTML, for a frame that may run nothing and load nothing from elsewhere.</summary>
    [HttpGet("{id:guid}/body")]
    [SecurityHeadersPolicy(HeaderPolicies.Mail)]
    public async Task<IActionResult> Body(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await NoticeAsync(session, id, cancel) is not { } notice)
            return NotFound();
        return Content(LetterPreview.Html(await letters.WriteAsync(notice, session, cancel)), "text/html; charset=utf-8");
    }

    /// <summary>Sends it again: the same message, with the same Message-Id. 409 when it cannot be sent now, with the reason on its page.</summary>
    [HttpPost("{id:guid}/again")]
    [SecurityHeadersPolicy(HeaderPolicies.ShowsMail)]
    public async Task<IActionResult> Again(Guid id, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await NoticeAsync(session, id, cancel) is not { } notice)
            return NotFound();
        if (SendingAgain.Against(notice, clock.GetUtcNow()) is { } against)
        {
            Response.StatusCode = StatusCodes.Status409Conflict;
            return await PageAsync(session, notice, against, cancel);
        }

        notice.State = NoticeState.Due;
        notice.DueAt = clock.GetUtcNow();
        notice.TriedSince = null;
        session.Store(notice);
        try
        {
            await session.SaveChangesAsync(cancel);
        }
        catch (Exception raced) when (Store.Streams.IsRace(raced))
        {
            // Somebody else asked for the same.
        }

        due.Notice(notice.Id);
        return Redirect($"/messages/{id}");
    }

    private async Task<IActionResult> PageAsync(IQuerySession session, Notice notice, string? refused, CancellationToken cancel) =>
        View(nameof(Show), new MessagePage(notice, await letters.WriteAsync(notice, session, cancel), post.From.ToString(), SendingAgain.Against(notice, clock.GetUtcNow()), refused));

    private async Task<Notice?> NoticeAsync(IQuerySession session, Guid id, CancellationToken cancel) =>
        await session.LoadAsync<Notice>(id, cancel) is { } notice && NoticeList.MaySee(notice, Caller) ? notice : null;
}

/// <param name="Folder">Where mail goes when there is no mail server; shown to administrators.</param>
public sealed record MessagesPage(IReadOnlyList<Notice> Notices, bool All, string? Folder, bool IsAdministrator);

/// <param name="Against">Why it cannot be sent now; null when it can.</param>
/// <param name="Refused">The same to somebody who just asked for it.</param>
public sealed record MessagePage(Notice Notice, Letter Letter, string From, string? Against, string? Refused);
