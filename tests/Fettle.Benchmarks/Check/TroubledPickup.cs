using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Benchmarks.Check;

/// <summary>
/// A bad evening on the dock: 26 lines, as many as a 53-ft trailer has floor places, each with its own carton and its own
/// trouble. No two lines share a carton size, so that nothing found for one serves another.
/// </summary>
internal static class TroubledPickup
{
    private static readonly Lane Far = new(820, 3, CrossBorder: false);

    private static readonly Protection Bare = Protection.None;
    private static readonly Protection Thin = Protection.None with { WrapTurns = 1 };
    private static readonly Protection Loose = Protection.None with { WrapTurns = 2 };
    private static readonly Protection Wrapped = Protection.None with { WrapTurns = 3, WrapOverPlatform = true };
    private static readonly Protection Boarded = Wrapped with { CornerBoards = CornerBoards.ToPlatform };

    private static Platform Deck { get; } = new(
        Length.FromInches(48), Length.FromInches(40), Length.FromInches(5.5), Mass.FromPounds(40), PlatformMaterial.Wood, Mass.FromPounds(2500));

    private static int lines;

    public static Declaration Declared { get; } = new(Far, DriverOnDock: true, UnitSystem.Imperial,
    [
        // Over the edge.
        Pallet(1, 21, 13, 10, 22, 44, perLayer: 8, layers: 5, outer: (52, 42), protection: Thin),
        Pallet(2, 17, 15, 9, 18, 32, perLayer: 8, layers: 6, outer: (51, 45), protection: Wrapped),
        Pallet(3, 25, 13, 12, 30, 44, perLayer: 6, layers: 4, outer: (50, 40), protection: Bare, stackable: true),
        Pallet(4, 19, 11, 8, 14, 32, perLayer: 10, layers: 7, outer: (55, 41), protection: Loose),
        Pallet(1, 14.5, 11.5, 7, 12, 32, perLayer: 12, layers: 8, outer: (58, 46), protection: Wrapped, stack: StackKind.Interlocked),
        Pallet(12, 13.5, 9.5, 9, 11, 32, perLayer: 14, layers: 6, outer: (49, 41), protection: Wrapped),
        // Too heavy.
        Pallet(1, 12, 10, 8, 38, 51, perLayer: 16, layers: 4, protection: Boarded),
        Pallet(2, 16, 12, 8, 44, 51, perLayer: 10, layers: 6, protection: Wrapped),
        Pallet(4, 11, 9, 7, 33, 48, perLayer: 18, layers: 5, protection: Thin),
        Pallet(26, 10, 8, 6, 21, 44, perLayer: 24, layers: 6, protection: Boarded),
        // Sinks into itself.
        Pallet(1, 15, 11, 9, 40, 26, perLayer: 10, layers: 5, protection: Wrapped, stack: StackKind.Interlocked),
        Pallet(3, 18, 12, 10, 36, 23, perLayer: 8, layers: 5, protection: Boarded, stack: StackKind.Interlocked, stackable: true),
        Pallet(2, 20, 14, 12, 42, 26, perLayer: 6, layers: 4, protection: Loose),
        // Too tall, or tall and narrow.
        Pallet(1, 23, 19, 14, 24, 44, perLayer: 4, layers: 7, protection: Wrapped),
        Pallet(2, 22, 18, 12, 16, 44, perLayer: 4, layers: 9, protection: Thin, stackable: true),
        Pallet(1, 24, 16, 11, 13, 48, perLayer: 2, layers: 7, protection: Wrapped),
        // Claims of stacking, either way.
        Pallet(6, 16, 10, 9, 15, 32, perLayer: 12, layers: 6, protection: Boarded, stackable: true),
        Pallet(8, 15.5, 11.5, 8, 17, 32, perLayer: 10, layers: 5, protection: Wrapped, stackable: true),
        Pallet(4, 18, 14, 9, 9, 51, perLayer: 6, layers: 4, protection: Boarded),
        Pallet(2, 17, 13, 10, 20, 44, perLayer: 8, layers: 4, topLayer: 3, protection: Wrapped, stackable: true),
        // A few light cartons.
        Pallet(1, 14, 12, 10, 6, 44, perLayer: 3, layers: 1, protection: Wrapped),
        Pallet(2, 13, 11, 9, 5, 48, perLayer: 2, layers: 2, protection: Bare),
        // Little wrong.
        Pallet(10, 16, 14, 9, 19, 44, perLayer: 6, layers: 4, protection: Boarded),
        Pallet(5, 19, 15, 11, 21, 48, perLayer: 6, layers: 4, protection: Wrapped),
        // Not of cartons.
        Piece(1, 52, 40, 61, 2450),
        Piece(1, 48, 40, 107, 900),
    ]);

    /// <summary>How many pickups <see cref="WithOtherCartons"/> makes before one comes again.</summary>
    public const int Others = 15 * 15;

    /// <summary>
    /// The same pickup with cartons that are up to an inch smaller each way, in sixteenths: what was found about layers of
    /// one serves no other. Weights and heights stay, so that the troubles do too.
    /// </summary>
    /// <param name="number">From 0 to <see cref="Others"/>, excluded.</param>
    public static Declaration WithOtherCartons(int number)
    {
        var (length, width) = (Length.FromInches((1 + (number / 15)) / 16.0), Length.FromInches((1 + (number % 15)) / 16.0));
        return Declared with
        {
            HandlingUnits = [.. Declared.HandlingUnits.Select(line => line.Contents is CartonContents cartons
                ? line with { Contents = cartons with { Carton = cartons.Carton with { Length = cartons.Carton.Length - length, Width = cartons.Carton.Width - width } } }
                : line)],
        };
    }

    private static HandlingUnit Pallet(
        int quantity,
        double length,
        double width,
        double height,
        double pounds,
        double edgeCrush,
        int perLayer,
        int layers,
        Protection protection,
        (double Length, double Width)? outer = null,
        StackKind stack = StackKind.Column,
        bool stackable = false,
        int topLayer = 0)
    {
        var contents = new CartonContents(
            new(Length.FromInches(length), Length.FromInches(width), Length.FromInches(height), Mass.FromPounds(pounds), new(edgeCrush > 45 ? Flute.BC : Flute.C, edgeCrush)),
            perLayer,
            layers,
            stack,
            topLayer);
        return new()
        {
            Reference = $"A{++lines}",
            Quantity = quantity,
            Kind = HandlingUnitKind.Pallet,
            Platform = Deck,
            Outer = new(Length.FromInches(outer?.Length ?? 48), Length.FromInches(outer?.Width ?? 40), Deck.Height + (contents.Carton.Height * contents.Tiers)),
            GrossWeight = Deck.Tare + (contents.Carton.GrossWeight * contents.Count),
            Contents = contents,
            Protection = protection,
            Stackable = stackable,
        };
    }

    private static HandlingUnit Piece(int quantity, double length, double width, double height, double pounds) => new()
    {
        Reference = $"A{++lines}",
        Quantity = quantity,
        Kind = HandlingUnitKind.Pallet,
        Platform = Deck,
        Outer = new(Length.FromInches(length), Length.FromInches(width), Length.FromInches(height)),
        GrossWeight = Mass.FromPounds(pounds),
        Contents = new PieceContents("machine, bolted down"),
    };
}
