namespace Fettle.Readiness.Findings;

/// <summary>"1 carton", "12 cartons".</summary>
internal static class Counted
{
    public static Phrase Cartons(int count) => count == 1 ? Phrase.Of($"{count} carton") : Phrase.Of($"{count} cartons");

    public static Phrase Layers(int count) => count == 1 ? Phrase.Of($"{count} layer") : Phrase.Of($"{count} layers");

    public static Phrase Pallets(int count) => count == 1 ? Phrase.Of($"{count} pallet") : Phrase.Of($"{count} pallets");

    public static Phrase FullTurns(int count) => count == 1 ? Phrase.Of($"{count} full turn") : Phrase.Of($"{count} full turns");

    public static Phrase Times(int count) => count switch { 1 => Phrase.Of($"once"), 2 => Phrase.Of($"twice"), _ => Phrase.Of($"{count} times") };
}
