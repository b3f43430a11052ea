using Marten;

namespace Fettle.Web.Parties;

/// <summary>A firm that hands freight over.</summary>
public sealed record Shipper
{
    public Guid Id { get; init; }

    public required string Name { get; init; }

    /// <summary>Where mail about its freight goes.</summary>
    public required string Email { get; init; }

    /// <summary>The shipper's GS1 company prefix, of which the numbers of its handling units are made; null when it has none, and then its units have no SSCC.</summary>
    public string? CompanyPrefix { get; init; }

    public required IReadOnlyList<Site> Sites { get; init; }
}

/// <summary>A dock of a shipper.</summary>
/// <param name="TimeZone">IANA name; pickup windows are meant in it.</param>
public sealed record Site(Guid Id, string Name, string Address, string TimeZone);

/// <summary>A firm that moves freight.</summary>
public sealed record Carrier
{
    public Guid Id { get; init; }

    public required string Name { get; init; }

    public required IReadOnlyList<Terminal> Terminals { get; init; }
}

/// <summary>Where a carrier first receives freight, and may hold it.</summary>
/// <param name="Email">Where the terminal is told of pickups.</param>
public sealed record Terminal(Guid Id, string Name, string Address, string Email, string TimeZone);

public static class PartyStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Schema.For<Shipper>();
        marten.Schema.For<Carrier>();
    }
}
