using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests;

/// <summary>
/// The promises that let everything else trust the numbers: nothing but arithmetic, the same answer every time, nothing that
/// changes after it was made.
/// </summary>
public partial class ArchitectureTests
{
    private static readonly Assembly Engineering = typeof(Length).Assembly;

    [Fact]
    public void References_no_package_but_MathNet_Numerics()
    {
        var references = Engineering.GetReferencedAssemblies().Select(a => a.Name!);
        Assert.All(references, name => Assert.True(name == "MathNet.Numerics" || name.StartsWith("System.", StringComparison.Ordinal), name));
    }

    [Fact]
    public void Uses_no_clock_file_network_thread_or_chance()
    {
        string[] forbidden =
        [
            "System.IO.", "System.Net.", "System.Data.", "Microsoft.", "System.Console", "System.Random", "System.TimeProvider", "System.AppDomain",
            "System.AppContext", "System.Diagnostics.Process", "System.Diagnostics.Stopwatch", "System.Threading.Thread", "System.Threading.Timer",
            "System.Threading.Tasks.", "System.Security.", "System.DateTime", "System.DateTimeOffset", "System.Guid", "MathNet.Numerics.Random.",
        ];
        Assert.All(UsedTypes(), type => Assert.DoesNotContain(forbidden, start => type.StartsWith(start, StringComparison.Ordinal)));
        // The compiler asks an iterator's thread for its number; nothing else of the environment is used.
        Assert.DoesNotContain(UsedMembers(), member =>
            member.StartsWith("System.Environment.", StringComparison.Ordinal) && member != "System.Environment.get_CurrentManagedThreadId");
        Assert.Contains("System.Math", UsedTypes());
    }

    [Fact]
    public void Never_asks_for_the_culture_of_the_machine() =>
        Assert.DoesNotContain(UsedMembers(), member => member is "System.Globalization.CultureInfo.get_CurrentCulture" or "System.Globalization.CultureInfo.get_CurrentUICulture");

    [Fact]
    public void Nothing_that_others_can_hold_changes_after_it_was_made()
    {
        foreach (var type in Engineering.GetExportedTypes().Where(t => !t.IsEnum))
        {
            Assert.All(type.GetProperties(), p => Assert.True(p.SetMethod is not { IsPublic: true } set || IsInit(set), $"{type}.{p.Name} can be set."));
            Assert.All(
                type.GetFields(BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly),
                f => Assert.True(f.IsInitOnly || f.IsLiteral || IsBackingOfInit(f), $"{type}.{f.Name} can be changed."));
        }

        static bool IsInit(MethodInfo set) => set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));
        static bool IsBackingOfInit(FieldInfo f) => f.IsPrivate && f.IsDefined(typeof(CompilerGeneratedAttribute));
    }

    [Fact]
    public void Every_page_that_the_code_or_the_index_names_is_there()
    {
        var pages = Path.Combine(Root(), "docs", "engineering");
        var index = File.ReadAllText(Path.Combine(pages, "README.md"));
        var named = Directory.EnumerateFiles(Path.Combine(Root(), "src", "Fettle.Engineering"), "*.cs", SearchOption.AllDirectories)
            .SelectMany(file => PageName().Matches(File.ReadAllText(file)).Select(m => m.Groups[1].Value))
            .Distinct()
            .ToArray();
        Assert.NotEmpty(named);
        Assert.All(named, page => Assert.True(File.Exists(Path.Combine(pages, page)), $"docs/engineering/{page} is named in the code and not there."));
        Assert.All(LinkTarget().Matches(index).Select(m => m.Groups[1].Value), page =>
            Assert.True(File.Exists(Path.Combine(pages, page)), $"{page} is in the index and not there."));
    }

    [GeneratedRegex(@"docs/engineering/([a-z0-9-]+\.md)")]
    private static partial Regex PageName();

    [GeneratedRegex(@"\]\(([a-z0-9-]+\.md)\)")]
    private static partial Regex LinkTarget();

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "Fettle.slnx")))
            folder = folder.Parent;
        return folder.FullName;
    }

    private static HashSet<string> UsedTypes() => Read(reader => reader.TypeReferences.Select(handle => Name(reader, handle)));

    private static HashSet<string> UsedMembers() => Read(reader => reader.MemberReferences
        .Select(reader.GetMemberReference)
        .Where(member => member.Parent.Kind == HandleKind.TypeReference)
        .Select(member => $"{Name(reader, (TypeReferenceHandle)member.Parent)}.{reader.GetString(member.Name)}"));

    private static string Name(MetadataReader reader, TypeReferenceHandle handle)
    {
        var type = reader.GetTypeReference(handle);
        return $"{reader.GetString(type.Namespace)}.{reader.GetString(type.Name)}";
    }

    private static HashSet<string> Read(Func<MetadataReader, IEnumerable<string>> names)
    {
        using var file = new PEReader(File.OpenRead(Engineering.Location));
        return [.. names(file.GetMetadataReader())];
    }
}
