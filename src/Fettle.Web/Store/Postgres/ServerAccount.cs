using System.ComponentModel;
using System.Diagnostics;

namespace Fettle.Web.Store.Postgres;

/// <summary>
/// The account that the server runs under: our own, or, since PostgreSQL refuses to run as root, an unprivileged one.
/// </summary>
/// <param name="Name">The account to drop to; null to stay who we are.</param>
internal sealed record ServerAccount(string? Name)
{
    /// <summary>Accounts in order of preference: the one that PostgreSQL's packages make, then the one every Unix has.</summary>
    private static readonly string[] Unprivileged = ["postgres", "nobody"];

    public static ServerAccount Current()
    {
        if (OperatingSystem.IsWindows() || !Environment.IsPrivilegedProcess)
            return new(Name: null);
        var known = File.ReadLines("/etc/passwd").Select(line => line.Split(':')[0]).ToHashSet();
        return new(Unprivileged.FirstOrDefault(known.Contains)
            ?? throw new PostgresUnavailableException(
                "PostgreSQL refuses to run as root and this machine has neither an account named postgres nor one named nobody: "
                + "start Fettle as an ordinary user, or set ConnectionStrings:Fettle to a server you have."));
    }

    /// <summary>Gives the account a file or folder, with all that is in it.</summary>
    public async Task OwnAsync(string path, CancellationToken cancel)
    {
        if (Name is null)
            return;
        var run = await new ServerAccount(Name: null).RunAsync("chown", ["-R", Name, path], "/", libraries: null, cancel);
        if (run.ExitCode != 0)
            throw new PostgresUnavailableException($"The folder {path} could not be given to the account {Name}: {run.LastLine}");
    }

    /// <summary>Whether the account may enter the folder: it needs the right to pass through every parent.</summary>
    public async Task<bool> ReachesAsync(string folder, CancellationToken cancel)
    {
        if (Name is null)
            return true;
        try
        {
            return (await RunAsync("true", [], folder, libraries: null, cancel)).ExitCode == 0;
        }
        catch (Win32Exception)
        {
            return false;
        }
    }

    /// <summary>Runs a program to its end as this account.</summary>
    /// <exception cref="Win32Exception">The program or its working folder is missing, or the account may not reach it.</exception>
    public async Task<Run> RunAsync(
        string program, IEnumerable<string> arguments, string workingFolder, string? libraries, CancellationToken cancel)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            WorkingDirectory = workingFolder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
        };
        if (Name is not null)
            start.UserName = Name;
        // A developer's PGDATA, PGPORT and the like are about other servers than ours.
        foreach (var variable in start.Environment.Keys.Where(key => key.StartsWith("PG", StringComparison.Ordinal)).ToList())
            start.Environment.Remove(variable);
        start.Environment["LC_MESSAGES"] = "C";
        if (libraries is not null)
            start.Environment["LD_LIBRARY_PATH"] = libraries;

        using var process = Process.Start(start)!;
        process.StandardInput.Close();
        var output = new List<string>();
        void Keep(object _, DataReceivedEventArgs line)
        {
            if (string.IsNullOrWhiteSpace(line.Data))
                return;
            lock (output)
                output.Add(line.Data.Trim());
        }
        process.OutputDataReceived += Keep;
        process.ErrorDataReceived += Keep;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        var ended = process.WaitForExitAsync(cancel);
        // The server that pg_ctl leaves behind can hold our pipes open (on Windows it does), so the end of
        // the program counts, not the end of its output.
        while (!process.HasExited)
        {
            await Task.WhenAny(ended, Task.Delay(20, CancellationToken.None));
            cancel.ThrowIfCancellationRequested();
        }
        await Task.WhenAny(ended, Task.Delay(500, CancellationToken.None));
        lock (output)
            return new(process.ExitCode, [.. output]);
    }

    internal sealed record Run(int ExitCode, IReadOnlyList<string> Output)
    {
        public string LastLine => Output.Count > 0 ? Output[^1] : $"exit code {ExitCode}";
    }
}
