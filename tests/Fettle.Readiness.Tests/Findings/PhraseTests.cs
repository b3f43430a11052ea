using System.Text.Json;
using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Findings;

public class PhraseTests
{
    private static readonly Phrase Sentence = Phrase.Of(
        $"{Phrase.Of($"{12} cartons")} of {Mass.FromPounds(20)} in {"columns"} are {Length.FromInches(45.5)} high at {Density.FromPoundsPerCubicFoot(11.25)} for {Quantity.Miles(820)}.");

    [Fact]
    public void It_is_said_in_inches_and_in_centimetres()
    {
        Assert.Equal("12 cartons of 20 lb in columns are 45.5 in high at 11.3 lb/ft³ for 820 mi.", Sentence.Said());
        Assert.Equal("12 cartons of 9.07 kg in columns are 115.6 cm high at 180.2 kg/m³ for 1,320 km.", Sentence.Said(UnitSystem.Metric));
        Assert.Equal(Sentence.Say(UnitSystem.Imperial), Sentence.ToString());
    }

    [Fact]
    public void It_is_said_in_another_language_in_its_own_order_with_the_figures_as_they_can_be_typed()
    {
        var spanish = new Dictionary<string, string>
        {
            ["{0} cartons"] = "{0} cajas",
            ["{0} of {1} in {2} are {3} high at {4} for {5}."] = "Por {5} van {0} de {1}, {3} de alto, {4}, en {2}.",
        };
        Assert.Equal(
            "Por 820 mi van 12 cajas de 20 lb, 45.5 in de alto, 11.3 lb/ft³, en columns.",
            Sentence.Say(UnitSystem.Imperial, english => spanish[english]).Replace('\u00a0', ' '));
    }

    [Fact]
    public void A_word_of_ours_is_translated_and_a_word_that_was_typed_is_not()
    {
        var phrase = Phrase.Of($"{Phrase.Word("drum {big}")}: {"drum"}");
        Assert.Equal("drum {big}: drum", phrase.ToString());
        Assert.Equal("tambor: drum", phrase.Say(UnitSystem.Imperial, english => english == "drum {{big}}" ? "tambor" : english));
    }

    [Fact]
    public void Its_template_is_the_sentence_without_figures()
    {
        Assert.Equal("{0} of {1} in {2} are {3} high at {4} for {5}.", Sentence.Template);
        Assert.Equal("{0} cartons", Assert.IsType<Phrase>(Sentence.Parts[0]).Template);
    }

    [Fact]
    public void It_is_stored_and_read_again()
    {
        var json = JsonSerializer.Serialize(Sentence);
        var again = JsonSerializer.Deserialize<Phrase>(json)!;
        Assert.Equal(json, JsonSerializer.Serialize(again));
        foreach (var units in Typed.Both)
            Assert.Equal(Sentence.Say(units), again.Say(units));
        Assert.Equal(
            """{"template":"{0} is {1} of {2}.","parts":["it",3,{"value":2.5,"unit":"INH"}]}""",
            JsonSerializer.Serialize(Phrase.Of($"{"it"} is {3} of {Length.FromInches(2.5)}.")));
    }

    [Fact]
    public void Whatever_it_holds_it_is_read_as_it_was_stored() =>
        Gen.Select(Gen.Double[-1e6, 1e6], Gen.Int, Gen.String, Gen.Int[0, 3]).Sample((number, whole, word, depth) =>
        {
            var phrase = Phrase.Of($"{Length.FromInches(number)}, {whole} and {word}");
            for (var i = 0; i < depth; i++)
                phrase = Phrase.Of($"({phrase})");
            var again = JsonSerializer.Deserialize<Phrase>(JsonSerializer.Serialize(phrase))!;
            Assert.Equal(phrase.Say(UnitSystem.Metric), again.Say(UnitSystem.Metric));
        });

    [Fact]
    public void A_bare_number_without_a_unit_is_refused()
    {
        Assert.Throws<ArgumentException>(() => Phrase.Of($"{2.5} of something"));
        Assert.Throws<ArgumentException>(() => Phrase.Of($"{2.5m} of something"));
        Assert.Throws<ArgumentException>(() => Phrase.Of($"{2.5f} of something"));
        Assert.Throws<ArgumentException>(() => Phrase.Of($"{(object?)null} of something"));
    }

    [Fact]
    public void What_is_no_phrase_is_refused_as_json()
    {
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Phrase>("""{"template":"{0}","parts":[true]}"""));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Phrase>("""{"template":"{0}","parts":[{"value":1,"unit":"XXX"}]}"""));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Phrase>("""{"parts":[]}"""));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Phrase>("""{"template":"{1}","parts":["it"]}"""));
    }

    [Fact]
    public void Sentences_join()
    {
        var (one, two) = (Phrase.Of($"One is {1}."), Phrase.Of($"Two is {2}."));
        Assert.Equal("One is 1. Two is 2.", Phrase.Join(" ", [one, two]).Said());
        Assert.Same(one, Phrase.Join(" ", [one]));
        Assert.Equal("", Phrase.Join(" ", []).Said());
        Assert.Equal(one, Phrase.Of($"One is {1}."));
        Assert.NotEqual(one, Phrase.Of($"One is {2}."));
        Assert.Equal(one.GetHashCode(), Phrase.Of($"One is {1}.").GetHashCode());
    }

    [Theory]
    [InlineData(BasisKind.PublishedStandard, "a book")]
    [InlineData(BasisKind.CarrierRule, "Carrier's rule: a book")]
    [InlineData(BasisKind.CommonPractice, "Common practice, no source: a book")]
    [InlineData(BasisKind.Arithmetic, "Arithmetic: a book")]
    public void A_basis_says_what_it_rests_on(BasisKind kind, string said) => Assert.Equal(said, new Basis(kind, "a book").ToString());
}
