using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;
using Fettle.Readiness;
using Fettle.Testing;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using JasperFx;
using JasperFx.Events;
using Marten;

namespace Fettle.Web.Tests.Store;

/// <summary>
/// Marten makes up a mapping for any type that it meets, which then lacks its table where only migrations change the
/// schema. So every type that is stored must be listed in <see cref="StoreSetup.Configure"/>.
/// </summary>
public sealed class StoredTypesTests
{
    /// <summary>Calls whose type argument is a document.</summary>
    private static readonly HashSet<string> DocumentCalls =
        ["Query", "LoadAsync", "LoadManyAsync", "CheckExistsAsync", "Store", "Insert", "Update", "Delete", "DeleteWhere", "UpdateRevision", "UpdateExpectedVersion", "FetchForWriting", "FetchLatest", "StreamAsJson", "Json"];

    private static readonly IReadOnlyStoreOptions Options = Configured();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public void Every_type_that_the_code_stores_or_asks_for_is_registered()
    {
        var registered = Options.AllKnownDocumentTypes().Select(known => known.DocumentType.FullName!).ToHashSet();
        var used = UsedDocuments();

        Assert.Contains("Fettle.Web.Notices.Notice", used);
        Assert.Empty(used.Except(registered));
    }

    [Fact]
    public void Every_event_is_registered()
    {
        var events = typeof(Decision<>).Assembly.GetTypes()
            .Where(type => type is { IsAbstract: false, BaseType: { IsAbstract: true } kind } && kind.Name.EndsWith("Event", StringComparison.Ordinal))
            .ToList();
        var registered = Options.Events.AllKnownEventTypes().Select(known => known.EventType).ToHashSet();

        Assert.NotEmpty(events);
        Assert.Empty(events.Where(type => !registered.Contains(type)).Select(type => type.Name));
    }

    [Fact]
    public void No_two_events_share_a_stored_name()
    {
        var names = Options.Events.AllKnownEventTypes().Select(known => known.EventTypeName).ToList();

        Assert.Equal(names.Distinct(), names);
    }

    [Fact]
    public async Task Every_registered_document_can_be_asked_for_where_only_migrations_make_tables()
    {
        var database = await TestPostgres.CreateDatabaseAsync();
        await Migrator.ApplyAsync(database, Migration.All, Cancel);
        await using var store = DocumentStore.For(options =>
        {
            options.Connection(database);
            StoreSetup.Configure(options);
            options.AutoCreateSchemaObjects = AutoCreate.None;
        });
        var ours = Options.AllKnownDocumentTypes().Select(known => known.DocumentType).Where(type => type.Assembly.GetName().Name!.StartsWith("Fettle.", StringComparison.Ordinal)).ToList();

        Assert.NotEmpty(ours);
        foreach (var document in ours)
            await (Task)typeof(StoredTypesTests).GetMethod(nameof(AskAsync), BindingFlags.NonPublic | BindingFlags.Static)!.MakeGenericMethod(document).Invoke(null, [store])!;
    }

    private static async Task AskAsync<T>(IDocumentStore store) where T : notnull
    {
        await using var session = store.QuerySession();
        Assert.Empty(await session.Query<T>().ToListAsync(Cancel));
    }

    private static StoreOptions Configured()
    {
        using var store = DocumentStore.For(options =>
        {
            options.Connection("Host=nowhere.invalid");
            StoreSetup.Configure(options);
        });
        return store.Options;
    }

    /// <summary>The type arguments of calls to Marten in the portal's own code, read from its metadata.</summary>
    private static HashSet<string> UsedDocuments()
    {
        using var file = new PEReader(File.OpenRead(typeof(StoreSetup).Assembly.Location));
        var reader = file.GetMetadataReader();
        var used = new HashSet<string>();
        for (var row = 1; row <= reader.GetTableRowCount(TableIndex.MethodSpec); row++)
        {
            var call = reader.GetMethodSpecification(MetadataTokens.MethodSpecificationHandle(row));
            if (call.Method.Kind != HandleKind.MemberReference)
                continue;
            var method = reader.GetMemberReference((MemberReferenceHandle)call.Method);
            if (!DocumentCalls.Contains(reader.GetString(method.Name)) || !IsMartens(reader, method.Parent))
                continue;
            used.UnionWith(call.DecodeSignature(new Names(), null).Where(name => name.StartsWith("Fettle.", StringComparison.Ordinal)).Select(name => name.TrimEnd('[', ']')));
        }

        return used;
    }

    private static bool IsMartens(MetadataReader reader, EntityHandle parent) =>
        parent.Kind == HandleKind.TypeReference && reader.GetString(reader.GetTypeReference((TypeReferenceHandle)parent).Namespace).StartsWith("Marten", StringComparison.Ordinal);

    /// <summary>Full names of plain types; of generic ones the argument is what matters, since documents are not generic.</summary>
    private sealed class Names : ISignatureTypeProvider<string, object?>
    {
        public string GetTypeFromDefinition(MetadataReader reader, TypeDefinitionHandle handle, byte rawTypeKind)
        {
            var type = reader.GetTypeDefinition(handle);
            return type.IsNested ? $"{GetTypeFromDefinition(reader, type.GetDeclaringType(), 0)}+{reader.GetString(type.Name)}" : $"{reader.GetString(type.Namespace)}.{reader.GetString(type.Name)}";
        }

        public string GetTypeFromReference(MetadataReader reader, TypeReferenceHandle handle, byte rawTypeKind)
        {
            var type = reader.GetTypeReference(handle);
            return $"{reader.GetString(type.Namespace)}.{reader.GetString(type.Name)}";
        }

        public string GetGenericInstantiation(string genericType, System.Collections.Immutable.ImmutableArray<string> typeArguments) => genericType;

        public string GetSZArrayType(string elementType) => elementType;

        public string GetArrayType(string elementType, ArrayShape shape) => elementType;

        public string GetByReferenceType(string elementType) => elementType;

        public string GetPointerType(string elementType) => elementType;

        public string GetPinnedType(string elementType) => elementType;

        public string GetModifiedType(string modifier, string unmodifiedType, bool isRequired) => unmodifiedType;

        public string GetFunctionPointerType(MethodSignature<string> signature) => "";

        public string GetGenericMethodParameter(object? genericContext, int index) => "";

        public string GetGenericTypeParameter(object? genericContext, int index) => "";

        public string GetPrimitiveType(PrimitiveTypeCode typeCode) => "";

        public string GetTypeFromSpecification(MetadataReader reader, object? genericContext, TypeSpecificationHandle handle, byte rawTypeKind) => "";
    }
}
