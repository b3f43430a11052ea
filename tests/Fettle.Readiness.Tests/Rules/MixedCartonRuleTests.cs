using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Cartons of several sizes: whether any order of stacking keeps the weak ones whole. Strength by McKee, as in <see cref="StrengthRuleTests"/>.</summary>
public class MixedCartonRuleTests
{
    [Fact]
    public void Strong_cartons_low_and_light_ones_on_top_are_nothing_to_speak_of() =>
        Assert.DoesNotContain(FindingCodes.SelfCrush, Mixed(Heavy(8), Light(12)).Check().Codes());

    [Fact]
    public void Weak_and_heavy_cartons_that_only_fit_above_one_another_crush()
    {
        // Ten of 16 × 12 in cover the deck; thirty of 70 lb and 23 lb/in stand three high, and the lowest bear 140 lb.
        // Usable by McKee: 5.87 × 23 × √(0.16 × 56) × 0.63 × 0.80 × 0.60 = 122 lb, and less by the factor.
        var finding = Mixed(new CartonLine(Freight.Carton(16, 12, 10, 70, 23), 29), new CartonLine(Freight.Carton(16, 12, 10, 70, 26), 1)).Finding(FindingCodes.SelfCrush);
        Assert.Equal((Severity.Caution, "contents.lines"), (finding.Severity, finding.Subject));
        Assert.Equal(BasisKind.PublishedStandard, finding.Basis.Kind);
        Assert.NotNull(FindingCodes.CautionFor(finding.Code));
    }

    [Fact]
    public void The_same_cartons_beside_one_another_do_not() =>
        Assert.DoesNotContain(
            FindingCodes.SelfCrush,
            Mixed(new CartonLine(Freight.Carton(16, 12, 10, 70, 23), 9), new CartonLine(Freight.Carton(16, 12, 10, 70, 26), 1)).Check().Codes());

    [Fact]
    public void Of_unknown_board_nothing_is_computed_and_a_claim_is_asked_about()
    {
        var unknown = Mixed(new CartonLine(Freight.Carton(16, 12, 10, 70, null), 30), Light(2));
        Assert.DoesNotContain(FindingCodes.SelfCrush, unknown.Check().Codes());
        Assert.DoesNotContain(FindingCodes.BoardUnknown, unknown.Check().Codes());
        var finding = (unknown with { Stackable = true }).Finding(FindingCodes.BoardUnknown);
        Assert.Equal((Severity.Tip, "contents.lines"), (finding.Severity, finding.Subject));
    }

    [Fact]
    public void Film_and_boards_change_nothing_about_it()
    {
        var weak = Mixed(new CartonLine(Freight.Carton(16, 12, 10, 70, 23), 29), new CartonLine(Freight.Carton(16, 12, 10, 70, 26), 1));
        Assert.Equal(weak.Finding(FindingCodes.SelfCrush), (weak with { Protection = Freight.Boarded }).Finding(FindingCodes.SelfCrush));
    }

    private static CartonLine Heavy(int count) => new(Freight.Carton(20, 12, 12, 45, 44), count);

    private static CartonLine Light(int count) => new(Freight.Carton(16, 12, 8, 8, 32), count);

    /// <summary>On the usual deck, as high as needed for full layers of ten, weighed rightly.</summary>
    private static HandlingUnit Mixed(params CartonLine[] lines)
    {
        var contents = new MixedCartonContents(lines);
        var tallest = lines.Max(line => line.Carton.Height);
        return Freight.Sound with
        {
            Contents = contents,
            Stackable = false,
            Outer = new(Freight.Deck.Length, Freight.Deck.Width, Freight.Deck.Height + (tallest * ((contents.Pieces + 9) / 10))),
            GrossWeight = Freight.Deck.Tare + contents.Weight!.Value,
        };
    }
}
