using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Long, heavy and awkward units. Common practice, no source: carriers' tariffs differ.</summary>
public class AwkwardRuleTests
{
    [Theory]
    [InlineData(95.9, false)]
    [InlineData(96, false)]
    [InlineData(96.1, true)]
    public void Over_eight_feet_it_does_not_turn(double inches, bool found)
    {
        foreach (var units in Typed.Both)
        {
            Assert.Equal(found, (Freight.Machine with { Outer = Freight.Machine.Outer with { Length = Typed.Long(inches, units) } }).Finds(FindingCodes.OverLength));
            Assert.Equal(found, (Freight.Machine with { Outer = Freight.Machine.Outer with { Width = Typed.Long(inches, units) } }).Finds(FindingCodes.OverLength));
        }
    }

    [Theory]
    [InlineData(749.9, false)]
    [InlineData(750, false)]
    [InlineData(750.1, true)]
    public void A_piece_without_a_pallet_is_heavy_from_seven_hundred_and_fifty_pounds(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var piece = Freight.Bare(new PieceContents("boiler")) with { GrossWeight = Typed.Heavy(pounds, units) };
            Assert.Equal(found, piece.Finds(FindingCodes.HeavyLoose));
            Assert.Equal(found, (piece with { Kind = HandlingUnitKind.Crate }).Finds(FindingCodes.HeavyLoose));
            Assert.False((Freight.Machine with { GrossWeight = piece.GrossWeight }).Finds(FindingCodes.HeavyLoose));
        }
    }

    [Theory]
    [InlineData(1999, 72, 0)]
    [InlineData(2000, 72, 0)]
    [InlineData(2001, 72, 1)]
    [InlineData(2000, 72.1, 1)]
    [InlineData(2001, 72.1, 2)]
    public void A_liftgate_takes_so_much_weight_and_length(double pounds, double inches, int found)
    {
        foreach (var units in Typed.Both)
        {
            var unit = Freight.Machine with { GrossWeight = Typed.Heavy(pounds, units), Outer = Freight.Machine.Outer with { Length = Typed.Long(inches, units) } };
            Assert.Equal(found, unit.Check(Freight.Near with { Liftgate = true }).Codes().Count(code => code == FindingCodes.Liftgate));
            Assert.False(unit.Finds(FindingCodes.Liftgate));
        }
    }

    [Theory]
    [InlineData(101.9, false)]
    [InlineData(102, false)]
    [InlineData(102.1, true)]
    public void Without_dock_and_liftgate_two_people_take_it_down(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var unit = Freight.Machine with { GrossWeight = Typed.Heavy(pounds, units) };
            Assert.Equal(found, unit.Finds(FindingCodes.NoDock, Freight.Near with { NoDock = true }));
            Assert.False(unit.Finds(FindingCodes.NoDock, Freight.Near with { NoDock = true, Liftgate = true }));
            Assert.False(unit.Finds(FindingCodes.NoDock));
        }
    }

    [Fact]
    public void All_are_cautions_and_a_carriers_own_figures_are_named()
    {
        var tariff = Tariff.With(rules => rules with
        {
            Awkward = rules.Awkward with { Long = Length.FromInches(40), HeavyLoose = Mass.FromPounds(300), LiftgateWeight = Mass.FromPounds(350), NoDock = Mass.FromPounds(50) },
        });
        var piece = Freight.Bare(new PieceContents("boiler"));
        foreach (var (code, lane) in new[]
        {
            (FindingCodes.OverLength, Freight.Near), (FindingCodes.HeavyLoose, Freight.Near), (FindingCodes.Liftgate, Freight.Near with { Liftgate = true }), (FindingCodes.NoDock, Freight.Near with { NoDock = true }),
        })
        {
            var finding = piece.Finding(code, lane, tariff);
            Assert.Equal(Severity.Caution, finding.Severity);
            Tariff.IsNamedBy(finding);
            Assert.Equal(finding, (piece with { Stackable = false, Protection = Freight.Wrapped }).Finding(code, lane, tariff));
        }
    }
}
