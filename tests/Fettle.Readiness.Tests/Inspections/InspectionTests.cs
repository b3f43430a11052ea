using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Photos;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Inspections;

public class InspectionTests
{
    private static readonly Guid InspectionId = new("0198a1c0-0000-7000-8000-0000000000a7");
    private static readonly Guid HoldId = new("0198a1c0-0000-7000-8000-0000000000d1");
    private static readonly DateTimeOffset At = Evening.At.AddHours(14);
    private static readonly HandlingUnit Line = Freight.Sound with { Reference = "A1", Quantity = 4 };
    private static readonly HandlingUnit Over = Freight.Sound.Reaching(length: Length.FromInches(50)) with { Reference = "A1", Quantity = 4 };

    [Fact]
    public void Given_sound_freight_when_it_measures_as_declared_then_nothing_differs_and_nothing_is_proposed()
    {
        var recorded = When(Submitted(Line), new() { Height = Line.Outer.Height, GrossWeight = Line.GrossWeight, WrapTurns = Line.Protection.WrapTurns });

        Assert.Empty(recorded.Differences);
        Assert.Equal(Line, recorded.Found);
        Assert.Empty(recorded.NewStops);
        Assert.False(State(recorded).ProposesHold);
        Assert.Equal(Line.Check().Findings, recorded.Findings);
    }

    [Fact]
    public void Given_sound_freight_when_it_is_4_in_higher_and_300_lb_heavier_then_a_hold_is_proposed_with_its_reason()
    {
        var recorded = When(Submitted(Line), new() { Height = Line.Outer.Height + Length.FromInches(4), GrossWeight = Line.GrossWeight + Mass.FromPounds(300) });

        Assert.Equal(["outer.height", "grossWeight"], recorded.Differences.Select(difference => difference.Subject));
        Assert.Equal([Length.FromInches(4), Mass.FromPounds(300)], recorded.Differences.Select(difference => difference.Apart!.Value));
        Assert.Equal(Verdict.Hold, recorded.Verdict);
        Assert.Contains(recorded.NewStops, stop => stop.Code == FindingCodes.WeightMismatch);
        Assert.True(State(recorded).ProposesHold);
        var reason = Recheck.Reason(recorded).Said();
        Assert.StartsWith("Height: 49.5 in measured, 45.5 in declared. Gross weight: 1,620 lb measured, 1,320 lb declared. ", reason, StringComparison.Ordinal);
        Assert.Contains("It weighs 1,620 lb, and what was declared to be on it adds up to 1,320 lb: 300 lb apart.", reason, StringComparison.Ordinal);
        Assert.DoesNotContain("is declared:", reason, StringComparison.Ordinal);
    }

    [Fact]
    public void In_metric_units_the_reason_is_read_in_centimetres_and_kilograms()
    {
        var recorded = When(Submitted(Line), new() { Height = Line.Outer.Height + Length.FromInches(4) });

        Assert.StartsWith("Height: 125.7\u00a0cm measured, 115.6\u00a0cm declared.", Recheck.Reason(recorded).Say(UnitSystem.Metric, english => english), StringComparison.Ordinal);
    }

    [Fact]
    public void Given_freight_under_an_open_hold_when_more_is_found_then_it_goes_to_that_hold_and_none_is_proposed()
    {
        var pickup = Submitted(Over);
        var recorded = When(pickup, new() { WrapTurns = 0 }, hold: Placed(pickup));

        Assert.Equal(HoldId, recorded.HoldId);
        Assert.Equal(Verdict.Hold, recorded.Verdict);
        Assert.Empty(recorded.NewStops);
    }

    [Theory]
    [InlineData(HoldDecision.Rework, true)]
    [InlineData(HoldDecision.Return, true)]
    [InlineData(HoldDecision.Refuse, true)]
    [InlineData(HoldDecision.Release, false)]
    [InlineData(HoldDecision.ReleaseAsException, false)]
    public void Freight_that_was_not_let_go_is_inspected_for_its_hold(HoldDecision decision, bool forThatHold)
    {
        var pickup = Submitted(Over);

        var recorded = When(pickup, new() { WrapTurns = 3 }, hold: Decided(pickup, decision));

        Assert.Equal(forThatHold ? HoldId : null, recorded.HoldId);
    }

    [Fact]
    public void Given_freight_released_as_an_exception_when_the_same_is_found_then_nothing_is_new()
    {
        var pickup = Submitted(Over);

        var recorded = When(pickup, new() { OverhangAtEnds = Length.FromInches(1) }, hold: Decided(pickup, HoldDecision.ReleaseAsException));

        Assert.Equal(Verdict.Hold, recorded.Verdict);
        Assert.Empty(recorded.NewStops);
    }

    [Fact]
    public void Given_freight_released_as_an_exception_when_something_else_is_found_then_a_hold_is_proposed_for_that()
    {
        var pickup = Submitted(Over);

        var recorded = When(pickup, new() { WrapTurns = 0 }, hold: Decided(pickup, HoldDecision.ReleaseAsException));

        Assert.Equal([FindingCodes.WrapTurns], recorded.NewStops.Select(stop => stop.Code));
    }

