using System.Text.Json.Serialization;
using Fettle.Readiness;
using Fettle.Readiness.Catalogue;
using Fettle.Readiness.Declarations;
using JasperFx.Metadata;
using Marten;

namespace Fettle.Web.Catalogue;

/// <summary>
/// Something that a shipper declares again and again, under the shipper's own name for it. Renamed and retired, never
/// changed: a carton of another size is another carton.
/// </summary>
public sealed class CatalogueEntry : IVersioned
{
    public const int LongestName = 60;

    public Guid Id { get; set; }

    public required Guid ShipperId { get; set; }

    public required CatalogueKind Kind { get; set; }

    public required string Name { get; set; }

    /// <summary>The name as it is compared: no two of a shipper's cartons differ by case alone.</summary>
    public string NameKey => KeyOf(Name);

    // One of these, as the kind says.
    public Carton? Carton { get; set; }

    public Platform? Platform { get; set; }

    public StandardBuild? Build { get; set; }

    /// <summary>The dock where it was saved, which is told when a build no longer passes.</summary>
    public required Guid SiteId { get; set; }

    public required Actor ChangedBy { get; set; }

    public required DateTimeOffset ChangedAt { get; set; }

    /// <summary>No longer offered. Its name stays taken, so that a paper that names it means one thing.</summary>
    public DateTimeOffset? RetiredAt { get; set; }

    public Guid Version { get; set; }

    [JsonIgnore]
    public bool IsRetired => RetiredAt is not null;

    [JsonIgnore]
    public bool Passes => Build?.Passes ?? true;

    public static string KeyOf(string name) => name.Trim().ToUpperInvariant();

    public static void Configure(StoreOptions marten) =>
        marten.Schema.For<CatalogueEntry>()
            .Duplicate(entry => entry.ShipperId)
            .UniqueIndex(entry => entry.ShipperId, entry => entry.Kind, entry => entry.NameKey);
}

public enum CatalogueKind
{
    Carton,
    Platform,
    Build,
}
