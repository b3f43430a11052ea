using System.Globalization;
using Fettle.Engineering.Statistics;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Scorecards;

namespace Fettle.Web.Areas.Shared;

/// <summary>Figures of the accounts desk as people read them: never without how many lines they come from.</summary>
public static class ScoreWords
{
    /// <summary>"96 % (91 to 98 %)", or that there are too few to say.</summary>
    public static string Say(this Share share)
    {
        if (!share.IsEnough)
            return share.Whole == 0 ? T("none yet") : T("too few to say");
        var plausible = share.Interval;
        return Together(T("{0:0 %} ({1:0} to {2:0 %})", share.Estimate, plausible.Low * 100, plausible.High));
    }

    /// <summary>"118 of 120 lines".</summary>
    public static string SayCount(this Share share) => T(share.Whole == 1 ? "{0:#,0} of {1:#,0} line" : "{0:#,0} of {1:#,0} lines", share.Part, share.Whole);

    public static string Count(long count) => count.ToString("#,0", CultureInfo.InvariantCulture);

    /// <summary>Whole hours.</summary>
    public static string Hours(this Tally tally) => Hours(tally[Tallied.HeldMinutes]);

    private static string Hours(long minutes) => Count((long)Math.Round(minutes / 60d));

    /// <summary>What lines come to for a figure that does not count them or their units; empty for one that does.</summary>
    public static string Total(this Tallied what, LineList list) => what switch
    {
        Tallied.HeldMinutes => T("Together they were held for {0} hours.", Hours(list.Total)),
        Tallied.ClaimedCents or Tallied.ClaimPaidCents => T("Together: {0}.", Dollars(list.Total)),
        _ when list.Total == list.Count || list.Total == list.Units => "",
        _ => T("Together they count for {0}.", Count(list.Total)),
    };

    /// <summary>One line's part of such a figure, and what it is called; null for figures that count lines or units.</summary>
    public static (string Title, string Value)? Part(this Tallied what, ScoredLine line) => what switch
    {
        Tallied.HeldMinutes => (T("Hours held"), (Tally.Of(line)[what] / 60d).ToString("#,0.0", CultureInfo.InvariantCulture)),
        Tallied.ClaimedCents => (T("Claimed"), Dollars(Tally.Of(line)[what])),
        Tallied.ClaimPaidCents => (T("Paid"), Dollars(Tally.Of(line)[what])),
        _ => null,
    };

    public static string Say(this Product product) => product.InWords.Say(UnitSystem.Imperial);

    public static string Say(this Trouble trouble) => trouble.Kind switch
    {
        TroubleKind.TooFew => T("Only {0} lines in this time: too few to say what the trouble is.", Count(trouble.Among)),
        TroubleKind.None => T("Nothing stands out: {0} of {1} lines were held.", Count(trouble.Lines), Count(trouble.Among)),
        TroubleKind.Stopped => T("The true trouble is {0}: it stopped {1} of {2} held lines.", T(FindingCodes.Words(trouble.Code!)), Count(trouble.Lines), Count(trouble.Among)),
        TroubleKind.Damaged => T("The true trouble is damage on the way: {0} of {1} lines arrived damaged, plainly more than is usual.", Count(trouble.Lines), Count(trouble.Among)),
    };

    /// <summary>The tone of the notice that says it.</summary>
    public static string Tone(this Trouble trouble) => trouble.Kind switch
    {
        TroubleKind.TooFew => "tip",
        TroubleKind.None => "good",
        TroubleKind.Stopped => "caution",
        TroubleKind.Damaged => "stop",
    };

    public static string Say(this Habit habit) => habit.NotAlone == 0
        ? T("It stopped {0} lines, and nothing else stopped them.", Count(habit.Stopped))
        : T("It stopped {0} lines; {1} of them something else stopped too.", Count(habit.Stopped), Count(habit.NotAlone));

    public static string Say(this CommonRatio? ratio) => ratio is { } common
        ? T("{0:0.0} times ({1:0.0} to {2:0.0})", common.Value, common.Interval().Low, common.Interval().High)
        : T("cannot be told");

