using System.Buffers;
using System.Collections.Immutable;
using System.Net;
using System.Net.Sockets;
using MimeKit;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Mail;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace Fettle.Testing;

/// <summary>What goes wrong at the mail server. Reply codes are those of RFC 5321, 4.2.3.</summary>
public enum MailFault
{
    None,

    /// <summary>421 at MAIL FROM, and the connection closed: service not available.</summary>
    Unavailable,

    /// <summary>450 at RCPT TO: mailbox busy, try again later.</summary>
    MailboxBusy,

    /// <summary>550 at RCPT TO: no such mailbox, for good.</summary>
    NoSuchMailbox,

    /// <summary>552 after the message: over the storage allocation.</summary>
    OverQuota,

    /// <summary>554 after the message: its content is refused, for good.</summary>
    ContentRefused,

    /// <summary>530 at MAIL FROM: who sends must sign in first.</summary>
    SignInFirst,

    /// <summary>553 at MAIL FROM: this address may not send here.</summary>
    SenderNotAllowed,

    /// <summary>554 at RCPT TO: relaying is denied to whoever connects so.</summary>
    RelayDenied,

    /// <summary>The message arrives, and no answer to it, until the fault is changed or the client gives up.</summary>
    Stall,

    /// <summary>The connection is cut after the message, which is not kept.</summary>
    DropAfterData,

    /// <summary>The connection is cut after the message, which is kept: the client cannot know.</summary>
    LoseAcknowledgement,
}

/// <summary>A real SMTP server on a loopback port of its own, that keeps what it receives and can be made to fail.</summary>
public sealed class MailCatcher : IAsyncDisposable
{
    private readonly Desk _desk = new();
    private CancellationTokenSource _listening = new();
    private Task _server = Task.CompletedTask;

    private MailCatcher(int port) => Port = port;

    public string Host { get; } = IPAddress.Loopback.ToString();

    public int Port { get; }

    /// <summary>What goes wrong from now on, in this and later sessions.</summary>
    public MailFault Fault
    {
        get => _desk.Fault;
        set => _desk.SetFault(value);
    }

    /// <summary>What was received, in order of arrival.</summary>
    public IReadOnlyList<MimeMessage> Messages => _desk.Messages;

    /// <summary>How many messages were begun (MAIL FROM), failed ones included.</summary>
    public int Attempts => _desk.Attempts;

