using System.Net.Sockets;
using Fettle.Testing;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;

namespace Fettle.Web.Tests.Mail;

/// <summary>The peer that mail is tested against fails as it says it does, seen through the client that the portal uses.</summary>
public sealed class MailCatcherTests : IAsyncLifetime
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);
    private MailCatcher _mail = null!;

    public async ValueTask InitializeAsync() => _mail = await MailCatcher.StartAsync();

    public ValueTask DisposeAsync() => _mail.DisposeAsync();

    [Fact]
    public async Task What_is_sent_is_received_with_subject_body_and_recipient()
    {
        var waiting = _mail.WaitForAsync(message => message.Subject == "Second", Patience);
        await SendAsync("First");
        await SendAsync("Second");

        var received = await waiting;

        Assert.Equal("Façade: 40″ × 48″", received.TextBody?.Trim());
        Assert.Equal("dock@shipper.test", received.To.Mailboxes.Single().Address);
        Assert.Equal(["First", "Second"], _mail.Messages.Select(message => message.Subject));
        Assert.Equal(2, _mail.Attempts);
    }

    [Fact]
    public async Task Waiting_in_vain_ends_with_the_subjects_that_did_come()
    {
        await SendAsync("Another");

        var late = await Assert.ThrowsAsync<TimeoutException>(() => _mail.WaitForAsync(_ => false, TimeSpan.FromMilliseconds(50)));

        Assert.Contains("Another", late.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(MailFault.MailboxBusy, 450)]
    [InlineData(MailFault.NoSuchMailbox, 550)]
    [InlineData(MailFault.OverQuota, 552)]
    [InlineData(MailFault.Unavailable, 421)]
    public async Task A_refusal_carries_its_reply_code_and_nothing_is_kept(MailFault fault, int code)
    {
        _mail.Fault = fault;

        var refused = await Assert.ThrowsAsync<SmtpCommandException>(() => SendAsync("Refused"));

        Assert.Equal(code, (int)refused.StatusCode);
        Assert.Empty(_mail.Messages);
        Assert.Equal(1, _mail.Attempts);
    }

    [Theory]
    [InlineData(MailFault.DropAfterData, 0)]
    [InlineData(MailFault.LoseAcknowledgement, 1)]
    public async Task A_connection_cut_after_the_message_leaves_the_client_in_doubt(MailFault fault, int kept)
    {
        _mail.Fault = fault;

        var cut = await Assert.ThrowsAnyAsync<Exception>(() => SendAsync("In doubt"));

        Assert.True(cut is IOException or ProtocolException or ServiceNotConnectedException, cut.ToString());
        Assert.Equal(kept, _mail.Messages.Count);
    }

    [Fact]
    public async Task A_stall_lasts_past_the_clients_patience()
    {
        _mail.Fault = MailFault.Stall;

        var failure = await Assert.ThrowsAnyAsync<Exception>(() => SendAsync("Stalled", patience: TimeSpan.FromSeconds(1)));

        Assert.True(failure is TimeoutException or OperationCanceledException or IOException, failure.ToString());
        Assert.Empty(_mail.Messages);
    }

    [Fact]
    public async Task Refused_connections_are_accepted_again_at_the_same_address()
    {
        await _mail.RefuseConnectionsAsync();
        await Assert.ThrowsAnyAsync<SocketException>(() => SendAsync("Refused"));

        await _mail.AcceptConnectionsAsync();
        await SendAsync("Accepted");

        Assert.Equal(["Accepted"], _mail.Messages.Select(message => message.Subject));
    }

    private async Task SendAsync(string subject, TimeSpan? patience = null)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        stop.CancelAfter(patience ?? Patience);
        using var message = new MimeMessage
        {
            Subject = subject,
            From = { new MailboxAddress("Fettle", "fettle@carrier.test") },
            To = { new MailboxAddress("Dock", "dock@shipper.test") },
            Body = new TextPart("plain") { Text = "Façade: 40″ × 48″" },
        };
        using var client = new SmtpClient();
        await client.ConnectAsync(_mail.Host, _mail.Port, SecureSocketOptions.None, stop.Token);
        await client.SendAsync(message, stop.Token);
        await client.DisconnectAsync(quit: true, stop.Token);
    }
}
