using System.Text;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Findings;

/// <summary>The table of docs/guide/rules.md is made from the rule book and the built-in rule set, and the text beside it holds the same figures.</summary>
public class RulesPageTests
{
    private const string From = "<!-- made from the rule book: begin -->";
    private const string To = "<!-- made from the rule book: end -->";

    private static readonly RuleSet Rules = RuleSet.BuiltIn;

    [Fact]
    public void The_page_has_the_table_that_the_rule_book_makes()
    {
        var (from, to) = (Page.IndexOf(From, StringComparison.Ordinal), Page.IndexOf(To, StringComparison.Ordinal));
        Assert.True(from >= 0 && to > from, $"docs/guide/rules.md has lost its marks, {From} and {To}.");
        var made = $"{Page[..(from + From.Length)]}\n\n{Table()}\n{Page[to..]}";
        if (made == Page)
            return;
        var received = Path.Combine(AppContext.BaseDirectory, "rules.received.md");
        File.WriteAllText(received, made);
        Assert.Fail($"docs/guide/rules.md is stale: the rule book or the built-in rule set has changed. Copy {received} over it.");
    }

    [Fact]
    public void Every_rule_says_what_is_computed_its_limit_its_gravity_and_its_basis() => Assert.All(RuleBook.All, rule =>
    {
        Assert.NotEmpty(rule.Computed);
        Assert.NotEmpty(rule.Limit(Rules).Said());
        Assert.Contains(Enum.GetNames<Severity>(), word => rule.Gravity(Rules).Contains(word, StringComparison.OrdinalIgnoreCase));
        Assert.NotEmpty(rule.Basis);
        Assert.DoesNotContain('|', rule.Computed + rule.Limit(Rules).Said() + rule.Gravity(Rules) + rule.Basis);
    });

    [Fact]
    public void A_carriers_own_figure_is_in_its_own_table()
    {
        var tariff = Tariff.With(rules => rules with { Wrap = rules.Wrap with { Turns = 5, TurnsSeverity = Severity.Tip } });
        var film = RuleBook.Find(FindingCodes.WrapTurns)!;
        Assert.Equal(("5 turns", "tip"), (film.Limit(tariff).Said(), film.Gravity(tariff)));
        Assert.Equal(("2 turns", "stop"), (film.Limit(Rules).Said(), film.Gravity(Rules)));
    }

    [Fact]
    public void The_conditions_of_strength_are_those_of_the_built_in_rule_set()
    {
        Assert.Contains($"| time under load | {Rules.Strength.Days:0} days |", Page, StringComparison.Ordinal);
        Assert.Contains($"| humidity | {Rules.Strength.RelativeHumidity:0} % |", Page, StringComparison.Ordinal);
        Assert.Contains($"It must be {Rules.Strength.SafetyFactor:0.##} times that load", Page, StringComparison.Ordinal);
        Assert.Equal(Rules.Strength.DeckGaps, Page.Contains("| deck gaps | on a wooden deck |", StringComparison.Ordinal));
        Assert.Contains("(../engineering/derating.md)", Page, StringComparison.Ordinal);
        Assert.True(File.Exists(Checkout.PathTo("docs", "engineering", "derating.md")));
    }

    private static string Table()
    {
        var table = new StringBuilder("| code | what is computed | limit | gravity | basis |\n| --- | --- | --- | --- | --- |\n");
        foreach (var rule in RuleBook.All)
            table.Append(System.Globalization.CultureInfo.InvariantCulture, $"| `{rule.Code}` | {rule.Computed} | {rule.Limit(Rules).Said()} | {rule.Gravity(Rules)} | {rule.Basis} |\n");
        return table.ToString();
    }

    private static string Page { get; } = File.ReadAllText(Checkout.PathTo("docs", "guide", "rules.md")).ReplaceLineEndings("\n");
}
