using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.RuleSets;

public class LimitTests
{
    public static TheoryData<string> Paths => [.. Limit.All.Select(limit => limit.Path)];

    [Fact]
    public void Every_property_of_every_rule_is_a_limit_that_can_be_set()
    {
        var properties = typeof(RuleSet).GetProperties().Where(rule => rule.Name != nameof(RuleSet.Identity)).Sum(rule => rule.PropertyType.GetProperties().Length);

        Assert.Equal(properties, Limit.All.Count);
        Assert.Equal(Limit.All.Select(limit => limit.Path).Distinct(StringComparer.OrdinalIgnoreCase).Count(), Limit.All.Count);
        Assert.True(Limit.All.Count > 40);
    }

    [Theory]
    [MemberData(nameof(Paths))]
    public void Setting_a_limit_changes_that_one_and_no_other(string path)
    {
        var limit = Limit.Find(path)!;
        var other = Another(limit);

        var changed = limit.With(RuleSet.BuiltIn, other);

        Assert.Equal(other, limit.Of(changed));
        Assert.Equal(new LimitChange(limit, limit.Of(RuleSet.BuiltIn), other), Assert.Single(Limit.Between(RuleSet.BuiltIn, changed)));
        Assert.Equal(RuleSet.BuiltIn, limit.With(changed, limit.Of(RuleSet.BuiltIn)));
    }

    [Theory]
    [MemberData(nameof(Paths))]
    public void The_built_in_value_is_within_the_bounds_and_words_are_there(string path)
    {
        var limit = Limit.Find(path)!;

        Assert.Null(LimitNotes.Complaint(limit, limit.Of(RuleSet.BuiltIn)));
        Assert.NotEmpty(limit.Title);
        Assert.NotEmpty(LimitNotes.Heading(limit.Group));
    }

    [Fact]
    public void The_built_in_rules_have_no_problems() => Assert.Empty(LimitNotes.Problems(RuleSet.BuiltIn));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(-1)]
    [InlineData(1e300)]
    public void No_number_may_be_negative_endless_or_no_number(double figure) => Assert.All(
        Limit.All.Where(limit => limit.Kind == LimitKind.Number),
        limit => Assert.NotNull(LimitNotes.Complaint(limit, figure)));

    [Fact]
    public void No_length_mass_or_count_may_be_negative()
    {
        foreach (var limit in Limit.All)
        {
            object? negative = limit.Kind switch
            {
                LimitKind.Length => Length.FromInches(-0.01),
                LimitKind.Mass => Mass.FromPounds(-0.01),
                LimitKind.Whole => -1,
                _ => null,
            };
            if (negative is not null)
                Assert.Contains(LimitNotes.Problems(limit.With(RuleSet.BuiltIn, negative)), problem => problem.Path == limit.Path);
        }
    }

    [Fact]
    public void What_can_hurt_people_cannot_be_made_milder_and_says_why()
    {
        var rating = Limit.Find("weight.ratingSeverity")!;

        Assert.Contains("maker", LimitNotes.Complaint(rating, Severity.Caution), StringComparison.Ordinal);
        Assert.Null(LimitNotes.Complaint(rating, Severity.Stop));
        Assert.NotNull(LimitNotes.Complaint(Limit.Find("tipping.farBelowSeverity")!, Severity.Tip));
        Assert.Null(LimitNotes.Complaint(Limit.Find("tipping.farBelowSeverity")!, Severity.Caution));
        Assert.Null(LimitNotes.Complaint(Limit.Find("overhang.overhangSeverity")!, Severity.Tip));
        Assert.NotNull(LimitNotes.Complaint(rating, (Severity)7));
    }

    [Fact]
    public void Nothing_is_heavier_than_heavy_that_the_carrier_does_not_take()
    {
        var rules = RuleSet.BuiltIn with { Weight = new() { Heavy = Mass.FromPounds(3000), Carrier = Mass.FromPounds(2500) } };

        Assert.Equal("Heavy comes before your limit for one unit: at most 2,500 lb.", Assert.Single(LimitNotes.Problems(rules)).Message);
    }

    [Fact]
    public void No_rules_without_problems_make_the_check_fail() => Gen.Select(Any.Allowed, Any.Lane, Gen.Int[0, Limit.All.Count - 1], Gen.Double[0, 1]).Sample(
        (unit, lane, index, share) =>
        {
            // Both ends of a limit's bounds, and somewhere between.
            foreach (var at in (double[])[0, share, 1])
            {
                var rules = Within(Limit.All[index], at);
                if (LimitNotes.Problems(rules).Count > 0)
                    continue;
                var result = ReadinessCheck.Run(unit, lane, rules);
                AlternativeFinder.Find(unit, result, lane, rules, UnitCosts.Default);
            }
        },
        iter: 600,
        threads: 1);

    private static RuleSet Within(Limit limit, double at)
    {
        if (LimitNotes.Bounds(limit) is not var (least, most))
            return limit.With(RuleSet.BuiltIn, Another(limit));
        var figure = least + ((most - least) * at);
        return limit.With(RuleSet.BuiltIn, limit.Kind switch
        {
            LimitKind.Length => Length.FromInches(figure),
            LimitKind.Mass => Mass.FromPounds(figure),
            LimitKind.Whole => (object)(int)figure,
            _ => figure,
        });
    }

    private static object Another(Limit limit) => limit.Of(RuleSet.BuiltIn) switch
    {
        Severity severity => severity == Severity.Stop ? Severity.Caution : Severity.Stop,
        Length length => length + Length.FromInches(1),
        Mass mass => mass + Mass.FromPounds(1),
        double number => number + 1,
        int whole => whole + 1,
        bool yes => !yes,
        var value => throw new InvalidOperationException($"{value} is no limit."),
    };
}
