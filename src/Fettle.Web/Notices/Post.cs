using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;

namespace Fettle.Web.Notices;

/// <summary>The way out for mail: an SMTP server when one is configured, else a folder.</summary>
public sealed class Post(SmtpSettings settings, string folder)
{
    private readonly TimeSpan patience = TimeSpan.FromSeconds(settings.PatienceSeconds);

    /// <summary>No sending takes longer than this.</summary>
    public TimeSpan Longest => patience * 4;

    public bool GoesToFolder => string.IsNullOrWhiteSpace(settings.Host);

    public string Folder => folder;

    public MailboxAddress From { get; } = MailboxAddress.Parse(settings.From);

    /// <exception cref="PostRefusedException">The server will never take this message: trying again is no use.</exception>
    /// <exception cref="TimeoutException">The server took too long.</exception>
    /// <exception cref="CommandException">The server refuses for now, or for a reason that lies with the settings; so does <see cref="AuthenticationException"/>.</exception>
    public async Task SendAsync(MimeMessage message, CancellationToken cancel)
    {
        if (GoesToFolder)
        {
            Directory.CreateDirectory(folder);
            // The stable name makes a second try overwrite the first. Written beside and moved, so that nobody reads half a file.
            var path = Path.Combine(folder, message.MessageId!.Split('@')[0] + ".eml");
            var unfinished = path + ".part";
            await message.WriteToAsync(unfinished, cancel);
            File.Move(unfinished, path, overwrite: true);
            return;
        }

        using var client = new SmtpClient { Timeout = (int)patience.TotalMilliseconds };
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(Longest);
        try
        {
            await client.ConnectAsync(settings.Host!, settings.Port, Security(), limit.Token);
            if (!string.IsNullOrWhiteSpace(settings.User))
                await client.AuthenticateAsync(settings.User, settings.Password ?? "", limit.Token);
            await client.SendAsync(message, limit.Token);
        }
        catch (OperationCanceledException e) when (!cancel.IsCancellationRequested)
        {
            throw new TimeoutException("The mail server took too long.", e);
        }
        catch (SmtpCommandException e) when (IsForGood(e.ErrorCode, e.StatusCode))
        {
            throw new PostRefusedException(e.Message, e);
        }

        try
        {
            await client.DisconnectAsync(quit: true, limit.Token);
        }
        catch (Exception) when (!cancel.IsCancellationRequested)
        {
            // The server has taken the message; a rude goodbye changes nothing.
        }
    }

    /// <summary>
    /// Whether a refusal is about this recipient or this message, so that trying again is no use. What a server says about us
    /// (who connects, signs in or sends, or that it does not relay) is a matter of settings, and true of every mail: all of
    /// them wait until somebody has put it right.
    /// </summary>
    /// <param name="error">Which command was refused.</param>
    /// <param name="status">Reply codes of RFC 5321, 4.2.3. 554 says no more than that it failed: of a recipient mostly that relaying is denied, after the message that its content is refused.</param>
    public static bool IsForGood(SmtpErrorCode error, SmtpStatusCode status) => error switch
    {
        SmtpErrorCode.RecipientNotAccepted => (int)status is >= 550 and <= 553,
        SmtpErrorCode.MessageNotAccepted => (int)status is >= 550 and <= 554,
        // Already at MAIL FROM, where the message's size is announced.
        SmtpErrorCode.SenderNotAccepted => (int)status == 552,
        _ => false,
    };

    private SecureSocketOptions Security() => settings.Security.ToUpperInvariant() switch
    {
        "NONE" => SecureSocketOptions.None,
        "STARTTLS" => SecureSocketOptions.StartTls,
        "TLS" => SecureSocketOptions.SslOnConnect,
        _ => SecureSocketOptions.Auto,
    };
}

/// <summary>The mail server refuses the message for good: a mailbox that does not exist, a message too large.</summary>
public sealed class PostRefusedException : Exception
{
    public PostRefusedException()
    {
    }

    public PostRefusedException(string message) : base(message)
    {
    }

    public PostRefusedException(string message, Exception innerException) : base(message, innerException)
    {
    }
}
