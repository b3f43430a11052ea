namespace Fettle.Web.Notices.Letters
{
    public sealed record Letter(string Subject, string Text, string Html);
    public static class LetterMessage { public static MimeKit.MimeMessage Build(Letter l, MimeKit.MailboxAddress from, MimeKit.MailboxAddress to, string id, DateTimeOffset at) { var m = new MimeKit.MimeMessage(); m.From.Add(from); m.To.Add(to); m.Subject = l.Subject; m.MessageId = id; m.Date = at; m.Body = new MimeKit.TextPart("plain") { Text = l.Text }; return m; } }
    public static class LetterPreview { public static string Html(Letter l) => l.Html; }
}
namespace Fettle.Web.Notices
{
    public sealed class LetterDesk { public Task<Letters.Letter> WriteAsync(Notice n, Marten.IQuerySession s, CancellationToken c) => Task.FromResult(new Letters.Letter(n.About, n.About, n.About)); }
}
