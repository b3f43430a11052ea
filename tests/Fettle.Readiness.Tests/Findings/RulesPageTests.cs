using System.Globalization;
using System.Text.RegularExpressions;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Tests.Findings;

/// <summary>docs/guide/rules.md is kept by hand: it names every finding, and the figures of the built-in rule set.</summary>
public partial class RulesPageTests
{
    private static readonly RuleSet Rules = RuleSet.BuiltIn;

    /// <summary>Of each code the figures and gravities that the page owes its reader.</summary>
    private static readonly Dictionary<string, (double[] Figures, Severity[] Gravities)> Owed = new()
    {
        [FindingCodes.Overhang] = ([0], [Rules.Overhang.OverhangSeverity]),
        [FindingCodes.Clearance] = ([Rules.Overhang.Clearance.Inches], [Rules.Overhang.ClearanceSeverity]),
        [FindingCodes.GrossWeight] = (
            [Rules.Weight.Heavy.Pounds, Rules.Weight.Carrier.Pounds],
            [Rules.Weight.HeavySeverity, Rules.Weight.CarrierSeverity, Rules.Weight.RatingSeverity]),
        [FindingCodes.WeightMismatch] = ([Rules.Weight.Mismatch.Pounds, Rules.Weight.MismatchPercent, Rules.Weight.Packaging.Pounds], [Rules.Weight.MismatchSeverity]),
        [FindingCodes.WrapTurns] = ([Rules.Wrap.Turns], [Rules.Wrap.TurnsSeverity]),
        [FindingCodes.WrapAnchor] = ([1], [Rules.Wrap.AnchorSeverity]),
        [FindingCodes.CornerBoards] = (
            [Rules.Overhang.Flush.Inches, Rules.CornerBoards.Miles, Rules.CornerBoards.Transfers],
            [Rules.CornerBoards.Severity, Rules.CornerBoards.FlushAndFarSeverity]),
        [FindingCodes.Sleeve] = ([Rules.CornerBoards.Miles], [Rules.CornerBoards.SleeveSeverity]),
        [FindingCodes.Height] = ([Rules.Height.Limit.Inches], [Rules.Height.LimitSeverity]),
        [FindingCodes.DoubleStackHeight] = ([Rules.Height.DoubleStack.Inches], [Rules.Height.DoubleStackSeverity]),
        [FindingCodes.Tipping] = (
            [Rules.Tipping.Lateral, Rules.Tipping.Forward, Rules.Tipping.FarBelow],
            [Rules.Tipping.Severity, Rules.Tipping.FarBelowSeverity]),
        [FindingCodes.SelfCrush] = ([1, Math.Round(Rules.Strength.SafetyFactor, 2)], [Rules.Strength.BelowOneSeverity, Rules.Strength.BelowFactorSeverity]),
        [FindingCodes.TopLoad] = ([Rules.Strength.MixedFreightPoundsPerCubicFoot, Rules.Strength.VehicleStack.Inches], [Rules.Strength.TopLoadSeverity]),
        [FindingCodes.TopSurface] = ([Rules.Strength.TopSpan * 100], [Rules.Strength.TopSurfaceSeverity]),
        [FindingCodes.StackableUnclaimed] = ([Rules.Strength.MixedFreightPoundsPerCubicFoot, Rules.Strength.VehicleStack.Inches], [Rules.Strength.UnclaimedSeverity]),
        [FindingCodes.BoardUnknown] = ([1], [Rules.Strength.UnknownBoardSeverity]),
        [FindingCodes.FewLightCartons] = ([Rules.FewCartons.Cartons, Rules.FewCartons.OnePersonLift.Pounds], [Rules.FewCartons.Severity]),
        [FindingCodes.LooseCartonLift] = (
            [Rules.FewCartons.OnePersonLift.Pounds, Rules.FewCartons.TwoPersonLift.Pounds],
            [Rules.FewCartons.TwoPersonSeverity, Rules.FewCartons.TooHeavySeverity]),
        [FindingCodes.LooseCartonStrength] = (
            [Rules.Strength.MixedFreightPoundsPerCubicFoot, Rules.Strength.VehicleStack.Inches, Rules.Strength.SmallPackageStack.Inches],
            [Rules.FewCartons.StrengthSeverity]),
        [FindingCodes.InconsistentDimensions] = (
            [Rules.Consistency.Tape.Inches, Rules.Consistency.Size.Inches, Rules.Consistency.SizePercent, Rules.Consistency.SmallestDeck.Inches],
            [Rules.Consistency.Severity]),
    };

    [Fact]
    public void Every_code_has_one_row() => Assert.Equal(FindingCodesTests.All.Order(), Rows().Select(row => row.Code).Order());

    [Fact]
    public void The_limits_are_those_of_the_built_in_rule_set() => Assert.All(Rows(), row =>
    {
        var shown = Figure().Matches(row.Limit).Select(match => double.Parse(match.Value, NumberStyles.AllowThousands | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture)).Order();
        Assert.True(
            shown.SequenceEqual(Owed[row.Code].Figures.Order()),
            $"{row.Code}: the page says {string.Join(", ", shown)}, the rules {string.Join(", ", Owed[row.Code].Figures.Order())}.");
    });

    [Fact]
    public void So_are_the_gravities() => Assert.All(Rows(), row =>
    {
        var shown = Enum.GetValues<Severity>().Where(severity => Regex.IsMatch(row.Gravity, $@"\b{severity}\b", RegexOptions.IgnoreCase));
        Assert.Equal(Owed[row.Code].Gravities.Distinct().Order(), shown);
    });

    [Fact]
    public void No_row_is_without_what_is_computed_and_what_it_rests_on() =>
        Assert.All(Rows(), row => Assert.All(new[] { row.Computed, row.Basis }, Assert.NotEmpty));

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

    private static string Page { get; } = File.ReadAllText(Checkout.PathTo("docs", "guide", "rules.md"));

    private static IEnumerable<(string Code, string Computed, string Limit, string Gravity, string Basis)> Rows() =>
        from line in Page.Split('\n')
        where line.StartsWith("| `", StringComparison.Ordinal)
        let cells = line.Split('|', StringSplitOptions.TrimEntries)
        select (cells[1].Trim('`'), cells[2], cells[3], cells[4], cells[5]);

    [GeneratedRegex(@"\d[\d,]*(\.\d+)?")]
    private static partial Regex Figure();
}
