using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// One layer of identical cartons seen from above. Placements never overlap. As found by <see cref="PatternFinder"/> the
/// footprint's corner is at 0, 0; <see cref="CentredOn"/> puts it in the middle of a deck.
/// </summary>
/// <param name="Placements">The cartons, in order of <c>X</c>, then <c>Y</c>.</param>
/// <param name="UpperBound">No layer in the rectangle that was asked for holds more cartons than this.</param>
/// <param name="IsOptimal">The layer holds as many cartons as its bound allows: proved to be the most.</param>
public sealed record LayerPattern(IReadOnlyList<Placement> Placements, int UpperBound, bool IsOptimal)
{
    /// <summary>Cartons in the layer.</summary>
    public int Count => Placements.Count;

    /// <summary>Extent of the cartons along the deck's length, gaps inside included; zero for an empty layer.</summary>
    public Length FootprintLength => Extent(Placements, p => p.X, p => p.Right);

    /// <summary>Extent of the cartons along the deck's width, gaps inside included; zero for an empty layer.</summary>
    public Length FootprintWidth => Extent(Placements, p => p.Y, p => p.Top);

    /// <summary>
    /// The same layer with its footprint in the middle of a deck (to the nanometre). A footprint larger than the deck hangs
    /// over both sides alike, with negative coordinates at the near ones.
    /// </summary>
    public LayerPattern CentredOn(Length deckLength, Length deckWidth)
    {
        if (Count == 0)
            return this;
        var x = Half(deckLength - FootprintLength) - Placements.Min(p => p.X);
        var y = Half(deckWidth - FootprintWidth) - Placements.Min(p => p.Y);
        return this with { Placements = [.. Placements.Select(p => p.MovedBy(x, y))] };
    }

    /// <summary>Two layers are equal when the same cartons lie in the same places under the same bound.</summary>
    public bool Equals(LayerPattern? other) =>
        other is not null && UpperBound == other.UpperBound && IsOptimal == other.IsOptimal && Placements.SequenceEqual(other.Placements);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(UpperBound, Count, FootprintLength, FootprintWidth);

    private static Length Half(Length length) => Length.FromNanometres(length.Nanometres / 2);

    private static Length Extent(IReadOnlyList<Placement> placements, Func<Placement, Length> near, Func<Placement, Length> far) =>
        placements.Count == 0 ? Length.Zero : placements.Max(far) - placements.Min(near);
}
