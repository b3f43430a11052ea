using Marten;
using Npgsql;
using Weasel.Postgresql;
using Weasel.Postgresql.Tables;

namespace Fettle.Web.Photos;

/// <summary>Photos are documents; their bytes are rows of a table beside them.</summary>
public static class PhotoStorage
{
    private const string Table = "photo_bytes";

    public static void Configure(StoreOptions marten)
    {
        marten.Schema.For<Photo>().Duplicate(photo => photo.PickupId);
        var table = new Table($"{marten.DatabaseSchemaName}.{Table}");
        table.AddColumn<Guid>("id").AsPrimaryKey();
        table.AddColumn("picture", "bytea").NotNull();
        table.AddColumn("thumbnail", "bytea").NotNull();
        marten.Storage.ExtendedSchemaObjects.Add(table);
    }

    /// <summary>Adds document and bytes to a session; they are saved together or not at all. The same photo again changes nothing.</summary>
    public static void Keep(this IDocumentSession session, Photo photo, byte[] picture, byte[] thumbnail)
    {
        session.Store(photo);
        session.QueueSqlCommand($"insert into {session.DocumentStore.Options.DatabaseSchemaName}.{Table} (id, picture, thumbnail) values (?, ?, ?) on conflict (id) do nothing", photo.Id, picture, thumbnail);
    }

    /// <summary>The stored bytes; null when there are none.</summary>
    public static async Task<byte[]?> BytesAsync(this IQuerySession session, Guid id, bool thumbnail, CancellationToken cancel)
    {
        await using var command = new NpgsqlCommand($"select {(thumbnail ? "thumbnail" : "picture")} from {session.DocumentStore.Options.DatabaseSchemaName}.{Table} where id = $1");
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = id });
        await using var reader = await session.ExecuteReaderAsync(command, cancel);
        return await reader.ReadAsync(cancel) ? (byte[])reader[0] : null;
    }

    /// <summary>Takes documents and bytes away for good, in a session that somebody else saves.</summary>
    public static void Forget(this IDocumentSession session, IReadOnlyList<Guid> ids)
    {
        foreach (var id in ids)
        {
            session.Delete<Photo>(id);
            session.QueueSqlCommand($"delete from {session.DocumentStore.Options.DatabaseSchemaName}.{Table} where id = ?", id);
        }
    }
}
