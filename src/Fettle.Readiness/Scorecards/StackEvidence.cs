namespace Fettle.Readiness.Scorecards;

/// <summary>How far it is borne out that freight can carry another unit, from word to deed. All shares are of lines.</summary>
/// <param name="Units">Handling units behind it.</param>
/// <param name="Declared">Declared stackable, of all.</param>
/// <param name="Carries">By calculation carry a like unit (strength at its careful end, flat top, two high under the roof), of those declared stackable.</param>
/// <param name="Tested">Carried another unit when an inspection tried, of those tried.</param>
/// <param name="ArrivedClean">Arrived clean, of those that are known to have carried another unit on the way.</param>
public sealed record StackEvidence(long Units, Share Declared, Share Carries, Share Tested, Share ArrivedClean)
{
    public static StackEvidence Of(Tally tally, AccountBook book) => new(
        tally[Tallied.Units],
        Share.Of(tally[Tallied.Stackable], tally[Tallied.Lines], book.Stackable),
        Share.Of(tally[Tallied.Carries], tally[Tallied.Stackable], book.Carries),
        Share.Of(tally[Tallied.StackHeld], tally[Tallied.StackTested], book.StackHeld),
        Share.Of(tally[Tallied.CarriedClean], tally[Tallied.CarriedFreight], book.CarriedClean));

    /// <summary>There are lines enough declared stackable to be ranked.</summary>
    public bool IsEnough => Carries.IsEnough;

    /// <summary>What freight is ranked by: the lower end of the share that carries, those with too few lines after all others.</summary>
    public (bool Enough, double Low, long Lines) Rank => (IsEnough, Carries.Low, Carries.Whole);
}

/// <summary>The same for one product on one lane.</summary>
public sealed record FreightEvidence(Lane Lane, Product Product, Tally Tally, StackEvidence Evidence);
