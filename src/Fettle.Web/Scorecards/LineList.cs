using System.Globalization;
using Fettle.Readiness.Scorecards;
using Marten;
using Npgsql;

namespace Fettle.Web.Scorecards;

/// <summary>Which lines are behind a figure: those of the scope that count for it, and that lie in one part of the account.</summary>
/// <param name="What">The figure.</param>
/// <param name="Week">A Monday, of the days of whose week those in the period are meant; null for the whole period.</param>
/// <param name="Builder">Empty for lines of which it was not told; null for all.</param>
/// <param name="Freight">A key of <see cref="CellKeys.Freight"/>; null for all.</param>
/// <param name="Finding">Lines with this finding; null for all.</param>
/// <param name="Stop">Lines that this finding stopped; null for all.</param>
public sealed record LineQuestion(Tallied What, DateOnly? Week = null, Guid? Site = null, string? Builder = null, string? Freight = null, string? Finding = null, string? Stop = null)
{
    /// <summary>The same as a query string, "?what=held&amp;…".</summary>
    public string Query(int months, int page = 1)
    {
        var parts = new List<string> { $"what={LineRecord.NameOf(What)}" };
        Add("months", months == Period.Usual ? null : months.ToString(CultureInfo.InvariantCulture));
        Add("week", Week?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        Add("site", Site?.ToString());
        // An empty text in a query string is no text.
        Add(Builder is "" ? "noBuilder" : "builder", Builder is "" ? "true" : Builder);
        Add("freight", Freight);
        Add("finding", Finding);
        Add("stop", Stop);
        Add("page", page == 1 ? null : page.ToString(CultureInfo.InvariantCulture));
        return "?" + string.Join('&', parts);

        void Add(string key, string? value)
        {
            if (value is not null)
                parts.Add($"{key}={Uri.EscapeDataString(value)}");
        }
    }
}

/// <summary>The lines behind a figure, newest first, a page at a time.</summary>
/// <param name="Count">How many there are on all pages.</param>
/// <param name="Total">What they add up to: the figure.</param>
public sealed record LineList(IReadOnlyList<LineRecord> Lines, long Count, long Total, long Units, int Page, int Pages)
{
    public const int PageSize = 50;

    public static async Task<LineList> OfAsync(IDocumentStore store, Scope scope, LineQuestion question, int page, CancellationToken cancel)
    {
        var (where, parameters) = Where(scope, question);
        var (count, total, units) = await SumAsync(store, where, parameters, LineRecord.NameOf(question.What), cancel);
        var pages = (int)Math.Max(1, (count + PageSize - 1) / PageSize);
        var shown = Math.Clamp(page, 1, pages);
        await using var session = store.QuerySession();
        var lines = await session.QueryAsync<LineRecord>(
            string.Create(CultureInfo.InvariantCulture, $"where {where} order by d.at desc, d.id limit {PageSize} offset {(shown - 1) * PageSize}"),
            cancel,
            parameters);
        return new(lines, count, total, units, shown, pages);
    }

    private static (string Sql, object[] Parameters) Where(Scope scope, LineQuestion question)
    {
        var parameters = new List<object>();
        var all = new List<string>();
        Must("d.shipper_id = any(?)", scope.ShipperIds.ToArray());
        if (scope.CarrierId is { } carrier)
            Must("d.carrier_id = ?", carrier);
        if (scope.SiteIds is { } sites)
            Must("d.data -> 'line' -> 'declared' ->> 'siteId' = any(?)", sites.Select(site => site.ToString()).ToArray());
        Must("d.at >= ?", At(scope.Period.From));
        Must("d.at < ?", At(scope.Period.Until));
        if (question.Week is { } week)
        {
            Must("d.at >= ?", At(week));
            Must("d.at < ?", At(week.AddDays(7)));
        }

        Must("(d.data -> 'counts' ->> ?) is not null", LineRecord.NameOf(question.What));
        if (question.Site is { } site)
            Must("d.data -> 'line' -> 'declared' ->> 'siteId' = ?", site.ToString());
        if (question.Builder is { } builder)
            Must("d.data -> 'line' -> 'declared' ->> 'builder' = ?", builder);
        if (question.Finding is { } finding)
            Must("(d.data -> 'line' -> 'declared' -> 'findings') @> to_jsonb(?::text)", finding);
        if (question.Stop is { } stop)
            Must("(d.data -> 'line' -> 'declared' -> 'stops') @> to_jsonb(?::text)", stop);
        if (question.Freight is { } freight)
            Must("d.data ->> 'freight' = ?", freight);
        return (string.Join(" and ", all), [.. parameters]);

        void Must(string sql, object value)
        {
            all.Add(sql);
            parameters.Add(value);
        }
    }

    private static DateTimeOffset At(DateOnly day) => new(day.ToDateTime(TimeOnly.MinValue), TimeSpan.Zero);

    private static async Task<(long Count, long Total, long Units)> SumAsync(IDocumentStore store, string where, object[] parameters, string what, CancellationToken cancel)
    {
        await using var connection = store.Storage.Database.CreateConnection();
        await connection.OpenAsync(cancel);
        await using var command = new NpgsqlCommand { Connection = connection };
        var numbered = where.Split('?');
        var sql = numbered[0];
        for (var i = 1; i < numbered.Length; i++)
        {
            sql += $"${i}{numbered[i]}";
            command.Parameters.Add(new NpgsqlParameter { Value = parameters[i - 1] });
        }

        command.Parameters.Add(new NpgsqlParameter { Value = what });
        command.CommandText = $"select count(*), coalesce(sum((d.data -> 'counts' ->> ${numbered.Length})::bigint), 0)::bigint, coalesce(sum((d.data -> 'counts' ->> 'units')::bigint), 0)::bigint from fettle.mt_doc_linerecord as d where {sql}";
        await using var row = await command.ExecuteReaderAsync(cancel);
        await row.ReadAsync(cancel);
        return (row.GetInt64(0), row.GetInt64(1), row.GetInt64(2));
    }
}
