using Fettle.Engineering.Identification;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.HandlingUnits;
using Fettle.Web.Parties;
using Fettle.Web.Store;
using Marten;
using Npgsql;
using Weasel.Postgresql;

namespace Fettle.Web.HandlingUnits;

/// <summary>
/// Running numbers for handling units, one sequence of the database for everybody: no two submissions ever get the same,
/// on whichever node. One that fails leaves a gap, which does no harm.
/// </summary>
public static class UnitSerials
{
    private const string Name = "unit_serial";

    public static void Configure(StoreOptions marten) =>
        marten.Storage.ExtendedSchemaObjects.Add(new Sequence(new PostgresqlObjectName(StoreSetup.Schema, Name, SchemaUtils.IdentifierUsage.General), 1));

    /// <summary>Numbers for every unit of a declaration, taken in one query; none are taken for a shipper without a company prefix.</summary>
    public static async Task<IReadOnlyList<UnitNumber>> NumberAsync(IQuerySession session, Declaration declaration, Shipper shipper, CancellationToken cancel)
    {
        var count = declaration.HandlingUnits.Sum(line => line.Quantity);
        // The decider refuses so many.
        if (count > UnitNumber.MostOfPickup)
            return [];
        if (shipper.CompanyPrefix is not { } prefix || count == 0)
            return UnitNumber.For(declaration, _ => null);
        var serials = new List<long>(count);
        await using var command = new NpgsqlCommand($"select nextval('{StoreSetup.Schema}.{Name}') from generate_series(1, $1)");
        command.Parameters.AddWithValue(count);
        await using var reader = await session.ExecuteReaderAsync(command, cancel);
        while (await reader.ReadAsync(cancel))
            serials.Add(reader.GetInt64(0));
        return UnitNumber.For(declaration, place => Sscc.OfNumber(prefix, serials[place]));
    }
}
