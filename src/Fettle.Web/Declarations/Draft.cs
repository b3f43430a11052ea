using System.Security.Cryptography;
using Fettle.Readiness;
using JasperFx.Metadata;
using Marten;

namespace Fettle.Web.Declarations;

/// <summary>
/// A pickup that is still being declared, as typed. Every change is saved as it is made, so that a closed browser, a
/// sign-out or a second tab loses nothing.
/// </summary>
public sealed class Draft : IVersioned
{
    /// <summary>The id that the pickup keeps when it is submitted.</summary>
    public Guid Id { get; set; }

    public required string Number { get; set; }

    public required Guid ShipperId { get; set; }

    /// <summary>The site last chosen; decides who else may open the draft.</summary>
    public required Guid SiteId { get; set; }

    public required PickupForm Form { get; set; }

    public required Actor ChangedBy { get; set; }

    public required DateTimeOffset ChangedAt { get; set; }

    /// <summary>Which open page made the last change: its own later changes are no conflict, even when an answer got lost.</summary>
    public string? ChangedIn { get; set; }

    /// <summary>
    /// The open page whose button made the last change, and which the page named by <see cref="ChangedIn"/> has replaced:
    /// its button may be pressed again, but what it had typed before is late and changes nothing. Null after any other change.
    /// </summary>
    public string? ReplacedPage { get; set; }

    public DateTimeOffset? SubmittedAt { get; set; }

    public Guid Version { get; set; }

    public static void Configure(StoreOptions marten) =>
        marten.Schema.For<Draft>().Duplicate(draft => draft.ShipperId).UniqueIndex(NumberTaken.OfDraft, draft => draft.Number);

    /// <summary>
    /// A number that is easily said on the telephone: six signs out of thirty without look-alikes, 729 million of them. With a
    /// million in use one in some 730 is taken already: see <see cref="NumberTaken"/>.
    /// </summary>
    /// <param name="kind">What it is a number of: P for a pickup, V for a dock visit, C for a claim.</param>
    public static string NewNumber(char kind = 'P') =>
        kind + "-" + RandomNumberGenerator.GetString("23456789ABCDEFGHJKMNPQRSTVWXYZ", 6);
}
