using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Fettle.Web.Tests.Crash;

/// <summary>The portal as a process of its own, so that it can be killed.</summary>
internal sealed partial class Node : IAsyncDisposable
{
    /// <summary>For anything that a node does; a machine may be busy with other tests.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private readonly Process process;
    private readonly List<string> output = [];
    private readonly List<string> errors = [];
    private readonly TaskCompletionSource<Uri> listening = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private Node(IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Fettle.Web.dll"), .. arguments])
        {
            WorkingDirectory = AppContext.BaseDirectory,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["ASPNETCORE_ENVIRONMENT"] = "Production";
        process = new Process { StartInfo = start };
        process.OutputDataReceived += (_, line) => Keep(output, line.Data);
        process.ErrorDataReceived += (_, line) => Keep(errors, line.Data);
        Started = Stopwatch.StartNew();
        process.Start();
        Leftovers.Note(process);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    /// <summary>Since the process was started.</summary>
    public Stopwatch Started { get; }

    public Uri Address { get; private set; } = null!;

    public bool HasExited => process.HasExited;

    public string Output => Text(output);

    public string Errors => Text(errors);

    /// <summary>Starts a node on a free port, and waits until it answers.</summary>
    /// <param name="arguments">As on the command line: "--role", "web".</param>
    public static async Task<Node> StartAsync(params IReadOnlyList<string> arguments)
    {
        var node = await BeginAsync(["--urls", "http://127.0.0.1:0", .. arguments]);
        try
        {
            await node.BecomesHealthyAsync();
            return node;
        }
        catch
        {
            await node.DisposeAsync();
            throw;
        }
    }

    /// <summary>Starts a node that is not expected to get far.</summary>
    public static async Task<Node> BeginAsync(params IReadOnlyList<string> arguments)
    {
        await Leftovers.AreRemovedAsync();
        return new(arguments);
    }

    /// <summary>Begins, and waits for the end.</summary>
    public static async Task<(int ExitCode, string Output, string Errors)> RunAsync(params IReadOnlyList<string> arguments)
    {
        await using var node = await BeginAsync(arguments);
        var code = await node.ExitAsync();
        return (code, node.Output, node.Errors);
    }

    /// <summary>Waits until /health says ready.</summary>
    public async Task BecomesHealthyAsync()
    {
        var over = process.WaitForExitAsync();
        if (await Task.WhenAny(listening.Task, over).WaitAsync(Patience) == over)
            throw new InvalidOperationException($"The node ended with {process.ExitCode}: {Errors} {Output}");
        Address = await listening.Task;
        using var client = new HttpClient { BaseAddress = Address };
        while (true)
        {
            if (Started.Elapsed > Patience)
                throw new TimeoutException($"The node does not answer: {Errors} {Output}");
            try
            {
                if (await client.GetStringAsync("/health") == "ready")
                    return;
            }
            catch (HttpRequestException)
            {
                await Task.Delay(50);
            }
        }
    }

    /// <summary>As kill -9 does: nothing is finished, nothing is said.</summary>
    public async Task KillAsync()
    {
        process.Kill(entireProcessTree: true);
        await process.WaitForExitAsync();
    }

    /// <summary>As an orchestrator or systemd does first (SIGTERM).</summary>
    /// <returns>The exit code.</returns>
    public async Task<int> TerminateAsync()
    {
        using var kill = Process.Start("kill", ["-TERM", process.Id.ToString(CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync();
        return await ExitAsync();
    }

    public async Task<int> ExitAsync()
    {
        await process.WaitForExitAsync().WaitAsync(Patience);
        return process.ExitCode;
    }

    public async ValueTask DisposeAsync()
    {
        if (!process.HasExited)
            await KillAsync();
        Leftovers.Forget(process.Id);
        process.Dispose();
    }

    private static string Text(List<string> lines)
    {
        lock (lines)
            return string.Join('\n', lines);
    }

    private void Keep(List<string> lines, string? line)
    {
        if (line is null)
            return;
        lock (lines)
            lines.Add(line);
        if (Listening().Match(line) is { Success: true } match)
            listening.TrySetResult(new Uri(match.Groups[1].Value));
    }

    [GeneratedRegex(@"Now listening on: (http\S+)")]
    private static partial Regex Listening();
}
