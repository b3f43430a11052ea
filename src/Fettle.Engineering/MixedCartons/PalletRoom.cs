using Fettle.Engineering.Units;

namespace Fettle.Engineering.MixedCartons;

/// <summary>The deck that cartons are built on, and how far they may go.</summary>
/// <param name="DeckLength">Over zero.</param>
/// <param name="DeckWidth">Over zero.</param>
/// <param name="Height">Greatest height of the cartons above the deck, inclusive; over zero.</param>
/// <param name="Mass">Greatest mass of all cartons, inclusive; over zero.</param>
/// <param name="LeastSupport">
/// Share of each base that must rest on the deck or on cartons, over 0.5 and at most 1. Carpenter and Dowsland 1985 ask for
/// 0.75 to 0.95 (from memory); the default is our choice among them.
/// </param>
public sealed record PalletRoom(Length DeckLength, Length DeckWidth, Length Height, Mass Mass, double LeastSupport = 0.8)
{
    internal double DeckArea => (double)DeckLength.Nanometres * DeckWidth.Nanometres;

    internal bool Takes(Stance s) => s.Along <= DeckLength.Nanometres && s.Across <= DeckWidth.Nanometres && s.Up <= Height.Nanometres;
}
