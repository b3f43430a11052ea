using Fettle.Engineering.Cartons;
using Fettle.Engineering.Lifting;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>NIOSH Pub. 94-110. The equation itself is checked against the publication's examples among the engineering tests.</summary>
public class LiftingRuleTests
{
    [Theory]
    [InlineData(50.9, false)]
    [InlineData(51, false)]
    [InlineData(51.1, true)]
    public void One_carton_over_the_load_constant_is_a_caution(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var unit = Handy(Typed.Heavy(pounds, units));
            Assert.Equal(found, unit.Finds(FindingCodes.ManualLift));
            if (found)
                Assert.Equal((Severity.Caution, new Quantity(51, Unit.Pound)), (unit.Finding(FindingCodes.ManualLift).Severity, unit.Finding(FindingCodes.ManualLift).Limit));
        }
    }

    [Fact]
    public void The_working_is_the_equations()
    {
        // Lowest layer of 8 in on a deck of 20 in: hands at 24 in, reach 8 + 5 = 13 in, 6 in down; two a minute, hands low, a handy box without handles.
        // HM 10/13, VM 1 − .0075 · 6, DM 1, AM 1, FM .91, CM .95: arithmetic.
        var finding = Handy(Mass.FromPounds(60)).Finding(FindingCodes.ManualLift);
        Assert.Equal(("contents.carton.grossWeight", "NIOSH Pub. 94-110, revised lifting equation"), (finding.Subject, finding.Basis.Source));
        Assert.StartsWith("51 lb × 0.77 × 0.96 × 1 × 1 × 0.91 × 0.95 = 32.4 lb where it is hardest to set down", finding.Formula.Said(), StringComparison.Ordinal);
        Assert.Contains("Lifting can injure", FindingCodes.CautionFor(finding.Code), StringComparison.Ordinal);
    }

    /// <summary>
    /// Our arithmetic, not the publication's: hands at 0 in, reach 10 + 6 = 16 in, 40.5 in up to the highest of four layers on a
    /// deck of 5.5 in, two a minute, a handy box without handles. HM 10/16, VM 1 − .0075 · 30, DM .82 + 1.8/40.5, FM .91,
    /// CM .95: 18.5 lb and an index of 2.44. Where it is set down 26.4 lb and 1.70 at worst, which would be no finding.
    /// </summary>
    [Fact]
    public void Taken_from_the_floor_the_origin_is_worse_and_is_what_the_finding_shows()
    {
        var stack = Freight.Pallet(new CartonContents(Freight.Carton(16, 12, 10, 45, 44), 10, 4, StackKind.Column));
        var finding = stack.Finding(FindingCodes.ManualLift, rules: TakenFrom(0));

        Assert.Equal((Severity.Tip, new Quantity(45, Unit.Pound)), (finding.Severity, finding.Measured));
        Assert.Equal(2 * 18.46, finding.Limit.Value, 0.01);
        Assert.Equal("By hand a carton of 45 lb is 2.44 times what is recommended where it is taken up (18.5 lb).", finding.Message.Said());
        Assert.Equal("51 lb × 0.63 × 0.78 × 0.86 × 1 × 0.91 × 0.95 = 18.5 lb where it is taken up", finding.Formula.Said());
        Assert.Contains("Take cartons from a table", finding.Cure.Said(), StringComparison.Ordinal);
        // From a table at the equation's own ideal only where it is set down counts, and that is not bad enough.
        Assert.False(stack.Finds(FindingCodes.ManualLift));
    }

    [Fact]
    public void At_whatever_height_cartons_are_taken_the_worse_end_decides()
    {
        var ends = new HashSet<bool>();
        for (var from = 0; from <= 70; from++)
        {
            foreach (var layers in (int[])[1, 2, 4, 6])
            {
                var carton = Freight.Carton(16, 12, 10, 45, 44);
                var lowest = Freight.Deck.Height + (carton.Height / 2);
                LiftingAssessment[] lifts = [.. new[] { lowest, lowest + (carton.Height * (layers - 1)) }.Select(hands => LiftingEquation.Assess(new(
                    carton.GrossWeight, At(Length.FromInches(from)), At(hands), 2, LiftingDuration.UpToOneHour, Coupling.Fair)))];
                var index = lifts.Max(lift => lift.Worse.Index);
                var rules = TakenFrom(from);

                var finding = Freight.Pallet(new CartonContents(carton, 10, layers, StackKind.Column)).Check(rules: rules).Findings.SingleOrDefault(f => f.Code == FindingCodes.ManualLift);
                Assert.Equal(index > rules.Lifting.TipIndex, finding is not null);
                if (finding is null)
                    continue;
                var origin = lifts.Max(lift => lift.Origin.Index) > lifts.Max(lift => lift.Destination.Index);
                Assert.EndsWith(origin ? "where it is taken up" : "where it is hardest to set down", finding.Formula.Said(), StringComparison.Ordinal);
                ends.Add(origin);
            }
        }

        Assert.Equal(2, ends.Count);

        static HandPosition At(Length hands) => new(LiftingEquation.ReachFor(Length.FromInches(12), hands), hands);
    }

    [Theory]
    // Twice and three times what is recommended at the hardest place: a tariff's own indices, put where 40 lb stand.
    [InlineData(1.23, 9, Severity.Tip)]
    [InlineData(1.25, 9, null)]
    [InlineData(1, 1.23, Severity.Caution)]
    [InlineData(1, 1.25, Severity.Tip)]
    public void The_lifting_index_decides_below_it(double tip, double caution, Severity? severity)
    {
        // 40 / 32.42 = 1.234.
        var tariff = Tariff.With(rules => rules with { Lifting = rules.Lifting with { TipIndex = tip, CautionIndex = caution } });
        foreach (var units in Typed.Both)
        {
            var finding = Handy(Typed.Heavy(40, units)).Check(rules: tariff).Findings.SingleOrDefault(f => f.Code == FindingCodes.ManualLift);
            Assert.Equal(severity, finding?.Severity);
            if (finding is not null)
                Tariff.IsNamedBy(finding);
        }
    }

    [Fact]
    public void An_ordinary_stack_of_ordinary_cartons_is_no_finding()
    {
        Assert.False(Freight.Sound.Finds(FindingCodes.ManualLift));
        Assert.False(Handy(Mass.FromPounds(45)).Finds(FindingCodes.ManualLift));
    }

    [Fact]
    public void Over_the_head_nothing_is_lifted()
    {
        // The highest of seven layers has its middle at 70.5 in; the equation ends at 70.
        var tall = Freight.Pallet(new CartonContents(Freight.Small, 16, 7, StackKind.Column));
        Assert.False(tall.Finds(FindingCodes.ManualLift) && tall.Outer.Height < Length.FromInches(70));
        var finding = tall.Finding(FindingCodes.ManualLift);
        Assert.Equal((Severity.Caution, new Quantity(0, Unit.Pound)), (finding.Severity, finding.Limit));
        Assert.Contains("nothing should be lifted by hand", finding.Message.Said(), StringComparison.Ordinal);
        Assert.False(Freight.Pallet(new CartonContents(Freight.Small, 16, 6, StackKind.Column)).Finds(FindingCodes.ManualLift));
    }

    [Fact]
    public void What_no_hand_moves_is_set_by_machine_and_mixed_or_loose_cartons_are_other_rules()
    {
        Assert.False(Handy(Mass.FromPounds(150.1)).Finds(FindingCodes.ManualLift));
        Assert.True(Handy(Mass.FromPounds(150)).Finds(FindingCodes.ManualLift));
        Assert.False(Freight.Loose(Freight.Carton(16, 10, 8, 80, 44)).Finds(FindingCodes.ManualLift));
    }

    [Fact]
    public void Board_film_and_lane_change_nothing()
    {
        var heavy = Handy(Mass.FromPounds(60));
        Assert.Equal(heavy.Finding(FindingCodes.ManualLift), (heavy with { Protection = Freight.Boarded, Stackable = true }).Finding(FindingCodes.ManualLift, Freight.Far));
    }

    private static RuleSet TakenFrom(double inches) =>
        Tariff.With(rules => rules with { Lifting = rules.Lifting with { TakenFrom = Length.FromInches(inches) } });

    /// <summary>One layer of cartons that are easily held, at a good height.</summary>
    private static HandlingUnit Handy(Mass weight) => Freight.Pallet(
        new CartonContents(Freight.Carton(16, 10, 8, 1, 48) with { GrossWeight = weight }, 10, 1, StackKind.Column),
        Freight.Deck with { Height = Length.FromInches(20), Rating = null });
}
