using Fettle.Readiness.Claims;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Scorecards;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Scorecards;

public class TallyTests
{
    [Fact]
    public void A_line_of_identical_units_is_one_observation_and_many_units()
    {
        var tally = Tally.Of(Line.Of(Line.Declared() with { Quantity = 12 }));
        Counts(tally, (Tallied.Lines, 1), (Tallied.Units, 12), (Tallied.Ready, 1), (Tallied.Stackable, 1), (Tallied.StackableUnits, 12), (Tallied.Carries, 1), (Tallied.CarriesUnits, 12));
    }

    [Fact]
    public void What_was_not_declared_stackable_is_no_evidence_that_it_carries()
    {
        var tally = Tally.Of(Line.Of(Line.Declared() with { Stackable = false }));
        Assert.Equal((0, 0, 1), (tally[Tallied.Stackable], tally[Tallied.Carries], tally[Tallied.Unclaimed]));
    }

    [Fact]
    public void Hours_held_run_from_placing_to_the_decision()
    {
        var tally = Tally.Of(Line.Of(Line.Declared("overhang"), Line.Decided(HoldDecision.Rework, 90)));
        Assert.Equal((1, 1, 90, 1), (tally[Tallied.HoldsPlaced], tally[Tallied.HoldsDecided], tally[Tallied.HeldMinutes], tally[Tallied.Reworked]));
    }

    [Fact]
    public void An_open_hold_has_no_hours_yet()
    {
        var tally = Tally.Of(Line.Of(Line.Declared("overhang"), Line.Decided(HoldDecision.Rework, 90)[0]));
        Assert.Equal((1, 0, 0), (tally[Tallied.HoldsPlaced], tally[Tallied.HoldsDecided], tally[Tallied.HeldMinutes]));
    }

    [Fact]
    public void A_later_decision_of_one_hold_takes_the_place_of_the_earlier_whichever_is_heard_first()
    {
        var hold = Line.Site;
        Func<LineKey, LineFact> held = line => new LineHeld(line, hold, Line.At);
        Func<LineKey, LineFact> first = line => new LineDecided(line, hold, HoldDecision.Return, Line.At.AddMinutes(10));
        Func<LineKey, LineFact> second = line => new LineDecided(line, hold, HoldDecision.Release, Line.At.AddMinutes(30));
        foreach (var tally in (Tally[])[Tally.Of(Line.Of(Line.Declared("height"), held, first, second)), Tally.Of(Line.Of(Line.Declared("height"), held, second, first))])
            Assert.Equal((1, 30, 1, 0), (tally[Tallied.HoldsDecided], tally[Tallied.HeldMinutes], tally[Tallied.Released], tally[Tallied.Returned]));
    }

    [Fact]
    public void What_was_rebuilt_and_then_released_is_counted_once_as_rebuilt_whichever_is_heard_first()
    {
        var hold = Line.Site;
        Func<LineKey, LineFact> held = line => new LineHeld(line, hold, Line.At);
        Func<LineKey, LineFact> rework = line => new LineDecided(line, hold, HoldDecision.Rework, Line.At.AddMinutes(10));
        Func<LineKey, LineFact> released = line => new LineDecided(line, hold, HoldDecision.Release, Line.At.AddMinutes(200));
        foreach (var line in (ScoredLine[])[Line.Of(Line.Declared("height"), held, rework, released), Line.Of(Line.Declared("height"), held, released, rework)])
        {
            var tally = Tally.Of(line);
            Assert.Equal((1, 200, 1, 0), (tally[Tallied.HoldsDecided], tally[Tallied.HeldMinutes], tally[Tallied.Reworked], tally[Tallied.Released]));
            Assert.True(line.ChangedBeforeTravel);
        }

        // Returned after all: it was not rebuilt for anybody.
        var returned = Tally.Of(Line.Of(Line.Declared("height"), held, rework, line => new LineDecided(line, hold, HoldDecision.Return, Line.At.AddMinutes(300))));
        Assert.Equal((1, 0), (returned[Tallied.Returned], returned[Tallied.Reworked]));
    }

