using System.Globalization;
using System.Text;
using Fettle.Engineering.Units;
using Fettle.Web.Declarations;
using Fettle.Web.Store;

namespace Fettle.Web.Demo;

/// <summary>A pickup that the demo hands in, and what becomes of it.</summary>
/// <param name="ExceptionRequest">Of its first line that is held; null when none is.</param>
public sealed record PlannedPickup(
    Guid Id,
    string Number,
    DemoShipper Shipper,
    DemoPerson Clerk,
    PickupForm Form,
    string? ExceptionRequest,
    DateTimeOffset SubmittedAt,
    PickupFate Fate);

public enum PickupFate
{
    /// <summary>Long done: what was held has been decided, and no mail goes out.</summary>
    Decided,

    /// <summary>What is held waits for a reviewer; no mail goes out.</summary>
    Waits,

    /// <summary>Goes the way of any pickup handed in now: jobs open its holds and its mail is sent.</summary>
    New,
}

/// <summary>A pickup that a clerk has begun.</summary>
public sealed record PlannedDraft(Guid Id, string Number, DemoShipper Shipper, DemoPerson Clerk, PickupForm Form, DateTimeOffset ChangedAt);

/// <summary>
/// A year of the scenario's freight, counted back from one moment. Pure: the same scenario and moment give the same year,
/// so that a load which was cut off goes on where it was.
/// </summary>
public sealed record History(IReadOnlyList<PlannedPickup> Pickups, IReadOnlyList<PlannedDraft> Drafts)
{
    private const int Weeks = 52;

    /// <summary>Before the first pickup of a year that is counted back from this moment.</summary>
    public static DateTimeOffset BeginningOf(DateTimeOffset now) => now.AddDays(-7 * (Weeks + 2));

    /// <summary>A decision comes so many minutes after the freight is handed in …</summary>
    public const int ShortestReview = 25;

    /// <summary>… and so many at the latest: before the truck leaves.</summary>
    public const int LongestReview = 150;

    /// <summary>What was handed in before this has been decided by now.</summary>
    private static readonly TimeSpan Settled = TimeSpan.FromMinutes(LongestReview + 30);

    /// <summary>The least time that a reviewer has for what waits when the demo is loaded.</summary>
    private static readonly TimeSpan Notice = TimeSpan.FromMinutes(90);

    private static readonly (TimeOnly From, TimeOnly To)[] Windows =
        [(new(8, 0), new(10, 0)), (new(10, 0), new(12, 0)), (new(13, 0), new(15, 0)), (new(14, 0), new(16, 0)), (new(15, 0), new(17, 0))];

    /// <summary>How many pickups of a hundred have one line, two lines, … six.</summary>
    private static readonly (int Lines, double Weight)[] LineCounts = [(1, 30), (2, 30), (3, 20), (4, 10), (5, 6), (6, 4)];

    /// <summary>Share of sound builds made by the newest hand …</summary>
    private const double ByNewest = 0.25;

    /// <summary>… and of those that are held.</summary>
    private const double HeldByNewest = 0.6;

    /// <summary>A scale does not give the same figure twice: up to this, either way, and half a percent at most.</summary>
    private static readonly Mass Scatter = Mass.FromPounds(6);

    /// <summary>Pickups from the newest to the oldest, with those that wait or are new at the head.</summary>
    public static History Of(Scenario scenario, DateTimeOffset now)
    {
        var shippers = scenario.Shippers.Select(shipper => new ShippersYear(scenario, shipper, now)).ToArray();
        return new(
            [.. shippers.SelectMany(shipper => shipper.Pickups()).OrderByDescending(pickup => pickup.Fate).ThenByDescending(pickup => pickup.SubmittedAt).ThenBy(pickup => pickup.Id)],
            [.. shippers.SelectMany(shipper => shipper.Drafts())]);
    }

    private sealed class ShippersYear(Scenario scenario, DemoShipper shipper, DateTimeOffset now)
    {
        private readonly DemoBuild[] held = [.. shipper.Builds.Where(build => build.IsHeld)];
        private readonly DemoBuild[] sound = [.. shipper.Builds.Where(build => !build.IsHeld)];

