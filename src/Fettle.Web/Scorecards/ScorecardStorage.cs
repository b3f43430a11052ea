using System.Text.Json;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Store;
using JasperFx.Events.Projections;
using JasperFx.Metadata;
using Marten;

namespace Fettle.Web.Scorecards;

public static class ScorecardStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Storage.ExtendedSchemaObjects.Add(CellTable.Schema());
        // Rebuilt by ScorecardRebuild alone: the daemon reads a page of events before the page before it is stored.
        marten.Projections.Add(new ScorecardProjection(), ProjectionLifecycle.Inline);
        marten.Schema.For<LineRecord>()
            .Duplicate(line => line.CarrierId)
            .Duplicate(line => line.ShipperId)
            .Duplicate(line => line.At)
            .Index(line => new { line.ShipperId, line.CarrierId, line.At });
        marten.Schema.For<LineOfHold>();
        marten.Schema.For<SavedView>().Duplicate(view => view.PersonId);
    }
}

/// <summary>
/// One line of a submitted pickup with all that became of it: what the cells were counted from, and what is shown when
/// somebody asks which units are behind a figure.
/// </summary>
public sealed record LineRecord : IVersioned
{
    public Guid Id { get; init; }

    public required Guid CarrierId { get; init; }

    public required Guid ShipperId { get; init; }

    /// <summary>When it was handed in, UTC.</summary>
    public required DateTimeOffset At { get; init; }

    public required ScoredLine Line { get; init; }

    /// <summary>Its lane and product, as a key of <see cref="CellKeys.Freight"/>.</summary>
    public required string Freight { get; init; }

    /// <summary>What the line counts for, by the name of the count, noughts left out.</summary>
    public required IReadOnlyDictionary<string, long> Counts { get; init; }

    /// <summary>Two facts about one line that come at once must not both be counted upon the same state of it.</summary>
    public Guid Version { get; set; }

    public static Guid IdOf(LineKey line) => StableId.From("line", line.PickupId, line.Reference);

    /// <summary>A count's name as stored.</summary>
    public static string NameOf(Tallied what) => JsonNamingPolicy.CamelCase.ConvertName(what.ToString());

    public static LineRecord Of(ScoredLine line, Guid version)
    {
        var tally = Tally.Of(line);
        return new()
        {
            Id = IdOf(line.Declared.Line),
            CarrierId = line.Declared.CarrierId,
            ShipperId = line.Declared.ShipperId,
            At = line.Declared.At.ToUniversalTime(),
            Line = line,
            Freight = CellKeys.Freight(line.Declared.Lane, line.Declared.Product),
            Counts = Tally.All.Where(what => tally[what] != 0).ToDictionary(NameOf, what => tally[what]),
            Version = version,
        };
    }
}

/// <summary>Which line a hold was placed on: a decision names only the hold.</summary>
public sealed record LineOfHold
{
    /// <summary>The hold's.</summary>
    public Guid Id { get; init; }

    public required Guid PickupId { get; init; }

    public required string Reference { get; init; }
}
