using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>
/// McKee, Gander and Wachuta 1963, simplified form 5.87 · ECT · √(t · Z) as trade papers print it, derated by the factors of
/// the Fibre Box Handbook as a board maker's worksheet repeats them (deck gaps from memory).
/// </summary>
public class StrengthRuleTests
{
    /// <summary>Sources round, and their constants have three digits.</summary>
    private const double Strength = 1e-3;

    [Theory]
    // Values of the simplified form at nominal calipers: B 0.125 in, BC 0.28 in.
    [InlineData(16, 12, 32, Flute.B, 496.98)]
    [InlineData(20, 16, 48, Flute.BC, 1265.10)]
    [InlineData(24, 20, 51, Flute.BC, 1486.03)]
    public void A_new_cartons_strength_follows_McKee(double length, double width, double edgeCrush, Flute flute, double pounds)
    {
        var measures = Stack(Freight.Carton(length, width, 10, 20, edgeCrush, flute), 1, 4).Check().Measures;
        Near(pounds, measures.CartonStrength!.Value.Pounds, Strength);
    }

    [Theory]
    // Ten days .63, 70 % humidity .80; columns are never quite straight .90, interlocked .60; gaps in a wooden deck .90.
    [InlineData(StackKind.Column, PlatformMaterial.Wood, 48, 0, 0.63 * 0.80 * 0.90 * 0.90)]
    [InlineData(StackKind.Column, PlatformMaterial.Plastic, 48, 0, 0.63 * 0.80 * 0.90)]
    [InlineData(StackKind.Interlocked, PlatformMaterial.Wood, 48, 0, 0.63 * 0.80 * 0.60 * 0.90)]
    // Up to half an inch past the deck .80, more .60.
    [InlineData(StackKind.Column, PlatformMaterial.Plastic, 49, 0, 0.63 * 0.80 * 0.90 * 0.80)]
    [InlineData(StackKind.Column, PlatformMaterial.Plastic, 49.5, 0, 0.63 * 0.80 * 0.90 * 0.60)]
    // Two to four transfers .90, more .75: our reading of the handbook's range for excessive handling.
    [InlineData(StackKind.Column, PlatformMaterial.Plastic, 48, 2, 0.63 * 0.80 * 0.90 * 0.90)]
    [InlineData(StackKind.Column, PlatformMaterial.Plastic, 48, 5, 0.63 * 0.80 * 0.90 * 0.75)]
    public void Use_leaves_a_share_of_it(StackKind stack, PlatformMaterial material, double outerLength, int transfers, double share)
    {
        var unit = Freight.Pallet(new CartonContents(Freight.Small, 16, 4, stack), Freight.Deck with { Material = material }).Reaching(length: Length.FromInches(outerLength));
        var measures = unit.Check(new Lane(100, transfers, false), WithGaps).Measures;
        Near(share, measures.UsableStrength!.Value / measures.CartonStrength!.Value, 1e-9);
    }

    /// <summary>The handbook's row for gaps in a deck is quoted from memory: it counts only where a carrier says so.</summary>
    private static readonly RuleSet WithGaps = Tariff.With(rules => rules with { Strength = rules.Strength with { DeckGaps = true } });

    [Fact]
    public void Gaps_in_the_deck_count_only_where_a_carrier_says_so()
    {
        var unit = Freight.Pallet(new CartonContents(Freight.Small, 16, 4, StackKind.Column));
        Near(0.9, unit.Check(rules: WithGaps).Measures.UsableStrength!.Value / unit.Check().Measures.UsableStrength!.Value, 1e-9);
    }

    [Fact]
    public void The_bottom_carton_bears_all_above_it()
    {
        // Common arithmetic: five above at 20 lb, and an unfinished layer is one more.
        Assert.Equal(Mass.FromPounds(100), Stack(Freight.Small, 16, 6).Check().Measures.LoadOnBottomCarton);
        Assert.Equal(Mass.FromPounds(120), Freight.Pallet(new CartonContents(Freight.Small, 16, 6, StackKind.Column, TopLayer: 1)).Check().Measures.LoadOnBottomCarton);
    }

