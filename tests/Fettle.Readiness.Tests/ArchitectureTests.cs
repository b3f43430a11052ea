using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Runtime.CompilerServices;
using Fettle.Readiness.Rules;

namespace Fettle.Readiness.Tests;

/// <summary>The promises that make a decision repeatable: arithmetic only, the same answer every time, nothing that changes after it was made.</summary>
public class ArchitectureTests
{
    private static readonly Assembly Readiness = typeof(ReadinessCheck).Assembly;

    [Fact]
    public void References_nothing_but_the_engineering_and_the_framework()
    {
        var references = Readiness.GetReferencedAssemblies().Select(a => a.Name!).ToArray();
        Assert.Contains("Fettle.Engineering", references);
        Assert.All(references, name => Assert.True(name == "Fettle.Engineering" || name.StartsWith("System.", StringComparison.Ordinal), name));
    }

    [Fact]
    public void Uses_no_clock_file_network_thread_or_chance()
    {
        string[] forbidden =
        [
            "System.IO.", "System.Net.", "System.Data.", "Microsoft.", "System.Console", "System.Random", "System.TimeProvider", "System.TimeZoneInfo",
            "System.AppDomain", "System.AppContext", "System.Diagnostics.Process", "System.Diagnostics.Stopwatch", "System.Threading.Thread",
            "System.Threading.Timer", "System.Threading.Tasks.", "System.Security.",
        ];
        // Compiler attributes speak of nullable references and embedded code, not of what runs.
        Assert.All(
            // A hash is arithmetic: the chain of evidence is made of it.
            UsedTypes().Where(type => !type.EndsWith("Attribute", StringComparison.Ordinal) && type != "System.Security.Cryptography.SHA256"),
            type => Assert.DoesNotContain(forbidden, start => type.StartsWith(start, StringComparison.Ordinal)));
        Assert.Contains("System.Math", UsedTypes());
    }

    [Fact]
    public void Asks_neither_for_the_time_nor_for_a_new_id_nor_for_the_machine()
    {
        string[] forbidden =
        [
            "System.DateTime.get_Now", "System.DateTime.get_UtcNow", "System.DateTime.get_Today", "System.DateTimeOffset.get_Now", "System.DateTimeOffset.get_UtcNow",
            "System.DateTimeOffset.get_LocalDateTime", "System.DateTimeOffset.ToLocalTime", "System.Guid.NewGuid", "System.Guid.CreateVersion7",
            "System.Globalization.CultureInfo.get_CurrentCulture", "System.Globalization.CultureInfo.get_CurrentUICulture",
        ];
        Assert.All(UsedMembers(), member => Assert.DoesNotContain(member, forbidden));
        // The compiler asks an iterator's thread for its number; nothing else of the environment is used.
        Assert.DoesNotContain(UsedMembers(), member =>
            member.StartsWith("System.Environment.", StringComparison.Ordinal) && member != "System.Environment.get_CurrentManagedThreadId");
        // The list is looked for in the right place: this one is used.
        Assert.Contains("System.Globalization.CultureInfo.get_InvariantCulture", UsedMembers());
    }

    [Fact]
    public void Nothing_that_others_can_hold_changes_after_it_was_made()
    {
        foreach (var type in Readiness.GetExportedTypes().Where(t => !t.IsEnum))
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
    public void No_two_kinds_of_event_have_one_simple_name()
    {
        // The event store would read one as the other.
        var names = Readiness.GetExportedTypes().Where(type => type.BaseType is { IsAbstract: true } parent && parent.Name.EndsWith("Event", StringComparison.Ordinal)).Select(type => type.Name).ToArray();
        Assert.NotEmpty(names);
        Assert.Equal(names.Distinct(), names);
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
        using var file = new PEReader(File.OpenRead(Readiness.Location));
        return [.. names(file.GetMetadataReader())];
    }
}
