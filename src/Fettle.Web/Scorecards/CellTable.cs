using System.Globalization;
using System.Text;
using System.Text.Json;
using Fettle.Readiness.Scorecards;
using Marten;
using Npgsql;
using Weasel.Core;
using Weasel.Postgresql;
using Weasel.Postgresql.Tables;

namespace Fettle.Web.Scorecards;

/// <summary>
/// The cells as rows: a plain table, since they are only ever added to and added up, which the database does best. One row a
/// cell, one column a count.
/// </summary>
public static class CellTable
{
    public static readonly DbObjectName Name = new PostgresqlObjectName("fettle", "score_cells", SchemaUtils.IdentifierUsage.General);

    /// <summary>The columns that are a cell, in the order of the key.</summary>
    private static readonly (string Name, string Type)[] Keys =
        [("carrier_id", "uuid"), ("shipper_id", "uuid"), ("facet", "varchar"), ("since", "date"), ("site_id", "uuid"), ("key", "text")];

    private static readonly string[] Counts = [.. Tally.All.Select(ColumnOf)];

    /// <summary>All counts as sums, in the order of <see cref="Tally.All"/>.</summary>
    public static readonly string Sums = SumsOf(Tally.All);

    // Rows are added in the order of the key: two transactions that touch the same cells then wait, and never for each other.
    private static readonly string Upsert = $"""
        insert into {Name.QualifiedName} ({Join(Keys.Select(key => key.Name))}, {Join(Counts)})
        select {Join(Keys.Select(key => key.Name))}, {Join(Counts.Select(count => $"coalesce({count}, 0)"))}
        from jsonb_to_recordset(?::jsonb) as more({Join(Keys.Select(key => $"{key.Name} {key.Type}"))}, {Join(Tally.All.Select(what => $"{ColumnOf(what)} {TypeOf(what)}"))})
        order by {Join(Keys.Select(key => key.Name))}
        on conflict ({Join(Keys.Select(key => key.Name))}) do update set {Join(Counts.Select(count => $"{count} = {Name.Name}.{count} + excluded.{count}"))}
        """;

    public static Table Schema()
    {
        var table = new Table(Name);
        foreach (var (name, type) in Keys)
            table.AddColumn(name, type).AsPrimaryKey();
        foreach (var what in Tally.All)
            table.AddColumn(ColumnOf(what), TypeOf(what)).NotNull();
        return table;
    }

    /// <summary>A count's column: "held_units".</summary>
    public static string ColumnOf(Tallied what) => JsonNamingPolicy.SnakeCaseLower.ConvertName(what.ToString());

    /// <summary>Some counts as sums, in their order.</summary>
    public static string SumsOf(IEnumerable<Tallied> counts) => Join(counts.Select(count => $"sum({ColumnOf(count)})::bigint"));

    /// <summary>Sums of plain integers stay plain; those of wide ones the database adds up several times as slowly.</summary>
    private static string TypeOf(Tallied what) => what is Tallied.HeldMinutes or Tallied.ClaimedCents or Tallied.ClaimPaidCents ? "bigint" : "integer";

    /// <summary>Adds a sheet to what is stored, in the session's transaction.</summary>
    public static void Add(IDocumentOperations operations, CellSheet sheet)
    {
        if (!sheet.Cells.IsEmpty)
            operations.QueueSqlCommand(Upsert, Json(sheet));
    }

    /// <summary>The counts of a row that has all of them from a column on, in the order of <see cref="Tally.All"/>.</summary>
    public static Tally Read(NpgsqlDataReader row, int from) => Read(row, from, Tally.All);

    /// <summary>The same of <see cref="SumsOf"/>: all other counts are noughts.</summary>
    public static Tally Read(NpgsqlDataReader row, int from, IReadOnlyList<Tallied> counts) => Tally.From(counts.Select((what, index) => (what, row.GetInt64(from + index))));

    private static string Json(CellSheet sheet)
    {
        using var memory = new MemoryStream();
        using (var json = new Utf8JsonWriter(memory))
        {
            json.WriteStartArray();
            foreach (var (cell, tally) in sheet.Cells)
            {
                json.WriteStartObject();
                json.WriteString("carrier_id", cell.CarrierId);
                json.WriteString("shipper_id", cell.ShipperId);
                json.WriteString("site_id", cell.SiteId);
                json.WriteString("facet", cell.Facet.ToString());
                json.WriteString("since", cell.Since.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
                json.WriteString("key", cell.Key);
                foreach (var what in Tally.All)
                {
                    if (tally[what] != 0)
                        json.WriteNumber(ColumnOf(what), tally[what]);
                }

                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        return Encoding.UTF8.GetString(memory.ToArray());
    }

    private static string Join(IEnumerable<string> parts) => string.Join(", ", parts);
}
