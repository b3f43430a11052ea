using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Declarations;

/// <summary>What a unit holds, in few words: "40 cartons", "4 drums", "lathe".</summary>
public static class ContentsInWords
{
    public static Phrase Of(Contents contents) => contents switch
    {
        CartonContents or MixedCartonContents => Counted.Cartons(contents.Pieces),
        DrumContents => contents.Pieces == 1 ? Phrase.Of($"{1} drum") : Phrase.Of($"{contents.Pieces} drums"),
        BagContents => contents.Pieces == 1 ? Phrase.Of($"{1} bag") : Phrase.Of($"{contents.Pieces} bags"),
        RollContents => contents.Pieces == 1 ? Phrase.Of($"{1} roll") : Phrase.Of($"{contents.Pieces} rolls"),
        CrateContents crate => Phrase.Of($"{crate.Description}"),
        FurnitureContents furniture => Phrase.Of($"{furniture.Description}"),
        MachineryContents machinery => Phrase.Of($"{machinery.Description}"),
        PieceContents piece => Phrase.Of($"{piece.Description}"),
        _ => throw new InvalidOperationException($"No words for {contents.GetType().Name}."),
    };

    /// <summary>It is counted, "of 40 cartons", rather than named.</summary>
    public static bool IsCounted(Contents contents) => contents is CartonContents or MixedCartonContents or DrumContents or BagContents or RollContents;
}
