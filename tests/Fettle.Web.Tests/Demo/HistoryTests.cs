using CsCheck;
using Fettle.Engineering.Statistics;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Declarations;
using Fettle.Web.Demo;
using Fettle.Web.Parties;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Demo;

/// <summary>The year that is made from the scenario, before any of it is stored.</summary>
public sealed class HistoryTests
{
    private static readonly Scenario Demo = Scenario.Read(Scenario.Folder);
    private static readonly DateTimeOffset Now = new(2026, 3, 18, 15, 20, 0, TimeSpan.Zero);
    private static readonly History Year = History.Of(Demo, Now);
    private static readonly Carrier[] Carriers = [.. Demo.Carriers.Select(carrier => carrier.Party())];

    /// <summary>Any minute of some four years, both changes of the clocks and both leap days nearby included.</summary>
    private static readonly Gen<DateTimeOffset> Moments = Gen.Int[0, 4 * 366 * 24 * 60].Select(minutes => new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero).AddMinutes(minutes));

    public static TheoryData<string> Shippers() => [.. Demo.Shippers.Select(shipper => shipper.Name)];

    [Fact]
    public void The_same_moment_gives_the_same_year()
    {
        var again = History.Of(Scenario.Read(Scenario.Folder), Now);

        Assert.Equal(Year.Pickups.Select(Told), again.Pickups.Select(Told));
        Assert.Equal(Year.Drafts.Select(draft => (draft.Id, draft.Number, draft.ChangedAt)), again.Drafts.Select(draft => (draft.Id, draft.Number, draft.ChangedAt)));

        static string Told(PlannedPickup pickup) => string.Join('|', [pickup.Id, pickup.Number, pickup.SubmittedAt, pickup.Fate, .. FormText.Flatten(pickup.Form)]);
    }

    [Fact]
    public void It_holds_some_hundreds_of_pickups_of_one_to_six_lines_and_no_number_twice()
    {
        Assert.InRange(Year.Pickups.Count, 700, 1000);
        Assert.All(Year.Pickups, pickup => Assert.InRange(pickup.Form.HandlingUnits.Count, 1, 6));
        var numbers = Year.Pickups.Select(pickup => pickup.Number).Concat(Year.Drafts.Select(draft => draft.Number)).ToArray();
        Assert.Distinct(numbers);
        Assert.All(numbers, number => Assert.Matches("^P-[2-9A-HJKMNP-TV-Z]{6}$", number));
        Assert.Distinct(Year.Pickups.Select(pickup => pickup.Id).Concat(Year.Drafts.Select(draft => draft.Id)));
        Assert.All(Demo.Shippers, shipper => Assert.Contains(Year.Pickups, pickup => pickup.Shipper == shipper));
    }

    [Fact]
    public void Every_pickup_can_be_handed_in_within_the_last_year_by_a_clerk_of_its_dock() => Moments.Sample(
        now =>
        {
            foreach (var pickup in History.Of(Demo, now).Pickups)
            {
                var errors = Reading.Of(pickup.Form).Errors.ToDictionary();
                var header = Heading.Of(pickup.Form, pickup.Number, pickup.Shipper.Party(), Demo.RightsOf(pickup.Clerk.Rights).SiteIds, Carriers, errors);
                Assert.Empty(errors);
                Assert.InRange(pickup.SubmittedAt, now.AddYears(-1), now);
                Assert.True(pickup.SubmittedAt < header!.Window.From);
                if (pickup.Fate == PickupFate.Decided)
                {
                    Assert.True(pickup.SubmittedAt.AddMinutes(History.LongestReview) < now, "decided in the future");
                    Assert.True(pickup.SubmittedAt.AddMinutes(History.LongestReview) <= header.Window.To, "decided when the truck has left");
                }
            }
        },
        iter: 8,
        threads: 1);

    [Fact]
    public void What_waits_at_any_moment_is_due_later_today_or_tomorrow() => Moments.Sample(
        now =>
        {
            var held = History.Of(Demo, now).Pickups.Where(pickup => pickup.Fate != PickupFate.Decided && pickup.ExceptionRequest is not null).ToArray();
            Assert.InRange(held.Length, 6, 10);
            foreach (var pickup in held)
            {
                var header = Heading.Of(pickup.Form, pickup.Number, pickup.Shipper.Party(), [.. pickup.Shipper.Party().Sites.Select(site => site.Id)], Carriers, new Dictionary<string, string>())!;
                var zone = TimeZoneInfo.FindSystemTimeZoneById(header.Window.TimeZone);
                var days = (TimeZoneInfo.ConvertTime(header.Window.From, zone).Date - TimeZoneInfo.ConvertTime(now, zone).Date).Days;
                Assert.InRange(days, 0, 1);
                Assert.True(header.Window.To > now.AddHours(1));
                Assert.Single(pickup.Form.HandlingUnits, line => pickup.Shipper.Builds.Any(build => build.IsHeld && Told(build.Unit with { Reference = line.Reference, Quantity = line.Quantity, GrossWeight = line.GrossWeight, BuiltBy = line.BuiltBy }) == Told(line)));
            }
        },
        iter: 40,
        threads: 1);

    private static string Told(UnitForm unit) => System.Text.Json.JsonSerializer.Serialize(unit);

    [Fact]
    public void Both_reviewers_at_Millbrook_find_several_holds_waiting()
    {
        var millbrook = Demo.Carriers.Single(carrier => carrier.Name == "Larkspur Motor Freight").TerminalId("Millbrook").ToString();

        Assert.True(Year.Pickups.Count(pickup => pickup.Fate == PickupFate.Waits && pickup.Form.Terminal == millbrook) >= 3);
    }

    [Fact]
    public void A_few_pickups_are_new_so_that_their_mail_goes_out()
    {
        var fresh = Year.Pickups.Where(pickup => pickup.Fate == PickupFate.New).ToArray();

        Assert.InRange(fresh.Length, 2, 3);
        Assert.All(fresh, pickup => Assert.True(pickup.SubmittedAt > Now.AddMinutes(-30)));
    }

    [Fact]
    public void Every_clerk_has_begun_a_few_pickups_at_a_dock_of_their_own()
    {
        foreach (var clerk in Demo.People.People.Where(person => person.Rights.Role == Role.ShipperClerk))
        {
            var drafts = Year.Drafts.Where(draft => draft.Clerk == clerk).ToArray();
            Assert.Equal(3, drafts.Length);
            Assert.All(drafts, draft => Assert.Contains(Guid.Parse(draft.Form.Site!), Demo.RightsOf(clerk.Rights).SiteIds));
            Assert.Contains(drafts, draft => Reading.Of(draft.Form) is { Errors.Count: 0 } reading && ReadinessCheck.Run(reading.Readable!, RuleSet.BuiltIn).Verdict == Verdict.Hold);
            Assert.Contains(drafts, draft => Reading.Of(draft.Form) is { Errors.Count: 0 } reading && ReadinessCheck.Run(reading.Readable!, RuleSet.BuiltIn).Verdict != Verdict.Hold);
            Assert.Contains(drafts, draft => Reading.Of(draft.Form).Errors.Count > 0);
        }
    }

    [Theory]
    [MemberData(nameof(Shippers))]
    public void The_year_tells_each_shippers_story_at_every_carrier_together_and_at_the_first(string name)
    {
        var shipper = Demo.Shippers.Single(shipper => shipper.Name == name);
        var pickups = Year.Pickups.Where(pickup => pickup.Shipper == shipper).ToArray();
        var terminals = Demo.Carriers.Single(carrier => carrier.Name == "Larkspur Motor Freight") is var larkspur
            ? larkspur.Terminals.Select(terminal => larkspur.TerminalId(terminal.Name).ToString()).ToHashSet()
            : [];

        foreach (var score in (YearScore[])[Score(pickups), Score(pickups.Where(pickup => terminals.Contains(pickup.Form.Terminal!)))])
        {
            Assert.InRange(score.Held / (double)score.Units, shipper.Story.ShareHeld[0], shipper.Story.ShareHeld[1]);
            if (shipper.Story.StackWell is [var low, var high])
                Assert.InRange(score.StackWellLines / (double)score.StackableLines, low, high);
            else
                Assert.True(score.StackableLines < 40, "Enough lines for a story of their own.");
        }
    }

    [Fact]
    public void The_shares_held_differ_from_shipper_to_shipper_and_are_nowhere_everything_or_nothing()
    {
        var shares = Demo.Shippers.Select(shipper => Score(Year.Pickups.Where(pickup => pickup.Shipper == shipper))).Select(score => score.Held / (double)score.Units).Order().ToArray();

        Assert.All(shares, share => Assert.InRange(share, 0.03, 0.45));
        Assert.True(shares[^1] > 4 * shares[0]);
        Assert.All(shares.Zip(shares.Skip(1)), pair => Assert.True(pair.Second - pair.First > 0.003));
    }

    [Fact]
    public void Finch_and_Barrows_freight_stacks_well_for_sure_and_Tallow_Lanes_sample_is_too_small_to_be_sure()
    {
        var sure = Score(Year.Pickups.Where(pickup => pickup.Shipper.Name.StartsWith("Finch", StringComparison.Ordinal))).StackWellInterval;
        var unsure = Score(Year.Pickups.Where(pickup => pickup.Shipper.Name.StartsWith("Tallow", StringComparison.Ordinal))).StackWellInterval;

        Assert.True(sure.Low >= 0.85);
        Assert.True(unsure.High - unsure.Low > 2 * (sure.High - sure.Low));
    }

    [Fact]
    public void Most_findings_there_are_happen_to_somebody_in_the_year()
    {
        var seen = Year.Pickups
            .Select(pickup => ReadinessCheck.Run(Reading.Of(pickup.Form).Readable!, RuleSet.BuiltIn))
            .SelectMany(result => result.HandlingUnits.SelectMany(unit => unit.Findings).Concat(result.Findings))
            .Select(finding => finding.Code)
            .ToHashSet();
        string[] unseen = [.. RuleBook.All.Select(rule => rule.Code).Where(code => !seen.Contains(code))];
        // The demo's freight crosses no border, is not regulated, and nobody in it types feet for inches.
        string[] elsewhere =
        [
            FindingCodes.TreatmentMark, FindingCodes.Regulated, FindingCodes.InconsistentDimensions, FindingCodes.Height, FindingCodes.DeckEdge, FindingCodes.DeckGap,
            FindingCodes.OffCentre, FindingCodes.Containment, FindingCodes.Straps, FindingCodes.OverLength, FindingCodes.LoneDrum, FindingCodes.LooseDrums, FindingCodes.DrumTiers,
            FindingCodes.BagColumns, FindingCodes.RollsOnEnd, FindingCodes.NeverStackable, FindingCodes.PlatformMissing, FindingCodes.PlatformCondition, FindingCodes.Sliding,
            FindingCodes.LooseCartonLift, FindingCodes.LooseCartonStrength, FindingCodes.Liftgate, FindingCodes.BoardUnknown, FindingCodes.DoubleStackHeight,
            // Found by an inspection only.
            FindingCodes.DamageSeen, FindingCodes.StackTest,
        ];
        Assert.Equal("", string.Join(", ", unseen.Except(elsewhere)));
    }

    private static YearScore Score(IEnumerable<PlannedPickup> pickups)
    {
        var lines = (
            from pickup in pickups
            let declaration = Reading.Of(pickup.Form).Readable!
            from line in ReadinessCheck.Run(declaration, RuleSet.BuiltIn).HandlingUnits.Zip(declaration.HandlingUnits)
            select (line.First.Quantity, Held: line.First.Verdict == Verdict.Hold, line.Second.Stackable, line.First.Measures.CarriesLikeUnit)).ToArray();
        return new(
            lines.Sum(line => line.Quantity),
            lines.Where(line => line.Held).Sum(line => line.Quantity),
            lines.Count(line => line.Stackable),
            lines.Count(line => line is { Stackable: true, CarriesLikeUnit: true }));
    }

    private sealed record YearScore(int Units, int Held, int StackableLines, int StackWellLines)
    {
        public Interval StackWellInterval => Wilson.Interval(StackWellLines, StackableLines);
    }
}
