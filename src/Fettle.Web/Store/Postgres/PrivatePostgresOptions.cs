using System.Security.Cryptography;
using System.Text;

namespace Fettle.Web.Store.Postgres;

/// <summary>Where the private server keeps its data, and which binaries it runs.</summary>
public sealed record PrivatePostgresOptions
{
    /// <summary>
    /// The folder for everything the server keeps: its cluster, password and log. Made when absent.
    /// Run as root, each parent must be searchable by the account the server drops to.
    /// </summary>
    public required string DataFolder { get; init; }

    /// <summary>
    /// The folder that holds <c>postgres</c>, <c>initdb</c> and <c>pg_ctl</c>; <c>npm</c> for the ones the build
    /// brought; null (the default) to take the environment's <c>FETTLE_POSTGRES</c>, or else to look for them.
    /// </summary>
    public string? BinFolder { get; init; }

    /// <summary>The database to make on first start. Default <c>fettle</c>.</summary>
    public string Database { get; init; } = "fettle";

    /// <summary>Default true. False turns fsync off: an order of magnitude faster, and only for data that may be lost, as in tests.</summary>
    public bool Durable { get; init; } = true;

    /// <summary>Connections that one data source may hold, at least 1. Default 40, of the server's 300.</summary>
    public int MaxPoolSize { get; init; } = 40;

    /// <summary>
    /// The data folder of a checkout or installation: under <c>/var/lib/fettle</c> for root (whose home the server's
    /// account cannot enter), else in the user's local application data.
    /// </summary>
    public static string DefaultDataFolder(string contentRoot)
    {
        var root = Path.TrimEndingDirectorySeparator(Path.GetFullPath(contentRoot));
        var name = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(root)))[..12];
        if (!OperatingSystem.IsWindows() && Environment.IsPrivilegedProcess)
            return $"/var/lib/fettle/{name}";
        var home = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return Path.Combine(home.Length > 0 ? home : Path.GetTempPath(), "fettle", name);
    }
}