    [Fact]
    public void A_claim_counts_for_what_is_asked_and_then_for_what_is_paid_by_the_last_answer_whichever_is_heard_first()
    {
        var claim = Line.Site;
        Func<LineKey, LineFact> filed = line => new LineClaimed(line, claim, 31_050, Line.At);
        Func<LineKey, LineFact> disallowed = line => new LineClaimAnswered(line, claim, ClaimAnswer.Disallowed, 0, Line.At.AddDays(30));
        Func<LineKey, LineFact> offered = line => new LineClaimAnswered(line, claim, ClaimAnswer.Offered, 20_000, Line.At.AddDays(40));
        Func<LineKey, LineFact> paid = line => new LineClaimAnswered(line, claim, ClaimAnswer.Paid, 20_000, Line.At.AddDays(50));
        Counts(Tally.Of(Line.Of(Line.Declared(), filed)), (Tallied.UnderClaim, 1), (Tallied.ClaimedCents, 31_050), (Tallied.ClaimPaid, 0), (Tallied.ClaimDisallowed, 0));
        Counts(Tally.Of(Line.Of(Line.Declared(), filed, disallowed)), (Tallied.UnderClaim, 1), (Tallied.ClaimDisallowed, 1), (Tallied.ClaimPaidCents, 0));
        // An offer is no payment.
        Counts(Tally.Of(Line.Of(Line.Declared(), filed, disallowed, offered)), (Tallied.ClaimDisallowed, 0), (Tallied.ClaimPaid, 0), (Tallied.ClaimPaidCents, 0));
        foreach (var line in (ScoredLine[])[Line.Of(Line.Declared(), filed, disallowed, offered, paid), Line.Of(Line.Declared(), filed, paid, offered, disallowed)])
            Counts(Tally.Of(line), (Tallied.UnderClaim, 1), (Tallied.ClaimedCents, 31_050), (Tallied.ClaimPaid, 1), (Tallied.ClaimPaidCents, 20_000), (Tallied.ClaimDisallowed, 0));
    }

    [Fact]
    public void A_claim_that_was_withdrawn_was_never_filed()
    {
        var claim = Line.Site;
        var tally = Tally.Of(Line.Of(Line.Declared(), line => new LineClaimed(line, claim, 100, Line.At), line => new LineClaimWithdrawn(line, claim, Line.At.AddDays(1))));
        Counts(tally, (Tallied.UnderClaim, 0), (Tallied.ClaimedCents, 0));
        Assert.Equal(Tally.Of(Line.Of(Line.Declared())), tally);
    }

    [Fact]
    public void A_line_that_arrived_partly_damaged_is_damaged_and_not_clean()
    {
        var tally = Tally.Of(Line.Of(Line.Declared(), line => new LineDelivered(line, [new(3, OutcomeKind.Clean, true), new(1, OutcomeKind.Damaged, null)], Line.At)));
        Counts(tally, (Tallied.Delivered, 1), (Tallied.DeliveredUnits, 4), (Tallied.Clean, 0), (Tallied.CleanUnits, 3), (Tallied.Damaged, 1), (Tallied.DamagedUnits, 1));

        // What is known to have carried arrived clean; the damaged unit carried nothing that anybody knows of.
        Counts(tally, (Tallied.CarriedFreight, 1), (Tallied.CarriedClean, 1), (Tallied.Unforeseen, 1));
    }

    [Fact]
    public void What_was_rebuilt_says_nothing_of_how_it_had_been_declared()
    {
        var tally = Tally.Of(Line.Of(Line.Declared("overhang"), [.. Line.Decided(HoldDecision.Rework, 60), Line.Arrived(OutcomeKind.Damaged)]));
        Counts(tally, (Tallied.Delivered, 1), (Tallied.Damaged, 1), (Tallied.Travelled, 0), (Tallied.TravelledDamaged, 0), (Tallied.Unforeseen, 0));
    }

    [Fact]
    public void Damage_that_a_caution_foresaw_is_not_unforeseen()
    {
        var cautioned = Line.Declared() with { Findings = ["clearance"] };
        Assert.Equal(0, Tally.Of(Line.Of(cautioned, Line.Arrived(OutcomeKind.Damaged)))[Tallied.Unforeseen]);
    }

