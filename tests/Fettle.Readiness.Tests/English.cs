using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Tests;

/// <summary>Phrases as they are written: in English.</summary>
internal static class English
{
    public static string Say(this Phrase phrase, UnitSystem units) => phrase.Say(units, template => template);
}