        public IEnumerable<PlannedPickup> Pickups()
        {
            for (var week = 0; week < Weeks; week++)
            {
                var dice = new Dice(shipper.Name, "week", week);
                var count = (int)(shipper.PickupsPerWeek + dice.Share());
                for (var i = 0; i < count; i++)
                {
                    if (Past(week, i) is { } past)
                        yield return past;
                }
            }

            for (var i = 0; i < shipper.OpenHolds; i++)
                yield return Waiting(i);
            if (shipper.Newest is { } newest)
                yield return Newest(newest);
        }

        public IEnumerable<PlannedDraft> Drafts()
        {
            foreach (var clerk in scenario.People.People.Where(person => person.Rights.Role == Identity.Role.ShipperClerk && person.Rights.Shipper == shipper.Name))
            {
                var dice = new Dice(clerk.UserName, "drafts");
                var sites = scenario.SitesOf(clerk.Rights).Select(site => site.Name).ToArray();
                DemoLane[] lanes = [.. shipper.Lanes.Where(lane => sites.Contains(lane.From))];
                yield return Draft(clerk, dice, lanes, "to put right", [dice.One(held), dice.One(sound)]);
                yield return Draft(clerk, dice, lanes, "ready", [dice.One(sound), dice.One(sound)]);
                yield return Draft(clerk, dice, lanes, "just begun", []);
            }
        }

