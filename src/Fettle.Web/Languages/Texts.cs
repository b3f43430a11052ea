using System.Collections.Frozen;
using System.Globalization;
using System.Text.Json;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Web.Languages;

/// <summary>
/// Everything that people read, in their language. The English text is the key; what has no translation stays English.
/// See docs/decisions/0014-languages.md.
/// </summary>
public static class Texts
{
    private static readonly FrozenDictionary<string, string> spanish =
        typeof(Texts).Assembly.GetManifestResourceNames().Where(name => name.StartsWith("languages/", StringComparison.Ordinal)).SelectMany(Read).DistinctBy(pair => pair.Key).ToFrozenDictionary(pair => pair.Key, pair => pair.Value, StringComparer.Ordinal);

    /// <summary>A text of ours in the current language.</summary>
    public static string T(string english) => Language.Current == Language.Spanish ? spanish.GetValueOrDefault(english, english) : english;

    /// <summary>The same with numbered places, "{0}", filled in.</summary>
    public static string T(string english, params object?[] parts) => string.Format(CultureInfo.InvariantCulture, T(english), parts);

    /// <summary>A phrase in the current language.</summary>
    public static string Say(this Phrase phrase, UnitSystem units) => phrase.Say(units, T);

    /// <summary>Where a limit comes from, in one line. A carrier's rule is named as the carrier names it.</summary>
    public static string Say(this Basis basis) => basis.Kind switch
    {
        BasisKind.PublishedStandard => T(basis.Source),
        BasisKind.CarrierRule => T("Carrier's rule: {0}", basis.Source),
        BasisKind.CommonPractice => T("Common practice, no source: {0}", T(basis.Source)),
        BasisKind.Arithmetic => T("Arithmetic: {0}", T(basis.Source)),
    };

    /// <summary>"Common practice, version 1". Carriers' own sets keep the name that the carrier gave them.</summary>
    public static string Say(this RuleSetVersion rules) =>
        T("{0}, version {1}", rules.Name == RuleSet.BuiltIn.Identity.Name ? T(rules.Name) : rules.Name, rules.Version);

    private static Dictionary<string, string> Read(string name)
    {
        using var stream = typeof(Texts).Assembly.GetManifestResourceStream(name)!;
        return JsonSerializer.Deserialize<Dictionary<string, string>>(stream)!;
    }
}