    [Fact]
    public void Damage_seen_stops_and_is_written_out()
    {
        var recorded = When(Submitted(Line), new(), damage: [new(DamageKind.Crushed, DamageSpot.Corner, "two cartons open"), new(DamageKind.Wet, DamageSpot.Bottom, null)]);

        var stop = Assert.Single(recorded.NewStops);
        Assert.Equal((FindingCodes.DamageSeen, Severity.Stop), (stop.Code, stop.Severity));
        Assert.Equal("Damage was seen at the terminal: crushed, at a corner (two cartons open); wet, at the bottom.", stop.Message.Said());
    }

    [Fact]
    public void A_broken_pallet_is_judged_as_a_pallet()
    {
        var recorded = When(Submitted(Line), new(), damage: [new(DamageKind.BrokenPlatform, DamageSpot.Bottom, null)]);

        Assert.Equal([FindingCodes.PlatformCondition], recorded.NewStops.Select(stop => stop.Code));
    }

    [Theory]
    [InlineData(StackTest.Failed, true, true)]
    [InlineData(StackTest.Failed, false, false)]
    [InlineData(StackTest.Held, true, false)]
    [InlineData(StackTest.NotTried, true, false)]
    public void A_failed_stack_test_stops_what_is_declared_stackable(StackTest test, bool stackable, bool stops)
    {
        var recorded = When(Submitted(Line with { Stackable = stackable }), new(), test: test);

        Assert.Equal(stops, recorded.NewStops.Any(stop => stop.Code == FindingCodes.StackTest));
    }

    [Fact]
    public void A_carrier_may_let_damage_travel_with_a_caution()
    {
        var rules = RuleSet.BuiltIn with { Inspection = new() { DamageSeverity = Severity.Caution } };

        var recorded = When(Submitted(Line), new(), damage: [new(DamageKind.Torn, DamageSpot.Side, null)], rules: rules);

        Assert.Equal(Verdict.ReadyWithCautions, recorded.Verdict);
        Assert.Empty(recorded.NewStops);
    }

    [Fact]
    public void Freight_is_judged_by_the_rules_in_force_and_not_by_those_of_its_submission()
    {
        var rules = RuleSet.BuiltIn with { Identity = new("Heronway Freight", 3), Height = new() { Limit = Length.FromInches(45) } };

        var recorded = When(Submitted(Line), new() { WrapTurns = Line.Protection.WrapTurns }, rules: rules);

        Assert.Equal([FindingCodes.Height], recorded.NewStops.Select(stop => stop.Code));
        Assert.Equal(("Heronway Freight", 3), (recorded.RuleSet.Name, recorded.RuleSet.Version));
    }

    [Fact]
    public void What_the_shipper_corrected_is_what_it_is_measured_against()
    {
        var pickup = Submitted(Over);
        var corrected = Line with { Reference = "A1" };
        var hold = Hold.Evolve(Placed(pickup), new HoldDeclarationCorrected(HoldId, HoldId, corrected, [], Verdict.Ready, RuleSet.BuiltIn.Identity, Evening.Clerk, At));

        var recorded = When(pickup, new() { Length = corrected.Outer.Length }, hold: hold);

        Assert.Empty(recorded.Differences);
        Assert.Equal(corrected, recorded.Declared);
    }

    [Fact]
    public void What_a_correction_took_back_and_is_there_all_the_same_proposes_a_hold()
    {
        var pickup = Submitted(Over);
        var corrected = Line with { Reference = "A1" };
        var released = Decided(Hold.Evolve(Placed(pickup), new HoldDeclarationCorrected(HoldId, HoldId, corrected, [], Verdict.Ready, RuleSet.BuiltIn.Identity, Evening.Clerk, At))!, HoldDecision.Release);

        var recorded = When(pickup, new() { OverhangAtEnds = Length.FromInches(3) }, hold: released);

        Assert.Contains(FindingCodes.Overhang, recorded.NewStops.Select(stop => stop.Code));
        Assert.NotNull(Hold.PlaceOn(new(HoldId, recorded.InspectionId, pickup, recorded.Found, recorded.Findings, RuleSet.BuiltIn.Hold, [released], Evening.Reviewer, At)));
    }

    [Fact]
    public void What_was_released_is_known_as_it_was_and_no_worse()
    {
        var pickup = Submitted(Over);
        var released = Decided(pickup, HoldDecision.ReleaseAsException);
        var stop = pickup.Units[0].Findings.First(finding => finding.Severity == Severity.Stop);

        Assert.Empty(Recheck.NewStops([stop], [], released));
        Assert.Empty(Recheck.NewStops([stop with { Measured = stop.Limit with { Value = (stop.Limit.Value + stop.Measured.Value) / 2 } }], [], released));
        Assert.Equal([stop.Code], Recheck.NewStops([stop with { Measured = stop.Measured with { Value = stop.Measured.Value + (stop.Measured.Value - stop.Limit.Value) } }], [], released).Select(found => found.Code));
        Assert.Equal([stop.Code], Recheck.NewStops([stop with { Subject = "elsewhere" }], [], released).Select(found => found.Code));
    }

