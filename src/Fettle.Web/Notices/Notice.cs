using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Evidence;
using Fettle.Web.Parties;
using JasperFx.Metadata;
using Marten;

namespace Fettle.Web.Notices;

/// <summary>
/// A mail that is owed to somebody: written with the event that calls for it, kept after it is sent. Its id follows from
/// the event and the recipient, so that a job that runs twice owes one mail.
/// </summary>
public sealed class Notice : IVersioned
{
    public Guid Id { get; set; }

    public required NoticeKind Kind { get; set; }

    /// <summary>Empty for a notice that is about no pickup.</summary>
    public required Guid PickupId { get; set; }

    /// <summary>The hold it is about; null for a notice of a whole pickup.</summary>
    public Guid? HoldId { get; set; }

    /// <summary>What happened to the hold, among its events; null for a notice of anything else.</summary>
    public Guid? StepId { get; set; }

    /// <summary>The outcome it is about: overtaken once another has replaced it. Null for any other notice.</summary>
    public Guid? OutcomeId { get; set; }

    /// <summary>The dock visit it is about, and as what it stood then; null for any other notice.</summary>
    public Guid? VisitId { get; set; }

    public int? VisitRevision { get; set; }

    /// <summary>The claim it is about, and as what it stood then; null for any other notice.</summary>
    public Guid? ClaimId { get; set; }

    public int? ClaimRevision { get; set; }

    /// <summary>The rules that changed; null for a notice about freight.</summary>
    public RuleSetVersion? RuleSet { get; set; }

    /// <summary>The file of the pickup as it was when the mail was first sent, for its foot: kept, so that a second try sends the same mail. Null before that, and for what is about no pickup.</summary>
    public EvidenceHead? Evidence { get; set; }
    /// <summary>The week that it tells of, as it was when it was written; null for any other notice.</summary>
    public WeekDigest? Digest { get; set; }

    /// <summary>The person whom it is written to, who may read it here; null for a notice to a party.</summary>
    public Guid? PersonId { get; set; }

    /// <summary>What people call its subject: the pickup's or the hold's number.</summary>
    public required string About { get; set; }

    public required string To { get; set; }

    public required string ToName { get; set; }

    /// <summary>Code of the language that it is written in; null for English. Kept, so that a mail is read again as it was sent.</summary>
    public string? Language { get; set; }

    // Whose freight it is about decides who may read it.
    public required Guid ShipperId { get; set; }

    public required Guid SiteId { get; set; }

    public required Guid CarrierId { get; set; }

    public required Guid TerminalId { get; set; }

    public NoticeState State { get; set; } = NoticeState.Due;

    public required DateTimeOffset CreatedAt { get; set; }

    /// <summary>When it is tried next; what it waits for while <see cref="NoticeState.Due"/>.</summary>
    public required DateTimeOffset DueAt { get; set; }

    /// <summary>While <see cref="NoticeState.Sending"/>: after this moment whoever sends it is taken to have died.</summary>
    public DateTimeOffset? SendingUntil { get; set; }

    public int Tries { get; set; }

    /// <summary>
    /// When it was first tried, or tried anew because a person said so: how long it has been tried counts from here, and not
    /// from the day on which a reminder was written. Null before the first try.
    /// </summary>
    public DateTimeOffset? TriedSince { get; set; }

    /// <summary>Why the last try failed, in words for a person.</summary>
    public string? LastError { get; set; }

    public DateTimeOffset? SentAt { get; set; }

    public Guid Version { get; set; }

    /// <summary>The same on every try, so that a mail system can drop a second copy.</summary>
    public string MessageId => $"{Id:N}@fettle.example";

    /// <summary>A notice about freight of a pickup, which whoever may see that may read.</summary>
    /// <param name="about">What people call its subject.</param>
    /// <param name="at">When what it tells happened.</param>
    public static Notice Of(Guid id, NoticeKind kind, Guid pickupId, PickupHeader freight, string about, NoticeReader reader, DateTimeOffset at, DateTimeOffset dueAt, NoticeState state) => new()
    {
        Id = id,
        Kind = kind,
        PickupId = pickupId,
        About = about,
        To = reader.To,
        ToName = reader.Name,
        Language = reader.Language,
        ShipperId = freight.ShipperId,
        SiteId = freight.SiteId,
        CarrierId = freight.CarrierId,
        TerminalId = freight.TerminalId,
        CreatedAt = at,
        DueAt = dueAt,
        State = state,
    };

    /// <summary>Eight in the morning of a day, where the freight was picked up.</summary>
    public static DateTimeOffset Morning(DateOnly day, PickupHeader freight)
    {
        var morning = day.ToDateTime(new TimeOnly(8, 0));
        return new DateTimeOffset(morning, TimeZoneInfo.FindSystemTimeZoneById(freight.Window.TimeZone).GetUtcOffset(morning)).ToUniversalTime();
    }

    public static void Configure(StoreOptions marten) =>
        marten.Schema.For<Notice>()
            .Duplicate(notice => notice.PickupId)
            .Duplicate(notice => notice.State)
            .Duplicate(notice => notice.HoldId!)
            .Index(notice => notice.DueAt)
            // The lists of either side are of the newest.
            .Index(notice => new { notice.ShipperId, notice.CreatedAt })
            .Index(notice => new { notice.CarrierId, notice.CreatedAt });
}

/// <summary>Whom a mail is written to.</summary>
/// <param name="Language">Code of the language; null for English.</param>
public sealed record NoticeReader(string To, string Name, string? Language)
{
    /// <param name="language">Of whoever declared the freight; null for an API key.</param>
    public static NoticeReader Of(Shipper shipper, string? language) => new(shipper.Email, shipper.Name, language);

    public static NoticeReader OfTerminal(PickupParties parties) => new(parties.Terminal.Email, $"{parties.Carrier.Name}, {parties.Terminal.Name}", null);
}

public enum NoticeKind
{
    PickupForTerminal,
    PickupForShipper,
    HoldDecidedForShipper,
    BuildsNoLongerPass,
    HoldPlacedForShipper,

    /// <summary>The terminal wrote, offered rework, or withdrew an offer.</summary>
    HoldNewsForShipper,

    /// <summary>The shipper wrote or answered.</summary>
    HoldNewsForTerminal,
    HoldReminderForShipper,
    HoldReminderForTerminal,
    HoldOverdueForTerminal,
    HoldOverdueForAccounts,
    OutcomeForShipper,
    ConcealedDamageDeadline,
    ClaimDeadline,
    DockVisitAsked,
    DockVisitPlanned,
    DockVisitCalledOff,
    DockVisitConcluded,
    DigestForManager,
    DigestForShipper,

    /// <summary>A claim was filed, its offer taken, or it was withdrawn.</summary>
    ClaimForTerminal,

    /// <summary>The carrier answered a claim.</summary>
    ClaimForShipper,
    ClaimAcknowledgeDeadline,
    ClaimAnswerDeadline,
    SuitDeadline,
}

public enum NoticeState
{
    /// <summary>To be sent at its due time, for the first time or again.</summary>
    Due,

    /// <summary>Somebody is at it.</summary>
    Sending,

    Sent,

    /// <summary>Given up until a person sends it again.</summary>
    Failed,

    /// <summary>Belongs to history that was loaded and never was to be sent.</summary>
    NotSent,

    /// <summary>What it was about has been replaced before it was due.</summary>
    Overtaken,
}
