using Fettle.Readiness.Evidence;
using JasperFx.Metadata;
using Marten;

namespace Fettle.Web.Evidence;

/// <summary>
/// The chain of a pickup's file, as far as it has been sealed. Only ever longer: what it says of the past is what later
/// readings are held against. Of what is no event, the record itself is kept here too.
/// </summary>
public sealed class EvidenceChain : IVersioned
{
    /// <summary>The pickup's id.</summary>
    public Guid Id { get; set; }

    public IReadOnlyList<ChainLink> Links { get; set; } = [];

    /// <summary>Photos that were kept and things that were removed: facts that no event stream has.</summary>
    public IReadOnlyList<EvidenceRecord> Notes { get; set; } = [];

    /// <summary>When its photos and mails were removed for their age; null while they are kept.</summary>
    public DateTimeOffset? EmptiedAt { get; set; }

    public Guid Version { get; set; }

    public static void Configure(StoreOptions marten) => marten.Schema.For<EvidenceChain>();
}

/// <summary>How long a pickup's file was in a certain moment, and the hash that all of it hangs on.</summary>
/// <param name="Count">Records chained, 0 or more.</param>
/// <param name="Head">Hash of the last, 64 small hexadecimal digits.</param>
public sealed record EvidenceHead(int Count, string Head);
