using System.Security.Cryptography;
using System.Text;

namespace Fettle.Web.Store.Migrations;

/// <summary>One numbered file of <c>migrations/</c>, which the build puts into this assembly.</summary>
/// <param name="Name">File name, such as "0001_initial.sql". Names sort in the order of application.</param>
public sealed record Migration(string Name, string Sql)
{
    private const string ResourceFolder = "migrations/";

    /// <summary>All of this version of the portal, in order.</summary>
    public static IReadOnlyList<Migration> All { get; } = Read();

    /// <summary>What <c>sha256sum</c> says of the file with Unix line ends, in small hexadecimal.</summary>
    public string Sha256 => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Sql.ReplaceLineEndings("\n"))));

    private static IReadOnlyList<Migration> Read()
    {
        var assembly = typeof(Migration).Assembly;
        return
        [
            .. assembly.GetManifestResourceNames()
                .Where(resource => resource.StartsWith(ResourceFolder, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(resource =>
                {
                    using var reader = new StreamReader(assembly.GetManifestResourceStream(resource)!);
                    return new Migration(resource[ResourceFolder.Length..], reader.ReadToEnd());
                }),
        ];
    }
}