    [Fact]
    public void The_same_id_again_is_refused_with_the_first_inspection()
    {
        var pickup = Submitted(Line);
        var first = State(When(pickup, new() { WrapTurns = 1 }));

        var refusal = Assert.IsType<InspectionRecordedBefore>(Inspection.Decide(first, Record(pickup, new() { WrapTurns = 2 })).Refusal);

        Assert.Equal(1, refusal.First.Recorded.Measured.WrapTurns);
    }

    [Theory]
    [InlineData("A2", null)]
    [InlineData("A1", 0)]
    [InlineData("A1", 5)]
    public void A_unit_that_was_not_declared_cannot_be_inspected(string reference, int? index)
    {
        var command = Record(Submitted(Line), new() { WrapTurns = 1 }) with { Reference = reference, Index = index };

        Assert.Equal(new NoSuchUnit(), Inspection.Decide(null, command).Refusal);
    }

    [Fact]
    public void A_photo_is_added_once_and_not_without_end()
    {
        var inspection = State(When(Submitted(Line), new() { WrapTurns = 1 }));
        for (var i = 1; i <= Inspection.MostPhotos; i++)
            inspection = Assert.Single(Inspection.Decide(inspection, Photo(i)).Events) is { } added ? Inspection.Evolve(inspection, added)! : inspection;

        Assert.Equal(Inspection.MostPhotos, inspection.Photos.Count);
        Assert.Empty(Inspection.Decide(inspection, Photo(1)).Events);
        Assert.Null(Inspection.Decide(inspection, Photo(1)).Refusal);
        Assert.Equal(new TooManyPhotos(), Inspection.Decide(inspection, Photo(99)).Refusal);
        Assert.Equal(new NoSuchInspection(), Inspection.Decide(null, Photo(1)).Refusal);
    }

    [Fact]
    public void A_proposed_hold_is_placed_once()
    {
        var proposing = State(When(Submitted(Line), new() { WrapTurns = 0 }));
        var press = new HoldFound(HoldId, Evening.Reviewer, At);

        var held = Inspection.Evolve(proposing, Assert.Single(Inspection.Decide(proposing, press).Events))!;

        Assert.Equal((HoldId, true, false), (held.HoldId, held.LedToHold, held.ProposesHold));
        Assert.Empty(Inspection.Decide(held, press).Events);
        Assert.Null(Inspection.Decide(held, press).Refusal);
    }

    [Fact]
    public void Nothing_is_held_that_nothing_stops()
    {
        var inspection = State(When(Submitted(Line), new() { WrapTurns = Line.Protection.WrapTurns }));

        Assert.Equal(new NothingToHold(), Inspection.Decide(inspection, new HoldFound(HoldId, Evening.Reviewer, At)).Refusal);
        Assert.Equal(new NoSuchInspection(), Inspection.Decide(null, new HoldFound(HoldId, Evening.Reviewer, At)).Refusal);
    }

    private static InspectionRecorded When(
        Pickup pickup, Measurement measured, Hold? hold = null, IReadOnlyList<SeenDamage>? damage = null, StackTest? test = null, RuleSet? rules = null) =>
        Assert.IsType<InspectionRecorded>(Assert.Single(Inspection.Decide(null, Record(pickup, measured) with { Hold = hold, Damage = damage ?? [], StackTest = test, Rules = rules ?? RuleSet.BuiltIn }).Events));

    private static RecordInspection Record(Pickup pickup, Measurement measured) => new(
        InspectionId, pickup, "A1", 2, null, measured, [], null, 1, null, [], null, RuleSet.BuiltIn, Evening.Reviewer, At, At.AddMinutes(3));

    private static AddPhoto Photo(int number) => new(new PhotoProof(new($"0198a1c0-0000-7000-8000-{number:000000000000}"), $"{number:x64}"), Evening.Reviewer, At);

    private static Inspection State(InspectionRecorded recorded) => Inspection.Evolve(null, recorded)!;

    private static Pickup Submitted(params IReadOnlyList<HandlingUnit> lines) =>
        Pickup.Evolve(null, Assert.Single(Pickup.Decide(null, Evening.Submit(lines)).Events))!;

    private static Hold Placed(Pickup pickup) => Hold.Evolve(null, Assert.Single(Hold.Place(pickup, _ => HoldId, RuleSet.BuiltIn.Hold, Evening.At)))!;

    private static Hold Decided(Pickup pickup, HoldDecision decision) => Decided(Placed(pickup), decision);

    private static Hold Decided(Hold hold, HoldDecision decision) =>
        Hold.Evolve(hold, new HoldDecided(HoldId, new("0198a1c0-0000-7000-8000-0000000000e1"), decision, "Seen on the floor.", Evening.Reviewer, Evening.At.AddHours(1)))!;
}
