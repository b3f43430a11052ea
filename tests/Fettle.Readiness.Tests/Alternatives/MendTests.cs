using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Alternatives;

/// <summary>What is put right without building the load again, on freight that calls for it.</summary>
public class MendTests
{
    private static readonly HandlingUnit Glass = Freight.Sound with { Fragile = Fragility.Glass, Stackable = false };

    private static readonly HandlingUnit Drums = Freight.Machine with
    {
        Contents = new DrumContents(Length.FromInches(23), Length.FromInches(34.5), Mass.FromPounds(400), 2, 1, DrumMaterial.Steel),
        GrossWeight = Mass.FromPounds(840),
    };

    private static readonly HandlingUnit Rolls = Freight.Machine with
    {
        Contents = new RollContents(Length.FromInches(38), Length.FromInches(44), Mass.FromPounds(860), 1, RollStanding.OnSide),
        Outer = Freight.Outer(48, 40, 43.5),
    };

    public static TheoryData<string, Func<HandlingUnit>, string> Cases => new()
    {
        { FindingCodes.Partitions, () => Glass, "Put partitions into the cartons" },
        { FindingCodes.FragileCare, () => Glass with { Partitions = true }, "Ask the carrier for decking" },
        { FindingCodes.FragileCare, () => Glass with { Partitions = true }, "Ask the carrier for airbags" },
        { FindingCodes.FragileStackable, () => Glass with { Partitions = true, Stackable = true }, "Declare it not stackable" },
        { FindingCodes.PlatformCondition, () => Freight.Sound with { Platform = Freight.Deck with { Condition = PlatformCondition.Damaged } }, "Put it on a sound pallet" },
        { FindingCodes.Unfastened, () => Freight.Machine with { Contents = new MachineryContents("lathe", Fastened: false, null) }, "Bolt or strap it to what it stands on" },
        { FindingCodes.Unbraced, () => Freight.Machine with { Kind = HandlingUnitKind.Crate, Platform = null, Contents = new CrateContents("lathe", Braced: false) }, "Block and brace what is in the crate" },
        { FindingCodes.LooseDrums, () => Drums, "Strap it twice" },
        { FindingCodes.RollChocks, () => Rolls, "Strap it twice" },
        { FindingCodes.FreightClass, () => Freight.Sound with { DeclaredClass = 400 }, "Declare class" },
        { FindingCodes.Straps, () => Freight.Sound with { Protection = Freight.Wrapped with { Straps = 2 } }, "Put corner boards down to the pallet" },
        { FindingCodes.NeverStackable, () => Freight.Machine with { Contents = new FurnitureContents("sofa", Boxed: false), Stackable = true, Protection = Freight.Wrapped }, "Declare it not stackable" },
        { FindingCodes.BareFurniture, () => Freight.Machine with { Contents = new FurnitureContents("sofa", Boxed: false) }, "Wrap 2 full turns" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void A_change_that_the_finding_asks_for_is_offered(string code, Func<HandlingUnit> unit, string summary)
    {
        var declared = unit();
        Assert.True(declared.Finds(code), string.Join(", ", declared.Check().Codes()));
        var offered = AlternativeFinder.Find(declared, declared.Check(), Freight.Near, RuleSet.BuiltIn, UnitCosts.Default).Alternatives;
        Assert.Contains(offered, a => a.Cures.Contains(code) && a.Summary.Said().Contains(summary, StringComparison.Ordinal));
    }

    [Fact]
    public void A_pallet_without_a_mark_is_exchanged_across_a_border()
    {
        var lane = Freight.Near with { CrossBorder = true };
        var search = AlternativeFinder.Find(Freight.Sound, Freight.Sound.Check(lane), lane, RuleSet.BuiltIn, UnitCosts.Default);
        var offered = Assert.Single(search.Alternatives);
        Assert.Equal([FindingCodes.TreatmentMark], offered.Cures);
        Assert.Equal(TreatmentMark.HT, offered.HandlingUnits[0].Platform!.TreatmentMark);
        Assert.Equal("Put it on a sound pallet with the treatment mark on its wood", offered.Summary.Said());
        Assert.Equal((15m, 15.0), (offered.Cost.Material, offered.Cost.Minutes));
    }

    [Fact]
    public void Bags_in_columns_are_tied()
    {
        var bags = Freight.Machine with
        {
            Contents = new BagContents(Mass.FromPounds(43), 5, 4, StackKind.Column),
            Protection = Freight.Wrapped with { SlipSheets = true, TopCap = true },
        };
        var offered = AlternativeFinder.Find(bags, bags.Check(), Freight.Near, RuleSet.BuiltIn, UnitCosts.Default).Alternatives;
        Assert.Contains(offered, a => a.Cures.Contains(FindingCodes.BagColumns) && a.HandlingUnits[0].Contents is BagContents { Stack: StackKind.Interlocked });
    }

    [Fact]
    public void A_strap_that_is_asked_for_lightens_the_word_about_tipping()
    {
        var tall = Freight.Machine with { Kind = HandlingUnitKind.Crate, Platform = null, Contents = new CrateContents("lathe", Braced: true), Outer = Freight.Outer(60, 40, 90) };
        Assert.Equal(Severity.Caution, tall.Check().Findings.First(f => f.Code == FindingCodes.Tipping).Severity);
        var offered = AlternativeFinder.Find(tall, tall.Check(), Freight.Near, RuleSet.BuiltIn, UnitCosts.Default).Alternatives;
        var strapped = Assert.Single(offered, a => a.HandlingUnits[0].Requests.Strap);
        Assert.All(strapped.Results[0].Findings.Where(f => f.Code == FindingCodes.Tipping), f => Assert.Equal(Severity.Tip, f.Severity));
        Assert.Equal((10m, 0.0), (strapped.Cost.Material, strapped.Cost.Minutes));
    }

    [Fact]
    public void Nothing_is_mended_that_only_a_person_can_confirm()
    {
        var regulated = Freight.Sound with { Hazardous = true };
        var search = AlternativeFinder.Find(regulated, regulated.Check(), Freight.Near, RuleSet.BuiltIn, UnitCosts.Default);
        Assert.Empty(search.Alternatives);
        Assert.Contains(FindingCodes.Words(FindingCodes.Regulated), search.Blocked!.Said(), StringComparison.Ordinal);
    }
}
