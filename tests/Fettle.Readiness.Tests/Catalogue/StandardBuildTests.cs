using Fettle.Engineering.Units;
using Fettle.Readiness.Catalogue;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Catalogue;

public sealed class StandardBuildTests
{
    private static readonly Lane Near = new(300, 1, false);
    private static readonly Guid Carrier = new("00000000-0000-7000-8000-000000000003");
    private static readonly DateTimeOffset Monday = new(2026, 11, 23, 9, 0, 0, TimeSpan.Zero);

    /// <summary>The same rules with a limit that any pallet is over.</summary>
    private static readonly RuleSet Stricter = RuleSet.BuiltIn with { Identity = new("Larkspur", 2), Weight = new() { Carrier = Mass.FromPounds(100) } };

    [Fact]
    public void A_unit_that_passes_is_kept_as_one_with_the_version_that_passed_it()
    {
        var build = StandardBuild.Of(Freight.Sound with { Quantity = 12, BuiltBy = "Ben" }, Near, Carrier, RuleSet.BuiltIn, Monday)!;

        Assert.True(build.Passes);
        Assert.Null(build.Against);
        Assert.Equal(1, build.Unit.Quantity);
        Assert.Null(build.Unit.BuiltBy);
        var judged = Assert.Single(build.Judgements);
        Assert.Equal((Carrier, RuleSet.BuiltIn.Identity, Monday), (judged.CarrierId!.Value, judged.RuleSet, judged.At));
    }

    [Fact]
    public void A_unit_that_would_be_held_is_not_kept() =>
        Assert.Null(StandardBuild.Of(Freight.Sound, Near, Carrier, Stricter, Monday));

    [Fact]
    public void Rules_that_changed_judge_it_anew_and_mark_it()
    {
        var build = Kept().Recheck(Carrier, Stricter, Monday.AddDays(7));

        Assert.False(build.Passes);
        Assert.Equal(Stricter.Identity, build.Against!.RuleSet);
        Assert.Contains(build.Against.Findings, finding => finding is { Code: FindingCodes.GrossWeight, Severity: Severity.Stop });
        Assert.Single(build.Judgements);
    }

    [Fact]
    public void The_same_version_judges_once()
    {
        var build = Kept().Recheck(Carrier, Stricter, Monday.AddDays(7));

        Assert.Same(build, build.Recheck(Carrier, Stricter, Monday.AddDays(8)));
    }

    [Fact]
    public void One_carriers_rules_say_nothing_about_anothers()
    {
        var build = Kept().Recheck(Guid.Empty, Stricter, Monday);

        Assert.Equal(2, build.Judgements.Count);
        Assert.False(build.Passes);
        // The other carrier takes its change back.
        Assert.True(build.Recheck(Guid.Empty, RuleSet.BuiltIn with { Identity = new("Larkspur", 3) }, Monday.AddDays(1)).Passes);
    }

    [Fact]
    public void It_reads_back_from_JSON_as_it_was()
    {
        var build = Kept().Recheck(Carrier, Stricter, Monday);

        var back = System.Text.Json.JsonSerializer.Deserialize<StandardBuild>(System.Text.Json.JsonSerializer.Serialize(build))!;

        Assert.Equal(build.Unit, back.Unit);
        Assert.Equal(build.Against!.Findings, back.Against!.Findings);
    }

    private static StandardBuild Kept() => StandardBuild.Of(Freight.Sound, Near, Carrier, RuleSet.BuiltIn, Monday)!;
}