    public static string Say(this Effect effect) => effect switch
    {
        Effect.Predicts => T("Foretells damage"),
        Effect.PredictsNothing => T("Foretells nothing"),
        Effect.Reverse => T("Damaged less often"),
        Effect.TooFew => T("Too few to say"),
    };

    /// <summary>"12 months, December 2025 to November 2026".</summary>
    public static string Say(this Period period) => T("{0} months, {1} to {2}", period.Length, Month(period.From), Month(period.Last()));

    /// <summary>Cents as whole US dollars: "$12,340".</summary>
    public static string Dollars(long cents) => string.Create(CultureInfo.InvariantCulture, $"${cents / 100m:#,0}");

    /// <summary>What a list of lines is of.</summary>
    public static string Title(this Tallied what) => what switch
    {
        Tallied.Lines or Tallied.Units => T("All lines"),
        Tallied.Ready => T("Lines that nothing stopped"),
        Tallied.Held or Tallied.HeldUnits => T("Held lines"),
        Tallied.Stackable or Tallied.StackableUnits => T("Lines declared stackable"),
        Tallied.Carries or Tallied.CarriesUnits => T("Lines that by calculation carry a like unit"),
        Tallied.Unclaimed => T("Lines that could carry and were not declared stackable"),
        Tallied.StackTested => T("Lines on which another unit was tried"),
        Tallied.StackHeld => T("Lines that carried another unit on trial"),
        Tallied.CarriedFreight => T("Lines that another unit rode on top of"),
        Tallied.CarriedClean => T("Lines that carried another unit and arrived clean"),
        Tallied.Delivered or Tallied.DeliveredUnits => T("Lines whose arrival is known"),
        Tallied.Clean or Tallied.CleanUnits => T("Lines that arrived clean"),
        Tallied.Short or Tallied.ShortUnits => T("Lines that arrived short"),
        Tallied.Damaged or Tallied.DamagedUnits => T("Lines that arrived damaged"),
        Tallied.Refused or Tallied.RefusedUnits => T("Lines that the consignee refused"),
        Tallied.Travelled => T("Lines that travelled as declared"),
        Tallied.TravelledDamaged => T("Lines that travelled as declared and arrived damaged"),
        Tallied.Unforeseen => T("Lines damaged though nothing had been found"),
        Tallied.HoldsPlaced => T("Lines with holds"),
        Tallied.HoldsDecided or Tallied.HeldMinutes => T("Lines with decided holds"),
        Tallied.Released => T("Lines released"),
        Tallied.ReleasedAsException => T("Lines released as an exception"),
        Tallied.Reworked => T("Lines reworked at the terminal"),
        Tallied.Returned => T("Lines returned"),
        Tallied.RefusedAtTerminal => T("Lines refused at the terminal"),
        Tallied.UnderClaim or Tallied.ClaimedCents => T("Lines with a claim"),
        Tallied.ClaimPaid or Tallied.ClaimPaidCents => T("Lines whose claim was paid"),
        Tallied.ClaimDisallowed => T("Lines whose claim stands disallowed"),
    };

    /// <summary>How a line arrived: "11 clean, 1 damaged".</summary>
    public static string Arrival(ScoredLine line) => line.Delivered is not { Parts.Count: > 0 } delivered
        ? T("not known")
        : string.Join(", ", delivered.Parts.GroupBy(part => part.Kind).OrderBy(kind => kind.Key).Select(kind => kind.Key switch
        {
            OutcomeKind.Clean => T("{0} clean", kind.Sum(part => part.Count)),
            OutcomeKind.Short => T("{0} short", kind.Sum(part => part.Count)),
            OutcomeKind.Damaged => T("{0} damaged", kind.Sum(part => part.Count)),
            OutcomeKind.Refused => T("{0} refused", kind.Sum(part => part.Count)),
            OutcomeKind.Stayed => T("{0} did not travel", kind.Sum(part => part.Count)),
        }));

    /// <summary>Lines are broken before the bracket and nowhere else.</summary>
    private static string Together(string text) => text.Replace(' ', '\u00a0').Replace("\u00a0(", " (", StringComparison.Ordinal);

    private static string Month(DateOnly day) => day.ToString("MMMM yyyy", Language.Current.Calendar);
}
