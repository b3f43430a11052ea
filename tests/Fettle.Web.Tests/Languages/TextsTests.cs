using System.Globalization;
using System.Text.RegularExpressions;
using Fettle.Testing;
using Fettle.Web.Languages;

namespace Fettle.Web.Tests.Languages;

/// <summary>Every text that the source says in the reader's language is there in Spanish.</summary>
public sealed partial class TextsTests
{
    /// <summary>The same in both languages.</summary>
    private static readonly HashSet<string> Alike = ["No", "Terminal", "Metal", "Material"];

    [Fact]
    public void Every_text_in_the_source_is_translated()
    {
        var texts = Sources().SelectMany(file => Said(File.ReadAllText(file))).Distinct().Where(text => Letters().IsMatch(Holes().Replace(text, ""))).ToArray();
        Assert.InRange(texts.Length, 300, 5000);
        Language.Spanish.Speak();
        Assert.All(texts, text => Assert.True(Texts.T(text) != text || Alike.Contains(text), $"\"{text}\" is still English."));
    }

    [Fact]
    public void What_has_no_translation_stays_English_and_other_languages_are_English()
    {
        Language.Spanish.Speak();
        Assert.Equal("Lista", Texts.T("Ready"));
        Assert.Equal("This is said nowhere.", Texts.T("This is said nowhere."));
        CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo("fr-CA");
        Assert.Equal("Ready", Texts.T("Ready"));
        CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo("es-MX");
        Assert.Equal("Lista", Texts.T("Ready"));
    }

    /// <summary>A decimal comma would be read back as thousands.</summary>
    [Fact]
    public void Figures_are_written_alike_in_Spanish()
    {
        Language.Spanish.Speak();
        Assert.Equal("1.3 veces", Texts.T("{0:0.0} times", 1.25));
        Assert.Equal("1,200 de 7", Texts.T("{0:#,0} of {1}", 1200, 7));
    }

    /// <summary>The strings of the first argument of each call of T, whichever of them is chosen.</summary>
    private static IEnumerable<string> Said(string source)
    {
        foreach (Match call in Calls().Matches(source))
        {
            var depth = 0;
            for (var i = call.Index + call.Length; depth >= 0 && !(depth == 0 && source[i] == ','); i++)
            {
                switch (source[i])
                {
                    case '"':
                        var start = ++i;
                        while (source[i] != '"')
                            i += source[i] == '\\' ? 2 : 1;
                        if (depth == 0)
                            yield return Regex.Unescape(source[start..i]);
                        break;
                    case '(' or '[' or '{':
                        depth++;
                        break;
                    case ')' or ']' or '}':
                        depth--;
                        break;
                }
            }
        }
    }

    private static IEnumerable<string> Sources() =>
        from file in Directory.EnumerateFiles(Repository.PathTo("src/Fettle.Web"), "*", SearchOption.AllDirectories)
        where Path.GetExtension(file) is ".cs" or ".cshtml"
        where !file.Split(Path.DirectorySeparatorChar).Any(folder => folder is "obj" or "bin")
        select file;

    [GeneratedRegex(@"(?<![\w.<])(?<!static string )T\((?=[^)])")]
    private static partial Regex Calls();

    [GeneratedRegex(@"\{\d[^{}]*\}")]
    private static partial Regex Holes();

    [GeneratedRegex(@"[A-Za-z]{2}")]
    private static partial Regex Letters();
}
