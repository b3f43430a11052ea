using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Notices;

[Route("api/v1/notices")]
public sealed class NoticesController(IDocumentStore store) : ApiController
{
    private const int Most = 500;

    /// <summary>Mails that were owed about the caller's freight, newest first, and what became of each.</summary>
    /// <param name="pickup">Only notices of this pickup.</param>
    [HttpGet]
    [ProducesResponseType<NoticesAnswer>(StatusCodes.Status200OK, AsJson)]
    public async Task<IActionResult> List(CancellationToken cancel, Guid? pickup = null)
    {
        await using var session = store.QuerySession();
        var notices = await NoticeList.VisibleTo(session.Query<Notice>(), Caller)
            .Where(notice => pickup == null || notice.PickupId == pickup)
            .OrderByDescending(notice => notice.CreatedAt).ThenBy(notice => notice.Id)
            .Take(Most)
            .ToListAsync(cancel);
        return Ok(new NoticesAnswer([.. notices.Select(NoticeAnswer.Of)]));
    }
}

public sealed record NoticesAnswer(IReadOnlyList<NoticeAnswer> Notices);

/// <param name="State">"due", "sending", "sent", "failed" (a person must send it again) or "not-sent" (loaded history).</param>
public sealed record NoticeAnswer(
    Guid Id,
    string Kind,
    Guid? PickupId,
    Guid? HoldId,
    string About,
    string To,
    string State,
    int Tries,
    string? LastError,
    DateTimeOffset CreatedAt,
    DateTimeOffset? DueAt,
    DateTimeOffset? SentAt)
{
    public static NoticeAnswer Of(Notice notice) => new(
        notice.Id,
        notice.Kind.Word(),
        notice.PickupId == Guid.Empty ? null : notice.PickupId,
        notice.HoldId,
        notice.About,
        notice.To,
        notice.State.Word(),
        notice.Tries,
        notice.LastError,
        notice.CreatedAt,
        notice.State == NoticeState.Due ? notice.DueAt : null,
        notice.SentAt);
}
