using System.Reflection;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Tests.Findings;

public class FindingCodesTests
{
    public static IReadOnlyList<string> All { get; } =
        [.. typeof(FindingCodes).GetFields(BindingFlags.Public | BindingFlags.Static).Where(field => field.IsLiteral).Select(field => (string)field.GetRawConstantValue()!)];

    [Fact]
    public void Codes_are_unique_and_made_of_small_letters_and_dashes()
    {
        Assert.Equal(All.Distinct(), All);
        Assert.All(All, code => Assert.Matches("^[a-z]+(-[a-z]+)*$", code));
    }

    [Fact]
    public void Each_code_has_words_of_its_own()
    {
        Assert.All(All, code => Assert.Matches("^[a-z][a-z ]+$", FindingCodes.Words(code)));
        Assert.Equal(All.Count, All.Select(FindingCodes.Words).Distinct().Count());
    }

    [Fact]
    public void Each_code_is_described_once_with_a_heading_of_its_own()
    {
        Assert.Equal(All.Order(), RuleBook.All.Select(rule => rule.Code).Order());
        Assert.Equal(All.Count, All.Select(FindingCodes.Title).Distinct().Count());
        Assert.All(All, code => Assert.Matches("^[A-Z].{3,26}$", FindingCodes.Title(code)));
    }

    [Fact]
    public void A_code_that_is_none_of_ours_stands_for_itself() =>
        Assert.Equal(("what-is-this", "what-is-this", null), (FindingCodes.Words("what-is-this"), FindingCodes.Title("what-is-this"), FindingCodes.CautionFor("what-is-this")));

    [Fact]
    public void A_figure_that_can_hurt_someone_comes_with_the_usual_caution()
    {
        string[] hurting =
        [
            FindingCodes.GrossWeight, FindingCodes.Tipping, FindingCodes.SelfCrush, FindingCodes.TopLoad, FindingCodes.TopSurface,
            FindingCodes.StackableUnclaimed, FindingCodes.BoardUnknown, FindingCodes.DoubleStackHeight, FindingCodes.LooseCartonStrength,
            FindingCodes.LooseCartonLift, FindingCodes.FewLightCartons, FindingCodes.ManualLift, FindingCodes.Sliding, FindingCodes.NeverStackable,
            FindingCodes.FragileStackable, FindingCodes.Straps, FindingCodes.PlatformCondition, FindingCodes.DrumTiers, FindingCodes.LooseDrums,
            FindingCodes.LoneDrum, FindingCodes.RollChocks, FindingCodes.Unfastened, FindingCodes.OverLength, FindingCodes.HeavyLoose,
            FindingCodes.Liftgate, FindingCodes.NoDock, FindingCodes.Regulated, FindingCodes.StackTest,
        ];
        Assert.Equal(hurting.Order(), All.Where(code => FindingCodes.CautionFor(code) is not null).Order());
        Assert.All(hurting, code => Assert.DoesNotContain("safe", FindingCodes.CautionFor(code), StringComparison.Ordinal));
    }
}