        private PlannedPickup? Past(int week, int index)
        {
            var dice = new Dice(shipper.Name, "pickup", week, index);
            var lane = dice.OneByWeight(shipper.Lanes, lane => lane.Weight);
            var zone = ZoneOf(lane);
            var tomorrow = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).Date).AddDays(1);
            DateOnly day;
            do
                day = tomorrow.AddDays(-(7 * week) - dice.Between(0, 6));
            while (day.DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday);
            var (from, to) = dice.One(Windows);
            // Most hand in the day before, in working hours; the rest on the morning itself.
            var submitted = dice.Share() < 0.6
                ? At(day.AddDays(-1), new TimeOnly(9, 0).AddMinutes(dice.Between(0, 8 * 60)), zone)
                : At(day, from, zone).AddMinutes(-dice.Between(60, 180));
            var lines = dice.OneByWeight(LineCounts, choice => choice.Weight).Lines;
            var builds = Enumerable.Range(0, lines).Select(_ => dice.OneByWeight(shipper.Builds, build => build.Weight)).ToArray();
            return submitted > now - Settled ? null : Plan(["past", week, index], dice, lane, (day, from, to), builds, submitted, PickupFate.Decided);
        }

        private PlannedPickup Waiting(int index)
        {
            var dice = new Dice(shipper.Name, "waits", index);
            var lane = shipper.Lanes[index % shipper.Lanes.Count];
            var builds = Shuffled(dice, [dice.OneByWeight(held, build => build.Weight), .. Enumerable.Range(0, dice.Between(0, 2)).Select(_ => dice.One(sound))]);
            return Plan(["waits", index], dice, lane, NextWindow(dice, lane), builds, now.AddMinutes(-dice.Between(40, 20 * 60)), PickupFate.Waits);
        }

        private PlannedPickup Newest(NewestPickup kind)
        {
            var dice = new Dice(shipper.Name, "newest");
            DemoBuild[] builds = kind switch
            {
                NewestPickup.Ready => [dice.One(sound), dice.One(sound)],
                NewestPickup.Held => [dice.One(held), dice.One(sound)],
            };
            var lane = dice.OneByWeight(shipper.Lanes, lane => lane.Weight);
            return Plan(["newest"], dice, lane, NextWindow(dice, lane), builds, now.AddMinutes(-dice.Between(3, 20)), PickupFate.New);
        }

        private PlannedDraft Draft(DemoPerson clerk, Dice dice, IReadOnlyList<DemoLane> lanes, string kind, IReadOnlyList<DemoBuild> builds)
        {
            var lane = dice.OneByWeight(lanes, lane => lane.Weight);
            var form = Form(dice, lane, NextWindow(dice, lane), builds);
            if (builds.Count == 0)
                form = form with { HandlingUnits = [UnitForm.Ordinary("A1")], Window = new(), Lane = new() { Transfers = "2" } };
            object[] about = ["demo", "draft", clerk.UserName, kind];
            return new(StableId.From(about), NumberOf(about), shipper, clerk, form, now.AddMinutes(-dice.Between(10, 6 * 60)));
        }

        private PlannedPickup Plan(object[] about, Dice dice, DemoLane lane, (DateOnly, TimeOnly, TimeOnly) window, IReadOnlyList<DemoBuild> builds, DateTimeOffset submitted, PickupFate fate)
        {
            about = ["demo", "pickup", shipper.Name, .. about];
            return new(
                StableId.From(about),
                NumberOf(about),
                shipper,
                scenario.ClerkAt(shipper, lane.From),
                Form(dice, lane, window, builds),
                builds.FirstOrDefault(build => build.IsHeld)?.ExceptionRequest,
                submitted,
                fate);
        }

        private PickupForm Form(Dice dice, DemoLane lane, (DateOnly Day, TimeOnly From, TimeOnly To) window, IReadOnlyList<DemoBuild> builds)
        {
            var (carrier, terminal) = scenario.TerminalOf(lane);
            return new()
            {
                Units = "imperial",
                Site = shipper.SiteId(lane.From).ToString(),
                Terminal = carrier.TerminalId(terminal.Name).ToString(),
                Destination = lane.Destination,
                Window = new()
                {
                    Date = window.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                    From = window.From.ToString("HH:mm", CultureInfo.InvariantCulture),
                    To = window.To.ToString("HH:mm", CultureInfo.InvariantCulture),
                },
                Equipment = lane.Equipment,
                DriverOnDock = lane.DriverOnDock,
                Lane = lane.Form,
                HandlingUnits = [.. builds.Select((build, i) => Line(dice, build, $"A{i + 1}") with { BuiltBy = Builder(build, lane.From, window.Day, i) })],
            };
        }

        /// <summary>Whoever is new builds as much as the others, and more of what is held. Thrown apart, so that the year's freight does not depend on it.</summary>
        private string Builder(DemoBuild build, string site, DateOnly day, int line)
        {
            var dice = new Dice(shipper.Name, "builder", site, day, line, build.Name);
            return dice.Share() < (build.IsHeld ? HeldByNewest : ByNewest) ? shipper.Builders[0] : shipper.Builders[dice.Between(1, shipper.Builders.Count - 1)];
        }

        private static UnitForm Line(Dice dice, DemoBuild build, string reference) => FormText.Copy(build.Unit) with
        {
            Reference = reference,
            Quantity = Writing.Text(dice.Between(build.Quantity[0], build.Quantity[1])),
            GrossWeight = Scattered(dice, build.Unit.GrossWeight),
        };

        private static string? Scattered(Dice dice, string? weight)
        {
            if (!MeasureText.TryMass(weight, UnitSystem.Imperial, out var mass))
                return weight;
            var most = (int)Mass.Min(Scatter, mass * 0.005).In(UnitSystem.Imperial);
            return $"{Writing.Text(Math.Round(mass.In(UnitSystem.Imperial)) + dice.Between(-most, most))} lb";
        }

        /// <summary>A window today that leaves a reviewer time, or one tomorrow.</summary>
        private (DateOnly, TimeOnly, TimeOnly) NextWindow(Dice dice, DemoLane lane)
        {
            var zone = ZoneOf(lane);
            var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).Date);
            var open = Windows.Where(window => At(today, window.From, zone) >= now + Notice).ToArray();
            var (day, windows) = open.Length > 0 && dice.Share() < 0.6 ? (today, open) : (today.AddDays(1), Windows);
            var (from, to) = dice.One(windows);
            return (day, from, to);
        }

        private TimeZoneInfo ZoneOf(DemoLane lane) =>
            TimeZoneInfo.FindSystemTimeZoneById(shipper.Sites.Single(site => site.Name == lane.From).TimeZone);
    }

    private static DateTimeOffset At(DateOnly day, TimeOnly time, TimeZoneInfo zone)
    {
        var local = day.ToDateTime(time);
        return new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
    }

    private static T[] Shuffled<T>(Dice dice, IEnumerable<T> all) => [.. all.Select(one => (one, dice.Share())).OrderBy(pair => pair.Item2).Select(pair => pair.one)];

    /// <summary>Like <see cref="Declarations.Draft.NewNumber"/>, but the same every time.</summary>
    internal static string NumberOf(object[] about)
    {
        const string Signs = "23456789ABCDEFGHJKMNPQRSTVWXYZ";
        var number = new StringBuilder("P-");
        foreach (var part in StableId.From(["number", .. about]).ToByteArray().Take(6))
            number.Append(Signs[part % Signs.Length]);
        return number.ToString();
    }
}