    [Fact]
    public void A_stack_that_bears_less_than_itself_is_a_stop_and_below_the_factor_a_caution()
    {
        // What four cartons above may weigh: the limit, and a millionth either side of it.
        var usable = Stack(Freight.Small, 16, 5).Check().Measures.UsableStrength!.Value;
        foreach (var units in Typed.Both)
        {
            Assert.Equal(Severity.Stop, Crush(1 - 1e-6)?.Severity);
            Assert.Equal(Severity.Caution, Crush(1 + 1e-6)?.Severity);
            Assert.Equal(Severity.Caution, Crush((4.0 / 3) - 1e-6)?.Severity);
            Assert.Null(Crush((4.0 / 3) + 1e-6));

            Finding? Crush(double safety)
            {
                var carton = Freight.Small with { GrossWeight = Typed.Heavy(usable.Pounds / 4 / safety, units) };
                return Stack(carton, 16, 5).Check().Findings.SingleOrDefault(f => f.Code == FindingCodes.SelfCrush);
            }
        }
    }

    [Fact]
    public void Exactly_at_the_factor_passes()
    {
        var stack = Stack(Freight.Small, 16, 6);
        var safety = stack.Check().Measures.SelfCrushSafety!.Value;
        Assert.False(stack.Finds(FindingCodes.SelfCrush, rules: Factor(safety)));
        Assert.True(stack.Finds(FindingCodes.SelfCrush, rules: Factor(Math.BitIncrement(safety))));
    }

    [Fact]
    public void The_finding_says_what_presses_and_what_bears()
    {
        var heavy = Freight.Pallet(new CartonContents(Freight.Carton(15, 11, 9, 40, 26), 10, 5, StackKind.Interlocked));
        var finding = heavy.Finding(FindingCodes.SelfCrush);
        Assert.Equal((Severity.Stop, "contents.layers"), (finding.Severity, finding.Subject));
        Assert.Equal((Unit.One, Quantity.Ratio(1)), (finding.Measured.Unit, finding.Limit));
        Assert.Equal(BasisKind.PublishedStandard, finding.Basis.Kind);
        Assert.Contains("McKee", finding.Basis.Source, StringComparison.Ordinal);
        Assert.StartsWith("The bottom carton bears 160 lb from the 4 layers above it.", finding.Message.Said(), StringComparison.Ordinal);
        Assert.EndsWith("Interlocked layers cost a good part of it; columns keep it.", finding.Message.Said(), StringComparison.Ordinal);
        Assert.Contains("straight columns", finding.Cure.Said(), StringComparison.Ordinal);
        Assert.NotNull(FindingCodes.CautionFor(finding.Code));
    }

