using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Demo;

/// <summary>That the demo was loaded into this database, and how far. There is one; its absence means that it never was.</summary>
public sealed record DemoLoad
{
    public static readonly Guid OnlyId = StableId.From("demo", "load");

    public Guid Id { get; init; } = OnlyId;

    /// <summary>The moment that the year is counted back from, however often the load is taken up again.</summary>
    public required DateTimeOffset StartedAt { get; init; }

    /// <summary>When keys that nobody had chosen were issued; they are shown once.</summary>
    public DateTimeOffset? KeysIssuedAt { get; init; }

    /// <summary>When the year of history was complete.</summary>
    public DateTimeOffset? FinishedAt { get; init; }

    public static void Configure(StoreOptions marten) => marten.Schema.For<DemoLoad>();
}
