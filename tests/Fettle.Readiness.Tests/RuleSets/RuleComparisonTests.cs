using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.RuleSets;

public class RuleComparisonTests
{
    private static readonly Guid Shipper = new("0198a1c0-0000-7000-8000-0000000000a1");
    private static readonly Guid Other = new("0198a1c0-0000-7000-8000-0000000000a2");

    private static readonly RuleSet Stricter = RuleSet.BuiltIn with { Wrap = new() { Turns = 4 } };

    [Fact]
    public void Units_and_pickups_that_would_be_held_are_counted_by_shipper_with_the_findings_that_are_new()
    {
        var sound = Freight.Sound with { Quantity = 3 };
        var firm = sound with { Reference = "A2", Quantity = 5, Protection = sound.Protection with { WrapTurns = 4 } };
        Assert.Equal((false, true), (Held(sound, RuleSet.BuiltIn), Held(sound, Stricter)));
        Assert.Equal((false, false), (Held(firm, RuleSet.BuiltIn), Held(firm, Stricter)));

        var effect = new RuleComparison(RuleSet.BuiltIn, Stricter).Of([(Shipper, Of(sound, firm)), (Other, Of(firm))]);

        Assert.Equal(new HeldCount(2, 0, 1, 0), effect.Pickups);
        Assert.Equal(new HeldCount(13, 0, 3, 0), effect.Units);
        Assert.Equal((3, 0), (effect.Units.After, effect.Shippers.Single(one => one.ShipperId == Other).Units.After));
        Assert.Equal(new FindingEffect(FindingCodes.WrapTurns, Severity.Stop, 0, 3, 0), effect.Findings.Single(one => one.Code == FindingCodes.WrapTurns));
    }

    [Fact]
    public void The_other_way_round_what_was_caught_is_let_go()
    {
        var effect = new RuleComparison(Stricter, RuleSet.BuiltIn).Of([(Shipper, Of(Freight.Sound with { Quantity = 3 }))]);

        Assert.Equal((new HeldCount(3, 3, 0, 3), new HeldCount(1, 1, 0, 1)), (effect.Units, effect.Pickups));
        Assert.Equal(new FindingEffect(FindingCodes.WrapTurns, Severity.Stop, 3, 0, 3), effect.Findings.Single(one => one.Code == FindingCodes.WrapTurns));
    }

    [Fact]
    public void What_becomes_graver_is_gone_as_one_and_new_as_another()
    {
        var milder = Stricter with { Wrap = Stricter.Wrap with { TurnsSeverity = Severity.Caution } };

        var effect = new RuleComparison(milder, Stricter).Of([(Shipper, Of(Freight.Sound with { Quantity = 2 }))]);

        Assert.Equal(
            [new(FindingCodes.WrapTurns, Severity.Caution, 2, 0, 2), new(FindingCodes.WrapTurns, Severity.Stop, 0, 2, 0)],
            effect.Findings.Where(one => one.Code == FindingCodes.WrapTurns).OrderBy(one => one.Severity));
    }

    [Fact]
    public void Nothing_declared_is_nothing_counted() =>
        Assert.Equal((0, 0, 0), (new RuleComparison(RuleSet.BuiltIn, Stricter).Of([]).Units.All, RuleEffect.None.Pickups.After, RuleEffect.Sum([]).Findings.Count));

    [Fact]
    public void Remembering_and_adding_up_give_what_checking_each_pickup_whole_gives() => Gen.Select(Any.Allowed.Array[1, 4], Any.Lane, Gen.Int[1, 3]).Sample(
        (units, lane, times) =>
        {
            var declaration = new Declaration(lane, DriverOnDock: true, UnitSystem.Imperial, [.. units.Select((unit, i) => unit with { Reference = $"A{i}" })]);
            var comparison = new RuleComparison(RuleSet.BuiltIn, Stricter);

            var effect = RuleEffect.Sum([.. Enumerable.Range(0, times).Select(_ => comparison.Of([(Shipper, declaration)]))]);

            var (before, after) = (ReadinessCheck.Run(declaration, RuleSet.BuiltIn), ReadinessCheck.Run(declaration, Stricter));
            Assert.Equal(times * HeldUnits(before), effect.Units.Before);
            Assert.Equal(times * HeldUnits(after), effect.Units.After);
            Assert.Equal(before.Verdict == Verdict.Hold ? times : 0, effect.Pickups.Before);
            Assert.Equal(after.Verdict == Verdict.Hold ? times : 0, effect.Pickups.After);
            Assert.Equal(effect.Units, Assert.Single(effect.Shippers).Units);
        },
        iter: 300,
        threads: 1);

    private static int HeldUnits(CheckResult result) => result.HandlingUnits.Where(unit => unit.Verdict == Verdict.Hold).Sum(unit => unit.Quantity);

    private static bool Held(HandlingUnit unit, RuleSet rules) => unit.Check(rules: rules).Verdict == Verdict.Hold;

    private static Declaration Of(params HandlingUnit[] units) => new(Freight.Near, DriverOnDock: true, UnitSystem.Imperial, units);
}