    [Fact]
    public void Columns_are_not_told_to_become_columns()
    {
        var finding = Stack(Freight.Carton(15, 11, 9, 70, 26), 10, 5).Finding(FindingCodes.SelfCrush);
        Assert.DoesNotContain("column", finding.Message.Said() + finding.Cure.Said(), StringComparison.Ordinal);
        Assert.EndsWith("shaking trailer about 197.3 lb.", finding.Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Film_and_height_limits_change_nothing_about_strength()
    {
        var heavy = Stack(Freight.Carton(15, 11, 9, 70, 26), 10, 5);
        Assert.Equal(heavy.Finding(FindingCodes.SelfCrush), (heavy with { Protection = Protection.None, Quantity = 9, Stackable = true }).Finding(FindingCodes.SelfCrush));
    }

    [Fact]
    public void Expect_on_top_what_the_test_standard_puts_there()
    {
        // ASTM D4169: 10 lb/ft³ over 48 × 40 in from 50 to 108 in; its printed 4511.11 lbf has a factor of 7 in it.
        var fifty = Freight.Machine with { Outer = Freight.Outer(48, 40, 50), GrossWeight = Mass.FromPounds(500) };
        Near(4511.11 / 7, fifty.Check().Measures.TopLoadExpected.Pounds, 1e-5);
        // A later edition names 12 lb/ft³: 5413.33 lbf.
        var later = Tariff.With(rules => rules with { Strength = rules.Strength with { MixedFreightPoundsPerCubicFoot = 12 } });
        Near(5413.33 / 7, fifty.Check(rules: later).Measures.TopLoadExpected.Pounds, 1e-5);
        // The same unit again, where two stand under the roof.
        Assert.Equal(Mass.FromPounds(900), (fifty with { GrossWeight = Mass.FromPounds(900) }).Check().Measures.TopLoadExpected);
        // Nothing goes on what fills the trailer.
        Assert.Equal(Mass.Zero, (Freight.Machine with { Outer = Freight.Outer(48, 40, 108) }).Check().Measures.TopLoadExpected);
    }

    [Fact]
    public void Declared_stackable_it_carries_what_is_to_be_expected_or_is_stopped()
    {
        var (capacity, unit) = HeavyAs(stackable: true);
        Assert.False((unit with { GrossWeight = capacity }).Finds(FindingCodes.TopLoad));
        var finding = (unit with { GrossWeight = capacity + Mass.FromNanograms(1) }).Finding(FindingCodes.TopLoad);
        Assert.Equal((Severity.Stop, "stackable"), (finding.Severity, finding.Subject));
        Assert.Equal((Unit.Pound, Unit.Pound), (finding.Measured.Unit, finding.Limit.Unit));
        Assert.Contains("ASTM D4169", finding.Basis.Source, StringComparison.Ordinal);
        Assert.StartsWith("Declared stackable: expect", finding.Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Declared_not_stackable_though_it_carries_its_like_is_a_tip()
    {
        var (capacity, unit) = HeavyAs(stackable: false);
        var finding = (unit with { GrossWeight = capacity }).Finding(FindingCodes.StackableUnclaimed);
        Assert.Equal((Severity.Tip, "stackable"), (finding.Severity, finding.Subject));
        Assert.Equal((Quantity)capacity, finding.Measured);
        Assert.Equal((Quantity)capacity, finding.Limit);
        Assert.False((unit with { GrossWeight = capacity + Mass.FromNanograms(1) }).Finds(FindingCodes.StackableUnclaimed));
    }

    [Fact]
    public void What_is_fragile_hangs_over_or_is_too_tall_for_two_is_not_called_stackable()
    {
        var unit = Freight.Sound with { Stackable = false };
        Assert.True(unit.Finds(FindingCodes.StackableUnclaimed));
        Assert.False((unit with { Fragile = Fragility.Glass }).Finds(FindingCodes.StackableUnclaimed));
        // Nor is it told to be declared so where its shipper asks that nothing be put on it.
        Assert.False((unit with { Requests = new(NoTopLoad: true) }).Finds(FindingCodes.StackableUnclaimed));
        Assert.False((unit with { Requests = new(Decking: true) }).Finds(FindingCodes.StackableUnclaimed));
        Assert.True((unit with { Requests = new(Airbags: true, Strap: true, Bulkhead: true) }).Finds(FindingCodes.StackableUnclaimed));
        Assert.False(unit.Reaching(length: Length.FromInches(49)).Finds(FindingCodes.StackableUnclaimed));
        Assert.False((Stack(Freight.Carton(11, 9, 10, 6, 44), 16, 5) with { Stackable = false }).Finds(FindingCodes.StackableUnclaimed));
    }

    [Fact]
    public void An_unfinished_top_layer_carries_nothing()
    {
        var unit = Freight.Pallet(new CartonContents(Freight.Small, 16, 3, StackKind.Column, TopLayer: 1)) with { Stackable = true };
        var finding = unit.Finding(FindingCodes.TopSurface);
        Assert.Equal((Severity.Stop, "stackable"), (finding.Severity, finding.Subject));
        Assert.Equal((Quantity.Pieces(1), Quantity.Pieces(16)), (finding.Measured, finding.Limit));
        Assert.Contains("1 of 16 cartons: another unit would rest on that one alone", finding.Message.Said(), StringComparison.Ordinal);
        Assert.Equal(Mass.Zero, unit.Check().Measures.TopLoadCapacity);
        Assert.False((unit with { Stackable = false }).Finds(FindingCodes.TopSurface));
        Assert.False((unit with { Stackable = false }).Finds(FindingCodes.StackableUnclaimed));
    }

    [Theory]
    // Our choice: the load reaches over three quarters of the deck both ways. 27 in of 36 is that, of 36.1 it is not.
    [InlineData(36, false)]
    [InlineData(36.1, true)]
    public void Another_deck_needs_a_foot_to_stand_on(double deckWidth, bool found)
    {
        var cartons = new CartonContents(Freight.Carton(16, 9, 10, 20, 44), 9, 4, StackKind.Column);
        foreach (var units in Typed.Both)
        {
            var unit = Freight.Pallet(cartons, Freight.Deck with { Width = Typed.Long(deckWidth, units) });
            Assert.Equal(Length.FromInches(27), unit.Check().Measures.Shape.LoadWidth);
            Assert.Equal(found, (unit with { Stackable = true }).Finds(FindingCodes.TopSurface));
            Assert.Equal(!found, unit.Finds(FindingCodes.StackableUnclaimed));
        }
    }

    [Fact]
    public void Strength_that_cannot_be_computed_is_asked_for_when_it_is_claimed()
    {
        var unnamed = Freight.Pallet(new CartonContents(Freight.Small with { Board = null }, 16, 4, StackKind.Column)) with { Stackable = true };
        var finding = unnamed.Finding(FindingCodes.BoardUnknown);
        Assert.Equal((Severity.Tip, "contents.carton.board"), (finding.Severity, finding.Subject));
        Assert.Empty((unnamed with { Stackable = false }).Check().Findings);
        Assert.Null(unnamed.Check().Measures.SelfCrushSafety);
        Assert.False(unnamed.Check().Measures.CarriesLikeUnit);
    }

    [Fact]
    public void A_carriers_severities_are_its_own()
    {
        var tariff = Tariff.With(rules => rules with
        {
            Strength = rules.Strength with
            {
                BelowOneSeverity = Severity.Caution, BelowFactorSeverity = Severity.Tip, TopLoadSeverity = Severity.Caution, TopSurfaceSeverity = Severity.Tip,
                UnclaimedSeverity = Severity.Caution, UnknownBoardSeverity = Severity.Stop,
            },
        });
        var weak = Stack(Freight.Carton(15, 11, 9, 40, 26), 10, 6) with { Stackable = true };
        Assert.Equal(Severity.Caution, weak.Finding(FindingCodes.TopLoad, rules: tariff).Severity);
        Assert.Equal(Severity.Caution, weak.Finding(FindingCodes.SelfCrush, rules: tariff).Severity);
        Assert.Equal(Severity.Tip, Stack(Freight.Carton(15, 11, 9, 40, 26), 10, 5).Finding(FindingCodes.SelfCrush, rules: tariff).Severity);
        Assert.Equal(Severity.Caution, (Freight.Sound with { Stackable = false }).Finding(FindingCodes.StackableUnclaimed, rules: tariff).Severity);
        var unfinished = Freight.Pallet(new CartonContents(Freight.Small, 16, 3, StackKind.Column, TopLayer: 4)) with { Stackable = true };
        Assert.Equal((Severity.Tip, Tariff.Seventh), (unfinished.Finding(FindingCodes.TopSurface, rules: tariff).Severity, unfinished.Finding(FindingCodes.TopSurface, rules: tariff).RuleSet));
        var unnamed = Freight.Pallet(new CartonContents(Freight.Small with { Board = null }, 16, 4, StackKind.Column)) with { Stackable = true };
        Assert.Equal(Severity.Stop, unnamed.Finding(FindingCodes.BoardUnknown, rules: tariff).Severity);
    }

    private static HandlingUnit Stack(Carton carton, int perLayer, int layers) => Freight.Pallet(new CartonContents(carton, perLayer, layers, StackKind.Column));

    private static RuleSet Factor(double factor) => Tariff.With(rules => rules with { Strength = rules.Strength with { SafetyFactor = factor } });

    /// <summary>
    /// A unit and what it may carry, so that it can be given just that weight: then its like on top is exactly what it bears.
    /// Board and layers are such that this is more than mixed freight would weigh.
    /// </summary>
    private static (Mass Capacity, HandlingUnit Unit) HeavyAs(bool stackable)
    {
        var unit = Freight.Sound with { Stackable = stackable, Platform = Freight.Deck with { Rating = null } };
        return (unit.Check().Measures.TopLoadCapacity!.Value, unit);
    }

    private static void Near(double expected, double actual, double relative) =>
        Assert.True(Math.Abs(actual - expected) <= expected * relative, $"{actual:R} is not within {relative:0e0} of {expected:R}.");

    [Fact]
    public void The_working_is_the_formula_with_its_figures()
    {
        // 5.87 × 44 × √(0.156 × 40) × 0.63 × 0.80 × 0.90, the handbook's rows for ten days, 70 % and columns not quite straight.
        var finding = Freight.Pallet(new CartonContents(Freight.Small with { GrossWeight = Mass.FromPounds(60) }, 16, 6, StackKind.Column)).Finding(FindingCodes.SelfCrush);
        Assert.StartsWith("5.87 × 44 lb/in × √(0.156 in × 40 in) × 0.63 × 0.8 × 0.9 = 293 lb; 293 lb ÷ 300 lb = 0.98", finding.Formula.Said(), StringComparison.Ordinal);
    }
}
