using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>A strap over a bare carton edge. The tension is our choice, no source; what the edge bears is edge crush × width × what is left of it.</summary>
public class StrapRuleTests
{
    [Fact]
    public void A_strap_cuts_into_a_bare_edge()
    {
        var finding = Strapped(44).Finding(FindingCodes.Straps);
        Assert.Equal((Severity.Caution, "protection.straps"), (finding.Severity, finding.Subject));
        // 44 lb/in × 0.625 in × 0.63 (10 days) × 0.80 (70 % humidity), Fibre Box Handbook.
        Assert.Equal(44 * 0.625 * 0.63 * 0.8, finding.Measured.Value, 6);
        Assert.Equal((Quantity)Mass.FromPounds(100), finding.Limit);
        Assert.Equal("44 lb/in × 0.63 in × 0.5 = 13.9 lb", finding.Formula.Said());
    }

    [Theory]
    // 44 × 0.625 × 0.504 = 13.86 lb.
    [InlineData(13.85, false)]
    [InlineData(13.86, false)]
    [InlineData(13.87, true)]
    public void A_gentle_strap_does_not(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var tariff = Tariff.With(rules => rules with { Straps = rules.Straps with { Tension = Typed.Heavy(pounds, units) } });
            Assert.Equal(found, Strapped(44).Finds(FindingCodes.Straps, rules: tariff));
            if (found)
                Tariff.IsNamedBy(Strapped(44).Finding(FindingCodes.Straps, rules: tariff));
        }
    }

    [Fact]
    public void Boards_or_a_cap_under_it_or_no_strap_at_all_answer_it()
    {
        foreach (var protection in new[] { Freight.Boarded with { Straps = 2 }, Freight.Wrapped with { Straps = 2, TopCap = true }, Freight.Wrapped })
            Assert.False((Strapped(44) with { Protection = protection }).Finds(FindingCodes.Straps));
        Assert.False((Freight.Machine with { Protection = Protection.None with { Straps = 4 } }).Finds(FindingCodes.Straps));
    }

    [Fact]
    public void How_many_straps_there_are_changes_nothing() =>
        Assert.Equal(Strapped(44).Finding(FindingCodes.Straps), (Strapped(44) with { Protection = Freight.Wrapped with { Straps = 5 } }).Finding(FindingCodes.Straps));

    private static HandlingUnit Strapped(double edgeCrush) =>
        Freight.Pallet(new CartonContents(Freight.Small with { Board = new Board(Flute.C, edgeCrush) }, 16, 4, StackKind.Column)) with { Protection = Freight.Wrapped with { Straps = 1 } };
}
