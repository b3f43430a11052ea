using System.Collections.Concurrent;
using System.Text.Json;
using System.Text.RegularExpressions;
using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Findings;

/// <summary>Everything that the check can say is there in Spanish, with the same figures in it.</summary>
public partial class TranslationTests
{
    private static readonly JsonSerializerOptions EachKeyOnce = new() { AllowDuplicateProperties = false };

    private static readonly Dictionary<string, string> Everything =
        Directory.EnumerateFiles(Checkout.PathTo("src", "Fettle.Web", "Languages"), "*.es.json").SelectMany(Table).ToDictionary(pair => pair.Key, pair => pair.Value, StringComparer.Ordinal);

    /// <summary>The same in both languages.</summary>
    private static readonly HashSet<string> Alike = ["No", "Terminal", "Metal", "Material"];

    [Fact]
    public void Every_phrase_in_the_source_is_translated()
    {
        var found = 0;
        Assert.All(Sources(), file =>
        {
            var inRules = Path.GetFileName(Path.GetDirectoryName(file)) == "Rules";
            var source = File.ReadAllText(file);
            string[] templates =
            [
                // In the rules every interpolated string is a phrase; elsewhere those that say so.
                .. SourceText.Templates(source).Where(text => inRules || text.Before.EndsWith("Phrase.Of(", StringComparison.Ordinal)).Select(text => text.Template),
                .. Words().Matches(source).Select(word => word.Groups[1].Value),
                .. Bases().Matches(source).Select(basis => basis.Groups[1].Value.Replace("\\\"", "\"", StringComparison.Ordinal)),
            ];
            // The limits of the rule book are read in docs/guide/rules.md alone.
            if (Path.GetFileName(file) != "RuleBook.cs")
                Assert.All(templates, IsTranslated);
            Interlocked.Add(ref found, templates.Length);
        });
        Assert.InRange(found, 200, 2000);
    }

    [Fact]
    public void Every_description_of_a_finding_is_translated() => Assert.All(RuleBook.All, rule =>
    {
        IsTranslated(rule.Title);
        IsTranslated(rule.Words);
        IsTranslated(rule.Counts.One);
        IsTranslated(rule.Counts.Many);
        if (rule.Caution is { } caution)
            IsTranslated(caution);
    });

    /// <summary>Also finds words that stand in a phrase as bare text, which nothing would translate: only what people typed may.</summary>
    [Fact]
    public void Whatever_is_checked_and_offered_is_translated()
    {
        var met = new ConcurrentDictionary<string, bool>(StringComparer.Ordinal);
        var bare = new ConcurrentDictionary<string, bool>(StringComparer.Ordinal);
        Gen.Select(Any.Allowed, Any.Lane).Sample(
            (unit, lane) =>
            {
                var result = ReadinessCheck.Run(unit, lane, RuleSet.BuiltIn);
                var search = AlternativeFinder.Find(unit, result, lane, RuleSet.BuiltIn, UnitCosts.Default);
                foreach (var finding in result.Findings)
                {
                    met.TryAdd(finding.Basis.Source, true);
                    foreach (var said in new[] { finding.Message, finding.Cure, finding.Formula, RuleBook.Figure(finding, finding.Measured), RuleBook.Figure(finding, finding.Limit) })
                        Collect(said);
                }

                foreach (var said in search.Alternatives.Select(alternative => alternative.Summary).Concat(search.Attempts.Select(attempt => attempt.Summary)))
                    Collect(said);
                if (search.Blocked is { } blocked)
                    Collect(blocked);
            },
            iter: 2000,
            print: Any.Print);
        Assert.True(met.Count > 100, $"Only {met.Count} phrases were met.");
        Assert.All(met.Keys, IsTranslated);
        Assert.Empty(bare.Keys);

        void Collect(Phrase phrase)
        {
            met.TryAdd(phrase.Template, true);
            foreach (var part in phrase.Parts)
            {
                if (part is Phrase inner)
                    Collect(inner);
                // "{0}" alone is what somebody typed to describe the contents.
                else if (part is string word && phrase.Template != "{0}" && !Number().IsMatch(word))
                    bare.TryAdd($"{word} in {phrase.Template}", true);
            }
        }
    }

    [Fact]
    public void A_finding_is_said_in_Spanish_with_the_same_figures()
    {
        var said = Phrase.Of($"{Phrase.Of($"{12} cartons")} of {Mass.FromPounds(1321)} ride alone on a pallet").Say(UnitSystem.Imperial, english => Everything[english]);
        Assert.Equal("12 cajas de 1,321 lb viajan solas en una tarima", said.Replace('\u00a0', ' '));
    }

    [Fact]
    public void No_translation_is_the_English_itself_and_all_have_the_same_places() => Assert.All(Everything, pair =>
    {
        Assert.Equal(SourceText.HolesOf(pair.Key), SourceText.HolesOf(pair.Value));
        Assert.True(pair.Key != pair.Value || Alike.Contains(pair.Key), $"\"{pair.Key}\" is still English.");
        Assert.Equal(pair.Key[^1] is '.' or ':' or '?', pair.Value[^1] is '.' or ':' or '?');
    });

    private static void IsTranslated(string english) => Assert.True(
        SourceText.IsFormula(english) || (Everything.TryGetValue(english, out var spanish) && SourceText.HolesOf(english).SetEquals(SourceText.HolesOf(spanish))),
        $"\"{english}\" is not in src/Fettle.Web/Languages, or not with the same places.");

    private static IEnumerable<string> Sources() =>
        Directory.EnumerateFiles(Checkout.PathTo("src", "Fettle.Readiness"), "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal));

    private static Dictionary<string, string> Table(string file) =>
        JsonSerializer.Deserialize<Dictionary<string, string>>(File.ReadAllText(file), EachKeyOnce)!;

    [GeneratedRegex("""Phrase\.Word\("((?:[^"\\]|\\.)*)"\)""")]
    private static partial Regex Words();

    [GeneratedRegex("""Basis\.(?:CommonPractice|Standard|Arithmetic)\("((?:[^"\\]|\\.)*)"\)""")]
    private static partial Regex Bases();

    [GeneratedRegex(@"^[\d.,]+$")]
    private static partial Regex Number();
}
