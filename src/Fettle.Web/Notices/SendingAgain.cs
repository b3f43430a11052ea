namespace Fettle.Web.Notices;

/// <summary>
/// What a person may have sent by hand: a mail that failed, went out already, or is due. Never a reminder before its day,
/// which would use it up: it goes out once, and then not when it is needed.
/// </summary>
public static class SendingAgain
{
    /// <summary>
    /// A mail that went out rests so long before it can be sent again: ten minutes, our own choice. Long enough that nobody
    /// floods a mailbox with it, and for a first copy to arrive; short enough for somebody on the telephone who waits for it.
    /// </summary>
    public static readonly TimeSpan Rest = TimeSpan.FromMinutes(10);

    /// <returns>Why it cannot be sent now, in words; null when it can.</returns>
    public static string? Against(Notice notice, DateTimeOffset now) => notice.State switch
    {
        NoticeState.Due when IsStillToCome(notice, now) => T("This mail goes out on its day, {0} UTC, and not before.", Moment(notice.DueAt)),
        NoticeState.Sent when notice.SentAt + Rest is { } from && now < from => T("This mail has just gone out. It can be sent again from {0} UTC.", Moment(from)),
        NoticeState.Due or NoticeState.Failed or NoticeState.Sent => null,
        NoticeState.Sending => T("This mail is being sent in this moment."),
        NoticeState.NotSent => T("This mail belongs to loaded history, and was never to be sent."),
        NoticeState.Overtaken => T("What this mail was about has been replaced, so it is not sent."),
    };

    /// <summary>One that was tried waits only for its next try.</summary>
    private static bool IsStillToCome(Notice notice, DateTimeOffset now) => notice.Tries == 0 && notice.DueAt > now;

    private static string Moment(DateTimeOffset at) => at.UtcDateTime.ToString("d MMM yyyy HH:mm", Language.Current.Calendar);
}
