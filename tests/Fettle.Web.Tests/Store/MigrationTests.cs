using System.Globalization;
using System.Security.Cryptography;
using System.Text.RegularExpressions;
using Fettle.Testing;
using Fettle.Web.Store.Migrations;

namespace Fettle.Web.Tests.Store;

/// <summary>The files of migrations/ themselves.</summary>
public sealed partial class MigrationTests
{
    private static string[] Files => [.. Directory.EnumerateFiles(Repository.PathTo("migrations"), "*.sql").Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal)];

    [Fact]
    public void They_are_numbered_from_one_without_gaps()
    {
        Assert.NotEmpty(Files);
        Assert.All(Files, (file, index) =>
        {
            Assert.Matches(FileName(), file);
            Assert.Equal(index + 1, int.Parse(file[..4], CultureInfo.InvariantCulture));
        });
    }

    [Fact]
    public void The_portal_carries_every_one_of_them_as_it_stands() =>
        Assert.Equal(Files.Select(file => (file, Repository.Read($"migrations/{file}"))), Migration.All.Select(migration => (migration.Name, migration.Sql)));

    [Fact]
    public void Their_checksum_is_the_one_that_sha256sum_tells() =>
        Assert.All(Migration.All, migration => Assert.Equal(
            Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Repository.PathTo($"migrations/{migration.Name}")))),
            migration.Sha256));

    [Fact]
    public void A_checkout_with_Windows_line_ends_has_the_same_checksum() =>
        Assert.Equal(new Migration("a", "select 1;\nselect 2;\n").Sha256, new Migration("a", "select 1;\r\nselect 2;\r\n").Sha256);

    [Fact]
    public void None_needs_to_run_outside_a_transaction() =>
        Assert.All(Migration.All, migration => Assert.DoesNotContain("concurrently", migration.Sql, StringComparison.OrdinalIgnoreCase));

    [GeneratedRegex(@"^\d{4}_[a-z0-9_]+\.sql$")]
    private static partial Regex FileName();
}