    [Fact]
    public void What_did_not_travel_arrived_neither_well_nor_badly()
    {
        var partly = Tally.Of(Line.Of(Line.Declared(), line => new LineDelivered(line, [new(3, OutcomeKind.Clean, null), new(1, OutcomeKind.Stayed, null)], Line.At)));
        Counts(partly, (Tallied.Delivered, 1), (Tallied.DeliveredUnits, 3), (Tallied.Clean, 1), (Tallied.CleanUnits, 3));
        var none = Tally.Of(Line.Of(Line.Declared(), Line.Arrived(OutcomeKind.Stayed)));
        Counts(none, (Tallied.Delivered, 0), (Tallied.DeliveredUnits, 0), (Tallied.Clean, 0), (Tallied.Travelled, 0));
    }

    [Fact]
    public void A_report_without_units_tells_nothing() =>
        Assert.Equal(0, Tally.Of(Line.Of(Line.Declared(), line => new LineDelivered(line, [], Line.At)))[Tallied.Delivered]);

    [Fact]
    public void A_fact_heard_twice_counts_once()
    {
        var once = Line.Decided(HoldDecision.Release, 20);
        var declared = Line.Declared("overhang");
        IReadOnlyList<Func<LineKey, LineFact>> facts = [.. once, Line.Tested(true), Line.Arrived(OutcomeKind.Clean)];
        Assert.Equal(Tally.Of(Line.Of(declared, facts)), Tally.Of(Line.Of(declared, [_ => declared, .. facts, .. facts])));
    }

    [Fact]
    public void A_fact_about_a_line_that_nobody_handed_in_is_about_nothing() => Assert.Null(ScoredLine.Evolve(null, Line.Tested(true)(new(Line.Site, "A1"))));

    [Fact]
    public void Events_say_of_a_line_what_was_declared_and_judged()
    {
        var over = Freight.Sound.Reaching(length: Engineering.Units.Length.FromInches(50)) with { Reference = "B1", Quantity = 3, BuiltBy = " Robin  Field " };
        var submitted = (PickupSubmitted)Assert.Single(Pickup.Decide(null, Evening.Submit(Freight.Sound, over)).Events);
        var declared = Assert.IsType<LineDeclared>(LineFacts.Of(submitted).Last());
        Assert.Equal((submitted.PickupId, "B1", "Robin Field", 3), (declared.Line.PickupId, declared.Line.Reference, declared.Builder, declared.Quantity));
        Assert.Equal((submitted.Header.CarrierId, submitted.Header.ShipperId, submitted.Header.SiteId), (declared.CarrierId, declared.ShipperId, declared.SiteId));
        Assert.Equal("cartons 2794 2286 2540", declared.Product.Key);
        Assert.Equal("cartons of 11\u00a0in × 9\u00a0in × 10\u00a0in", declared.Product.InWords.ToString());
        Assert.Contains("overhang", declared.Stops);
        Assert.All(declared.Stops, stop => Assert.Contains(stop, declared.Findings));
        var placed = Assert.Single(Hold.Place(Pickup.Evolve(null, submitted)!, _ => Line.Site, RuleSet.BuiltIn.Hold, submitted.At));
        Assert.Equal(declared.Line, LineFacts.Of(placed).Line);
    }

    [Fact]
    public void An_outcome_says_of_each_line_what_became_of_its_units()
    {
        var recorded = new OutcomeRecorded(
            Line.Site, Line.Shipper, new(2026, 11, 20),
            [new("A1", 3, OutcomeKind.Clean, CarriedFreight: true), new("B1", 1, OutcomeKind.Refused), new("A1", 1, OutcomeKind.Damaged, DamagePlace.Top, DamageManner.Crushed)],
            new(new(2026, 11, 30), new(2027, 8, 20)), null, null, Evening.Clerk, Line.At);
        var facts = LineFacts.Of(recorded).Cast<LineDelivered>().ToArray();
        Assert.Equal(["A1", "B1"], facts.Select(fact => fact.Line.Reference));
        Assert.Equal([new(3, OutcomeKind.Clean, true), new(1, OutcomeKind.Damaged, null)], facts[0].Parts);
        Assert.Equal((Line.Site, Line.At), (facts[1].Line.PickupId, facts[1].At));
    }

    private static void Counts(Tally tally, params (Tallied What, long Count)[] expected) =>
        Assert.Equal(expected, expected.Select(pair => (pair.What, tally[pair.What])));
}
