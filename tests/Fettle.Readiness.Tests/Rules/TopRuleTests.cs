using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>What stands on top, what covers it and what lies between the layers. Common practice, no source.</summary>
public class TopRuleTests
{
    private static readonly RollContents OnSide = new(Length.FromInches(20), Length.FromInches(40), Mass.FromPounds(300), 2, RollStanding.OnSide);

    [Theory]
    [InlineData(TopSurface.Flat, false)]
    [InlineData(TopSurface.Uneven, true)]
    [InlineData(TopSurface.Pyramid, true)]
    public void Only_a_flat_top_is_stackable(TopSurface top, bool found)
    {
        var unit = Freight.Sound with { TopSurface = top };
        Assert.Equal(found, unit.Finds(FindingCodes.TopSurface));
        Assert.Equal(!found, unit.Check().Measures.CarriesLikeUnit);
        Assert.False((unit with { Stackable = false }).Finds(FindingCodes.TopSurface));
        if (found)
            Assert.Equal((Severity.Stop, "topSurface"), (unit.Finding(FindingCodes.TopSurface).Severity, unit.Finding(FindingCodes.TopSurface).Subject));
    }

    [Fact]
    public void Some_freight_never_carries_another()
    {
        foreach (var unit in new[]
        {
            Freight.Loaded(new FurnitureContents("sofa", true)), Freight.Loaded(new MachineryContents("lathe", true, null)), Freight.Loaded(OnSide), Freight.Bare(new PieceContents("boiler")),
        })
        {
            var finding = (unit with { Stackable = true }).Finding(FindingCodes.NeverStackable);
            Assert.Equal((Severity.Stop, "stackable"), (finding.Severity, finding.Subject));
            Assert.False(unit.Finds(FindingCodes.NeverStackable));
            Assert.False((unit with { Kind = HandlingUnitKind.Crate, Platform = null, Stackable = true }).Finds(FindingCodes.NeverStackable));
        }

        Assert.False((Freight.Loaded(OnSide with { Standing = RollStanding.OnEnd }) with { Stackable = true }).Finds(FindingCodes.NeverStackable));
        Assert.False((Freight.Machine with { Stackable = true }).Finds(FindingCodes.NeverStackable));
    }

    [Fact]
    public void Fragile_cartons_want_a_cap_and_more_so_on_a_hard_lane()
    {
        Assert.Equal(Severity.Tip, Glass.Finding(FindingCodes.TopCap).Severity);
        Assert.Equal(Severity.Tip, Glass.Finding(FindingCodes.TopCap, new Lane(500, 1, false)).Severity);
        Assert.Equal(Severity.Caution, Glass.Finding(FindingCodes.TopCap, new Lane(500.1, 0, false)).Severity);
        Assert.Equal(Severity.Caution, Glass.Finding(FindingCodes.TopCap, new Lane(100, 2, false)).Severity);
        Assert.False((Glass with { Protection = Freight.Wrapped with { TopCap = true } }).Finds(FindingCodes.TopCap));
        Assert.Equal(Glass.Finding(FindingCodes.TopCap), (Glass with { Quantity = 3, Partitions = false }).Finding(FindingCodes.TopCap));
    }

    [Fact]
    public void A_stackable_flush_load_that_goes_far_wants_one_too()
    {
        var flush = Freight.Pallet(new CartonContents(Freight.Carton(20, 12, 10, 20, 44), 8, 4, StackKind.Column)) with { Stackable = true };
        Assert.Equal(Severity.Tip, flush.Finding(FindingCodes.TopCap, Freight.Far).Severity);
        Assert.False(flush.Finds(FindingCodes.TopCap));
        Assert.False(Freight.Sound.Finds(FindingCodes.TopCap, Freight.Far));
        Assert.False((flush with { Stackable = false }).Finds(FindingCodes.TopCap, Freight.Far));
    }

    [Theory]
    [InlineData(4, 501, 0, Fragility.None, false)]
    [InlineData(5, 501, 0, Fragility.None, true)]
    [InlineData(6, 501, 0, Fragility.None, true)]
    [InlineData(5, 500, 1, Fragility.None, false)]
    [InlineData(5, 500, 2, Fragility.None, true)]
    [InlineData(2, 501, 0, Fragility.Glass, false)]
    [InlineData(3, 501, 0, Fragility.Glass, true)]
    public void Tall_columns_on_a_hard_lane_want_sheets(int layers, double miles, int transfers, Fragility fragile, bool found)
    {
        var columns = Freight.Pallet(new CartonContents(Freight.Small, 16, layers, StackKind.Column)) with { Fragile = fragile };
        Assert.Equal(found, columns.Finds(FindingCodes.SlipSheets, new Lane(miles, transfers, false)));
        Assert.False((columns with { Contents = columns.Cartons() with { Stack = StackKind.Interlocked } }).Finds(FindingCodes.SlipSheets, new Lane(miles, transfers, false)));
        Assert.False((columns with { Protection = Freight.Wrapped with { SlipSheets = true } }).Finds(FindingCodes.SlipSheets, new Lane(miles, transfers, false)));
    }

    [Fact]
    public void A_carriers_number_of_layers_is_named()
    {
        var tariff = Tariff.With(rules => rules with { Top = rules.Top with { SheetTiers = 2, SheetSeverity = Severity.Caution } });
        var finding = Freight.Sound.Finding(FindingCodes.SlipSheets, Freight.Far, tariff);
        Assert.Equal((Severity.Caution, Quantity.Pieces(4), Quantity.Pieces(2)), (finding.Severity, finding.Measured, finding.Limit));
        Tariff.IsNamedBy(finding);
    }

    private static HandlingUnit Glass { get; } = Freight.Sound with { Fragile = Fragility.Glass, Partitions = true, Stackable = false };
}
