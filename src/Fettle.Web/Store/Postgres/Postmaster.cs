using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;

namespace Fettle.Web.Store.Postgres;

/// <summary>
/// The running server as its lock file <c>postmaster.pid</c> tells it (PostgreSQL, "Database File Layout":
/// process id, data folder, start time in Unix seconds, port, …).
/// </summary>
internal sealed record Postmaster(int Pid, DateTimeOffset Started, int Port)
{
    /// <summary>A process whose start differs by more than this from the lock file's has only inherited the number.</summary>
    private static readonly TimeSpan StartTolerance = TimeSpan.FromMinutes(1);

    public static string LockFile(string cluster) => Path.Combine(cluster, "postmaster.pid");

    /// <summary>What the lock file says; null when there is none, or it is torn.</summary>
    public static Postmaster? Read(string cluster)
    {
        string[] lines;
        try
        {
            lines = File.ReadAllLines(LockFile(cluster));
        }
        catch (IOException)
        {
            return null;
        }
        return lines.Length >= 4
            && int.TryParse(lines[0], CultureInfo.InvariantCulture, out var pid)
            && long.TryParse(lines[2], CultureInfo.InvariantCulture, out var started)
            && int.TryParse(lines[3], CultureInfo.InvariantCulture, out var port)
            ? new(pid, DateTimeOffset.FromUnixTimeSeconds(started), port)
            : null;
    }

    /// <summary>Whether that very process still runs, rather than a later one with the same number, or one that nobody has reaped.</summary>
    public bool IsAlive()
    {
        try
        {
            using var process = Process.GetProcessById(Pid);
            return process.ProcessName == "postgres" && !IsZombie() && (process.StartTime - Started).Duration() < StartTolerance;
        }
        catch (ArgumentException)
        {
            return false;
        }
        catch (InvalidOperationException)
        {
            return false;
        }
        catch (Win32Exception)
        {
            // Its start time is not ours to read; the name and number agree.
            return true;
        }
    }

    private bool IsZombie()
    {
        if (!OperatingSystem.IsLinux())
            return false;
        try
        {
            // "pid (name) state …": the name is the only field that may hold spaces or brackets.
            var stat = File.ReadAllText($"/proc/{Pid}/stat");
            return stat[(stat.LastIndexOf(')') + 1)..].TrimStart().StartsWith('Z');
        }
        catch (IOException)
        {
            return true;
        }
    }
}
