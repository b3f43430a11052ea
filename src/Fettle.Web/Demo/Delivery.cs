using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;

namespace Fettle.Web.Demo;

/// <summary>
/// How a pickup of the demo's past arrived. Invented: some findings are made to harm freight, some to harm it only with
/// another unit on top, and some not at all, so that the accounts desk has something to find out.
/// </summary>
/// <param name="On">Day of delivery.</param>
/// <param name="RecordedAt">When the carrier heard of it.</param>
public sealed record Delivery(DateOnly On, DateTimeOffset RecordedAt, IReadOnlyList<UnitOutcome> Units)
{
    private const double MilesADay = 450;

    /// <summary>Chance of damage to one unit on an ordinary lane with nothing found against it.</summary>
    private const double Ordinary = 0.004;

    private const double Missing = 0.002;

    private const double NotTaken = 0.0015;

    private const double FoundLater = 0.15;

    /// <summary>A carrier fills the trailer: so often something rides on what is declared stackable …</summary>
    private const double OnStackable = 0.55;

    /// <summary>… and so often all the same on what is not.</summary>
    private const double OnOthers = 0.06;

    /// <summary>Added chance where it carries freight that by calculation it cannot.</summary>
    private const double Overloaded = 0.14;

    /// <summary>Added chance by what was found, and what it looks like then. What is not here harms nothing.</summary>
    private static readonly Dictionary<string, (double Chance, DamagePlace Where, DamageManner How)> Harm = new(StringComparer.Ordinal)
    {
        [FindingCodes.Overhang] = (0.07, DamagePlace.Side, DamageManner.Crushed),
        [FindingCodes.SelfCrush] = (0.09, DamagePlace.Bottom, DamageManner.Crushed),
        [FindingCodes.WrapTurns] = (0.08, DamagePlace.Whole, DamageManner.Shifted),
        [FindingCodes.WrapAnchor] = (0.08, DamagePlace.Whole, DamageManner.Shifted),
        [FindingCodes.Tipping] = (0.02, DamagePlace.Side, DamageManner.Broken),
        [FindingCodes.CornerBoards] = (0.012, DamagePlace.Corner, DamageManner.Crushed),
        [FindingCodes.FragileCare] = (0.02, DamagePlace.Inside, DamageManner.Broken),
        [FindingCodes.Partitions] = (0.1, DamagePlace.Inside, DamageManner.Broken),
        [FindingCodes.TopSurface] = (0.03, DamagePlace.Top, DamageManner.Crushed),
        [FindingCodes.PlatformCondition] = (0.05, DamagePlace.Bottom, DamageManner.Broken),
    };

    /// <param name="decided">What was decided about the lines that were held, by reference.</param>
    public static Delivery Of(Pickup pickup, IReadOnlyDictionary<string, HoldDecision> decided)
    {
        var dice = new Dice("delivery", pickup.Header.Number);
        var lane = pickup.Declaration.Lane;
        var zone = TimeZoneInfo.FindSystemTimeZoneById(pickup.Header.Window.TimeZone);
        var on = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(pickup.Header.Window.To, zone).Date).AddDays(1 + (int)(lane.Miles / MilesADay) + dice.Between(0, lane.Transfers));
        while (on.DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday)
            on = on.AddDays(1);
        var told = on.AddDays(1).ToDateTime(new TimeOnly(9, 0).AddMinutes(dice.Between(0, 300)));
        var rough = (0.6 + (lane.Miles / 1500)) * (0.8 + (0.15 * lane.Transfers));
        return new(
            on,
            new DateTimeOffset(told, zone.GetUtcOffset(told)).ToUniversalTime(),
            [.. pickup.Declaration.HandlingUnits.Zip(pickup.Units).SelectMany(line => Of(dice, line.First, line.Second, rough, decided))]);
    }

    private static List<UnitOutcome> Of(Dice dice, HandlingUnit unit, UnitJudgement judged, double rough, IReadOnlyDictionary<string, HoldDecision> decided)
    {
        HoldDecision? decision = decided.TryGetValue(unit.Reference, out var known) ? known : null;
        if (decision is HoldDecision.Return or HoldDecision.Refuse)
            return [new(unit.Reference, unit.Quantity, OutcomeKind.Stayed)];
        var carried = dice.Share() < (unit.Stackable ? OnStackable : OnOthers);
        // What the terminal put right, or found right, harms nothing any more.
        var harms = judged.Findings
            .Where(finding => decision is not (HoldDecision.Release or HoldDecision.Rework) || finding.Severity != Severity.Stop)
            .Select(finding => Harm.GetValueOrDefault(finding.Code))
            .Where(harm => harm.Chance > 0)
            .Append(carried && !judged.CarriesLikeUnit ? (Overloaded, DamagePlace.Top, DamageManner.Crushed) : (Ordinary, DamagePlace.Corner, dice.One<DamageManner>([DamageManner.Punctured, DamageManner.Torn, DamageManner.Wet])))
            .ToArray();
        var chance = Math.Min(0.9, harms.Sum(harm => harm.Item1) * rough);
        var (damaged, missing, refused) = (Times(chance), Times(Missing), Times(NotTaken));
        missing = Math.Min(missing, unit.Quantity - damaged);
        refused = Math.Min(refused, unit.Quantity - damaged - missing);
        var cause = dice.OneByWeight(harms, harm => harm.Item1);
        List<UnitOutcome> outcomes = [];
        Add(unit.Quantity - damaged - missing - refused, new(unit.Reference, 0, OutcomeKind.Clean));
        Add(damaged, new(unit.Reference, 0, OutcomeKind.Damaged, cause.Item2, cause.Item3, Concealed: cause.Item2 == DamagePlace.Inside || dice.Share() < FoundLater));
        Add(missing, new(unit.Reference, 0, OutcomeKind.Short));
        Add(refused, new(unit.Reference, 0, OutcomeKind.Refused));
        return outcomes;

        int Times(double share) => Enumerable.Range(0, unit.Quantity).Count(_ => dice.Share() < share);

        void Add(int count, UnitOutcome outcome)
        {
            if (count > 0)
                outcomes.Add(outcome with { Count = count, CarriedFreight = carried });
        }
    }
}
