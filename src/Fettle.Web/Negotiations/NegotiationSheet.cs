using System.Globalization;
using Fettle.Engineering.TrailerFloor;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Areas.Shared;
using Fettle.Web.FloorUse;

namespace Fettle.Web.Negotiations;

/// <summary>
/// What an account manager brings to the table: how far it is borne out that this freight carries a second pallet, what
/// that is worth, and what the figures rest on. Pure; PDF and workbook show the same one.
/// </summary>
public sealed record NegotiationSheet
{
    public required string Shipper { get; init; }

    /// <summary>Null when it is the shipper's own sheet, of all carriers.</summary>
    public required string? Carrier { get; init; }

    /// <summary>Null when it is of all lanes.</summary>
    public required string? Lane { get; init; }

    public required SheetEvidence Evidence { get; init; }

    public required AccountFloor Floor { get; init; }

    /// <summary>Null when no pickup can be drawn.</summary>
    public required TypicalPickup? Typical { get; init; }

    public required string MadeBy { get; init; }

    /// <summary>Also the data's cut-off: what came later is not in it.</summary>
    public required DateTimeOffset MadeAt { get; init; }

    public required CultureInfo Culture { get; init; }

    public Worth Worth => Floor.Worth;

    public string Title => T("What double-stacking is worth: {0}", Shipper);

    /// <summary>Without an end: "Finch Pantry negotiation 2026-11-29".</summary>
    public string FileName => string.Create(CultureInfo.InvariantCulture, $"{string.Concat(Shipper.Select(c => char.IsLetterOrDigit(c) || c is ' ' or '-' ? c : ' ')).Trim()} negotiation {MadeAt.UtcDateTime:yyyy-MM-dd}");

    /// <summary>Whose freight, on which lane, when.</summary>
    public IReadOnlyList<(string Name, string Value)> About =>
    [
        (T("Shipper"), Shipper),
        (T("Carrier"), Carrier ?? T("all carriers")),
        (T("Lane"), Lane ?? T("all lanes")),
        (T("Freight handed in"), Floor.Period.Say()),
        (T("Made by"), MadeBy),
        (T("Made, and data up to"), string.Create(CultureInfo.InvariantCulture, $"{MadeAt.UtcDateTime.ToString(T("d MMMM yyyy"), Language.Current.Calendar)}, {MadeAt.UtcDateTime:HH:mm} UTC")),
    ];

    /// <summary>The four figures to remember, each with what it is.</summary>
    public IReadOnlyList<(string Name, string Value)> Headline =>
    [
        (T("Can carry its like, of lines declared stackable"), Evidence.Stacking.Carries.Say()),
        (T("53-ft trailers a year that stacking frees"), WorthWords.Trailers(Worth.TrailersAYear)),
        (T("Worth to the carrier a year"), WorthWords.Dollars(Worth.MoneyAYear)),
        (T("Offered back a year ({0:0 %})", Worth.Terms.ShareOffered), WorthWords.Dollars(Worth.OfferedAYear)),
    ];

    /// <summary>Each share with its interval and its count.</summary>
    public IReadOnlyList<(string Name, Share Share)> Shares =>
    [
        (T("Nothing to stop when handed in"), Evidence.Ready),
        (T("Declared stackable"), Evidence.Stacking.Declared),
        (T("By calculation carry a like unit, of those declared stackable"), Evidence.Stacking.Carries),
        (T("Carried another unit when an inspection tried"), Evidence.Stacking.Tested),
        (T("Arrived clean, of those that another unit rode on top of"), Evidence.Stacking.ArrivedClean),
        (T("Arrived damaged, of those that travelled as declared"), Evidence.Damaged),
    ];

    public string ClaimWords => Evidence.Claims is { Lines: > 0 } claims
        ? T(
            "Claimed for: {0} of {1} lines, {2}; paid so far: {3}. Withdrawn claims are not counted.",
            ScoreWords.Count(claims.Lines),
            ScoreWords.Count(Evidence.Lines),
            ScoreWords.Dollars(claims.Claimed),
            ScoreWords.Dollars(claims.Paid))
        : T("Nothing of it is claimed for.");

    /// <summary>The three ways to load, feet and how full the trailer is up to the last unit.</summary>
    public IReadOnlyList<(string Name, double Feet, double Filled)> Ways =>
    [
        (T("Nothing stacked"), Worth.Flat, Worth.Filled.Flat),
        (T("Two high where allowed"), Worth.Stacked, Worth.Filled.Stacked),
        (T("With decking beams besides"), Worth.Decked, Worth.Filled.Decked),
    ];

    public string DeckWords => Worth.SavedByDecking <= 0 ? T("Decking beams would save nothing more here.") : T("Decking beams would free {0} trailers a year more, worth {1}; not every trailer has the tracks, and beams cost money and time.", WorthWords.Trailers(Worth.DeckTrailersAYear), WorthWords.Dollars(Worth.DeckMoneyAYear));

    /// <summary>How the shares come about.</summary>
    public string EvidenceWords => Carrier is null
        ? T("Shares are of lines: identical units are one observation. In brackets where the true share plausibly lies (95 %).")
        : T("Shares are of lines: identical units are one observation. They are moved towards what is usual among the manager's accounts, the more the fewer lines there are; in brackets where the true share plausibly lies (95 %).");
}

/// <summary>What is known of the freight, of one account or of one lane of it.</summary>
public sealed record SheetEvidence(long Lines, Share Ready, StackEvidence Stacking, Share Damaged, SheetClaims Claims)
{
    /// <param name="lane">Null for all.</param>
    public static SheetEvidence Of(AccountEvidence evidence, Lane? lane)
    {
        if (lane is null)
            return new(evidence.Tally[Tallied.Lines], evidence.Ready, evidence.Stacking, evidence.Damaged, SheetClaims.Of(evidence.Tally));
        var tally = Tally.Sum(evidence.Freight.Where(freight => freight.Lane == lane).Select(freight => freight.Tally));
        return new(
            tally[Tallied.Lines],
            Share.Of(tally[Tallied.Ready], tally[Tallied.Lines], evidence.Book.Ready),
            StackEvidence.Of(tally, evidence.Book),
            Share.Of(tally[Tallied.TravelledDamaged], tally[Tallied.Travelled], evidence.Book.Damaged),
            SheetClaims.Of(tally));
    }
}

/// <summary>What damage has cost so far. Withdrawn claims are not counted.</summary>
/// <param name="Lines">Claimed for.</param>
/// <param name="Claimed">US cents.</param>
/// <param name="Paid">US cents.</param>
public sealed record SheetClaims(long Lines, long Claimed, long Paid)
{
    public static SheetClaims Of(Tally tally) => new(tally[Tallied.UnderClaim], tally[Tallied.ClaimedCents], tally[Tallied.ClaimPaidCents]);
}

/// <summary>One real pickup, drawn before and after.</summary>
public sealed record TypicalPickup(string Number, DateOnly On, LoadPlan Flat, LoadPlan Stacked, string FlatSvg, string StackedSvg)
{
    public string FlatWords => T("{0}, {1}, nothing stacked: {2}", Number, Day, WorthWords.Feet(Flat.LinearFeet));

    public string StackedWords => T("The same pickup, two high where allowed: {0}", WorthWords.Feet(Stacked.LinearFeet));

    private string Day => On.ToString(T("d MMMM yyyy"), Language.Current.Calendar);
}