    public static async Task<MailCatcher> StartAsync()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        var port = ((IPEndPoint)probe.LocalEndpoint).Port;
        probe.Stop();
        var catcher = new MailCatcher(port);
        await catcher.AcceptConnectionsAsync();
        return catcher;
    }

    /// <summary>Listens (again). At once after <see cref="StartAsync"/>.</summary>
    public async Task AcceptConnectionsAsync()
    {
        if (!_server.IsCompleted)
            return;
        _listening = new();
        var options = new SmtpServerOptionsBuilder()
            .ServerName("mail.test")
            .Endpoint(endpoint => endpoint.Endpoint(new IPEndPoint(IPAddress.Loopback, Port)))
            .Build();
        var services = new ServiceProvider();
        services.Add((IMessageStore)_desk);
        services.Add((IMailboxFilter)_desk);
        _server = new SmtpServer.SmtpServer(options, services).StartAsync(_listening.Token);
        while (!_server.IsCompleted)
        {
            try
            {
                using var knock = new TcpClient();
                await knock.ConnectAsync(IPAddress.Loopback, Port);
                return;
            }
            catch (SocketException)
            {
                await Task.Delay(5);
            }
        }
        await _server;
    }

    /// <summary>Stops listening: connections are refused until <see cref="AcceptConnectionsAsync"/>.</summary>
    public async Task RefuseConnectionsAsync()
    {
        await _listening.CancelAsync();
        try
        {
            await _server;
        }
        catch (OperationCanceledException)
        {
        }
        _listening.Dispose();
        _listening = new();
    }

    /// <summary>The first message that fits, received already or within the time.</summary>
    /// <exception cref="TimeoutException">Names the subjects that did come.</exception>
    public async Task<MimeMessage> WaitForAsync(Func<MimeMessage, bool> fits, TimeSpan timeout)
    {
        using var patience = new CancellationTokenSource(timeout);
        while (true)
        {
            var next = _desk.NextArrival;
            if (_desk.Messages.FirstOrDefault(fits) is { } message)
                return message;
            try
            {
                await next.WaitAsync(patience.Token);
            }
            catch (OperationCanceledException)
            {
                throw new TimeoutException(
                    $"No such mail within {timeout}; received: {string.Join("; ", _desk.Messages.Select(received => $"{received.To}: {received.Subject}"))}");
            }
        }
    }

    public void Clear() => _desk.Clear();

    public async ValueTask DisposeAsync()
    {
        Fault = MailFault.None;
        await RefuseConnectionsAsync();
        _listening.Dispose();
    }

    private sealed class Desk : IMessageStore, IMailboxFilter
    {
        private ImmutableList<MimeMessage> _messages = [];
        private TaskCompletionSource _arrival = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private TaskCompletionSource _faultChanged = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private int _attempts;

        public MailFault Fault { get; private set; }
        public ImmutableList<MimeMessage> Messages => _messages;
        public int Attempts => Volatile.Read(ref _attempts);
        public Task NextArrival => Volatile.Read(ref _arrival).Task;

        public void SetFault(MailFault fault)
        {
            Fault = fault;
            Interlocked.Exchange(ref _faultChanged, new(TaskCreationOptions.RunContinuationsAsynchronously)).SetResult();
        }

        public void Clear() => ImmutableInterlocked.Update(ref _messages, messages => messages.Clear());

        public Task<bool> CanAcceptFromAsync(ISessionContext context, IMailbox from, int size, CancellationToken cancel)
        {
            Interlocked.Increment(ref _attempts);
            return Fault switch
            {
                MailFault.Unavailable => throw new SmtpResponseException(new(SmtpReplyCode.ServiceUnavailable, "service not available"), quit: true),
                MailFault.SignInFirst => throw new SmtpResponseException(new((SmtpReplyCode)530, "sign in first")),
                MailFault.SenderNotAllowed => throw new SmtpResponseException(new((SmtpReplyCode)553, "sender not allowed")),
                _ => Task.FromResult(true),
            };
        }

        public Task<bool> CanDeliverToAsync(ISessionContext context, IMailbox to, IMailbox from, CancellationToken cancel) => Fault switch
        {
            MailFault.MailboxBusy => throw new SmtpResponseException(new((SmtpReplyCode)450, "mailbox busy")),
            MailFault.NoSuchMailbox => throw new SmtpResponseException(new((SmtpReplyCode)550, "no such mailbox")),
            MailFault.RelayDenied => throw new SmtpResponseException(new((SmtpReplyCode)554, "relay access denied")),
            MailFault.None or MailFault.Unavailable or MailFault.SignInFirst or MailFault.SenderNotAllowed or MailFault.OverQuota or MailFault.ContentRefused
                or MailFault.Stall or MailFault.DropAfterData or MailFault.LoseAcknowledgement => Task.FromResult(true),
        };

        public async Task<SmtpResponse> SaveAsync(
            ISessionContext context, IMessageTransaction transaction, ReadOnlySequence<byte> buffer, CancellationToken cancel)
        {
            switch (Fault)
            {
                case MailFault.OverQuota:
                    return new((SmtpReplyCode)552, "over quota");
                case MailFault.ContentRefused:
                    return new((SmtpReplyCode)554, "content refused");
                case MailFault.Stall:
                    await Volatile.Read(ref _faultChanged).Task.WaitAsync(cancel);
                    Cut(context);
                    break;
                case MailFault.DropAfterData:
                    Cut(context);
                    break;
                case MailFault.LoseAcknowledgement:
                    await KeepAsync(buffer, cancel);
                    Cut(context);
                    break;
                case MailFault.None or MailFault.Unavailable or MailFault.SignInFirst or MailFault.SenderNotAllowed or MailFault.MailboxBusy or MailFault.NoSuchMailbox or MailFault.RelayDenied:
                    await KeepAsync(buffer, cancel);
                    break;
            }
            return SmtpResponse.Ok;
        }

        private static void Cut(ISessionContext context)
        {
            context.Pipe.Dispose();
            throw new SmtpResponseException(new(SmtpReplyCode.ServiceUnavailable, "cut"), quit: true);
        }

        private async Task KeepAsync(ReadOnlySequence<byte> buffer, CancellationToken cancel)
        {
            using var bytes = new MemoryStream(buffer.ToArray());
            var message = await MimeMessage.LoadAsync(bytes, cancel);
            ImmutableInterlocked.Update(ref _messages, messages => messages.Add(message));
            Interlocked.Exchange(ref _arrival, new(TaskCreationOptions.RunContinuationsAsynchronously)).SetResult();
        }
    }
}
