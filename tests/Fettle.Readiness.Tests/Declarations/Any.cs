using CsCheck;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Readiness.Tests.Declarations;

/// <summary>Declarations made up at random: whatever the form lets through, and freight as it might stand on a dock.</summary>
internal static class Any
{
    /// <summary>The bounds of the form: sides to 636 in, carton sides to 240 in, 80,000 lb, 500 to a layer, 2,000 to a unit.</summary>
    private const int MostCartons = 2000;

    /// <summary>A sample as JSON, to be copied into a test of its own.</summary>
    public static string Print<T>(T sample) => System.Text.Json.JsonSerializer.Serialize(sample, Printed);

    private static readonly System.Text.Json.JsonSerializerOptions Printed = new() { IncludeFields = true };

    /// <summary>True one time in six.</summary>
    private static readonly Gen<bool> Sometimes = Gen.Frequency((5, Gen.Const(false)), (1, Gen.Const(true)));

    public static readonly Gen<Lane> Lane =
        Gen.Select(
            Gen.OneOf(Gen.Double[0, 1200], Gen.OneOf(0, 500, 10_000.0)),
            Gen.Int[0, 6],
            Sometimes,
            Sometimes,
            Sometimes,
            (miles, transfers, border, liftgate, ground) => new Lane(Math.Round(miles, 1), transfers, border) { Liftgate = liftgate, NoDock = ground });

    public static readonly Gen<Protection> Protection = Gen.Select(
        Gen.Int[0, 4],
        Gen.Bool,
        Gen.Enum<CornerBoards>(),
        Gen.Bool,
        Gen.Bool,
        Gen.Frequency((3, Gen.Const(0)), (1, Gen.Int[1, 4])),
        Gen.Bool,
        (turns, over, boards, sleeve, cap, straps, sheets) => new Protection(turns, over, boards, sleeve, cap, straps, sheets));

    private static readonly Gen<Requests> Requests = Gen.Frequency(
        (2, Gen.Const(Readiness.Declarations.Requests.None)),
        (1, Gen.Select(Gen.Bool, Gen.Bool, Gen.Bool, Gen.Bool, Gen.Bool, (decking, airbags, top, strap, bulkhead) => new Requests(decking, airbags, top, strap, bulkhead))));

    private static readonly Gen<TopSurface> TopSurface = Gen.Frequency((8, Gen.Const(Readiness.Declarations.TopSurface.Flat)), (1, Gen.Enum<TopSurface>()));

    private static readonly Gen<Board?> Board = Gen.Frequency(
        (1, Gen.Const((Board?)null)),
        (6, Gen.Select(Gen.Enum<Flute>(), Gen.OneOf(23.0, 26, 29, 32, 40, 44, 48, 51, 55, 61), (flute, ect) => (Board?)new Board(flute, ect))));

    /// <summary>Whole inches or even centimetres: coarse, so that many samples share a layer and its search.</summary>
    private static Gen<Length> Side(int fromInches, int toInches) => Gen.OneOf(
        Gen.Int[fromInches, toInches].Select(inches => Length.FromInches(inches)),
        Gen.Int[(int)(fromInches * 1.27), (int)(toInches * 1.27)].Select(pairs => Length.FromCentimetres(pairs * 2)));

    /// <summary>Quarters of an inch or half centimetres.</summary>
    private static Gen<Length> Measured(double fromInches, double toInches) => Gen.OneOf(
        Gen.Int[(int)(fromInches * 4), (int)(toInches * 4)].Select(quarters => Length.FromInches(quarters / 4.0)),
        Gen.Int[(int)(fromInches * 5.08), (int)(toInches * 5.08)].Select(halves => Length.FromCentimetres(halves / 2.0)));

    private static Gen<Mass> Weighed(double fromPounds, double toPounds) => Gen.OneOf(
        Gen.Int[(int)(fromPounds * 10), (int)(toPounds * 10)].Select(tenths => Mass.FromPounds(tenths / 10.0)),
        Gen.Int[(int)Math.Ceiling(fromPounds * 4.5), (int)(toPounds * 4.5)].Select(tenths => Mass.FromKilograms(tenths / 10.0)));

    /// <summary>Decks of several sizes and materials; most are sound, open on four sides and marked.</summary>
    public static readonly Gen<Platform> Deck =
        from deck in Gen.OneOf<Platform>(
            Freight.Deck,
            Freight.Deck with { Rating = null },
            Freight.Deck with { Material = PlatformMaterial.Plastic, Rating = Mass.FromPounds(1500) },
            new(Length.FromMillimetres(1200), Length.FromMillimetres(800), Length.FromMillimetres(144), Mass.FromKilograms(25), PlatformMaterial.Wood, Mass.FromKilograms(1500)),
            Freight.Deck with { Length = Length.FromInches(42), Width = Length.FromInches(42) })
        from mark in Gen.Frequency((1, Gen.Const(TreatmentMark.None)), (2, Gen.Const(TreatmentMark.HT)))
        from condition in Gen.Frequency((12, Gen.Const(PlatformCondition.Sound)), (1, Gen.Enum<PlatformCondition>()))
        from entry in Gen.Frequency((5, Gen.Const(ForkEntry.FourWay)), (1, Gen.Const(ForkEntry.TwoWay)))
        select deck with { TreatmentMark = mark, Condition = condition, Entry = entry };

    /// <summary>
    /// A pallet of cartons whose figures agree, with any of the troubles that a dock knows: past the deck, heavy, weak, tall,
    /// badly wrapped, wrongly declared. Measured a little more or less than it adds up to, as in life.
    /// </summary>
    public static readonly Gen<HandlingUnit> Pallet =
        from deck in Deck
        from length in Side(7, 26)
        from width in Side(7, 20)
        from height in Measured(4, 18)
        from weight in Weighed(1, 60)
        from board in Board
        from share in Gen.Double[0.1, 1.25]
        from layers in Gen.Int[1, 9]
        from unfinished in Gen.Frequency((3, Gen.Const(0.0)), (1, Gen.Double[0, 1]))
        from stack in Gen.Enum<StackKind>()
        from protection in Protection
        from stackable in Gen.Bool
        from fragile in Gen.Frequency((5, Gen.Const(Fragility.None)), (1, Gen.Enum<Fragility>()))
        from quantity in Gen.Frequency((3, Gen.Const(1)), (2, Gen.Int[2, 30]))
        from bulge in Gen.Frequency((2, Gen.Const(0.0)), (1, Gen.Double[-1, 1.25]))
        from surplus in Gen.Frequency((2, Gen.Const(0.0)), (1, Gen.Double[-0.02, 0.02]))
        from partitions in Gen.Frequency((1, Gen.Const(false)), (4, Gen.Const(true)))
        from requests in Requests
        from top in TopSurface
        select Made(deck, new Carton(length, width, height, weight, board), share, layers, unfinished, stack, protection, stackable, fragile, quantity, bulge, surplus) with
        {
            Partitions = partitions,
            Requests = requests,
            TopSurface = top,
        };

    private static HandlingUnit Made(
        Platform deck, Carton carton, double share, int layers, double unfinished, StackKind stack, Protection protection, bool stackable, Fragility fragile, int quantity, double bulge, double surplus)
    {
        var most = Math.Max(1, PatternFinder.Best(deck.Length, deck.Width, carton.Length, carton.Width).Count);
        var perLayer = Math.Max(1, (int)Math.Round(most * share));
        // What does not stay on the deck hangs over by as little as it can.
        var layer = PatternFinder.Holding(perLayer, deck.Length, deck.Width, carton.Length, carton.Width)
            ?? PatternFinder.Holding(perLayer, deck.Length * 2, deck.Width * 2, carton.Length, carton.Width)!;
        var contents = new CartonContents(carton, perLayer, layers, stack, (int)(unfinished * (perLayer - 1)));
        var unit = Freight.Pallet(contents, deck);
        return unit with
        {
            Quantity = quantity,
            Outer = new(
                Length.Max(deck.Length, layer.FootprintLength),
                Length.Max(deck.Width, layer.FootprintWidth),
                unit.Outer.Height + Length.FromInches(Math.Round(bulge * 8) / 8)),
            GrossWeight = Mass.FromPounds(Math.Round(unit.GrossWeight.Pounds * (1 + surplus), 1)),
            Protection = protection,
            Stackable = stackable,
            Fragile = fragile,
        };
    }

    /// <summary>Cartons that travel by themselves, light and heavy, of strong board and of weak.</summary>
    public static readonly Gen<HandlingUnit> LooseCarton =
        from length in Side(7, 40)
        from width in Side(7, 30)
        from height in Measured(4, 30)
        from weight in Weighed(1, 130)
        from board in Board
        from quantity in Gen.Int[1, 40]
        select Freight.Loose(new(length, width, height, weight, board)) with { Quantity = quantity };

    private static readonly Gen<Contents> Described =
        from kind in Gen.Int[0, 3]
        from good in Gen.Bool
        from centre in Gen.Frequency((1, Gen.Const((Length?)null)), (1, Measured(5, 60).Select(length => (Length?)length)))
        select (Contents)(kind switch
        {
            0 => new CrateContents("gearbox", good),
            1 => new FurnitureContents("sideboard", good),
            2 => new MachineryContents("lathe", good, centre),
            _ => new PieceContents("boiler"),
        });

    private static readonly Gen<Contents> Several =
        from kind in Gen.Int[0, 3]
        from diameter in Side(8, 26)
        from height in Measured(10, 40)
        from weight in Weighed(10, 450)
        from count in Gen.Int[1, 8]
        from tiers in Gen.Frequency((3, Gen.Const(1)), (1, Gen.Int[2, 3]))
        from material in Gen.Enum<DrumMaterial>()
        from stack in Gen.Enum<StackKind>()
        from standing in Gen.Enum<RollStanding>()
        from cartons in Gen.Select(Side(7, 24), Side(7, 18), Measured(4, 18), Weighed(1, 50), Board, Gen.Int[1, 12], (l, w, h, kg, board, n) => new CartonLine(new(l, w, h, kg, board), n)).List[1, 4]
        select (Contents)(kind switch
        {
            0 => new DrumContents(diameter, height, weight, count, tiers, material),
            1 => new BagContents(weight / 8, Math.Min(count, 6), (tiers * 2) + 1, stack),
            2 => new RollContents(diameter, height, weight, count, standing),
            _ => new MixedCartonContents(cartons),
        });

    /// <summary>Freight that is not layers of like cartons, of every kind of contents, whose weight agrees and whose size may.</summary>
    public static readonly Gen<HandlingUnit> Other =
        from contents in Gen.OneOf(Described, Several)
        from kind in Gen.Frequency((4, Gen.Const(HandlingUnitKind.Pallet)), (1, Gen.Const(HandlingUnitKind.Crate)), (2, Gen.Const(HandlingUnitKind.Piece)))
        from deck in Deck
        from longer in Gen.Frequency((3, Gen.Const(0.0)), (1, Gen.Double[0, 70]))
        from height in Measured(20, 90)
        from weight in Weighed(80, 2600)
        from protection in Protection
        from stackable in Gen.Bool
        from fragile in Gen.Frequency((4, Gen.Const(Fragility.None)), (1, Gen.Enum<Fragility>()))
        from partitions in Gen.Bool
        from requests in Requests
        from top in TopSurface
        from hazard in Gen.Select(Sometimes, Sometimes, Gen.Bool, (hazardous, cold, confirmed) => (hazardous, cold, confirmed))
        from declared in Gen.Frequency((2, Gen.Const((decimal?)null)), (1, Gen.OneOf(50m, 92.5m, 125m, 400m).Select(freightClass => (decimal?)freightClass)))
        let one = kind == HandlingUnitKind.Piece && contents is DrumContents
        select new HandlingUnit
        {
            Reference = "B1",
            Quantity = 1,
            // One drum by itself is a drum.
            Kind = one ? HandlingUnitKind.Drum : kind,
            Platform = kind == HandlingUnitKind.Pallet ? deck : null,
            Outer = one && contents is DrumContents drum ? new(drum.Diameter, drum.Diameter, drum.Height) : new(deck.Length + Length.FromInches(Math.Round(longer)), deck.Width, height),
            GrossWeight = (one && contents is DrumContents alone ? alone.WeightEach : contents.Weight ?? weight) + (kind == HandlingUnitKind.Pallet ? deck.Tare : Mass.Zero),
            Contents = one && contents is DrumContents single ? single with { Count = 1, Tiers = 1 } : contents,
            Protection = protection,
            Stackable = stackable,
            Fragile = fragile,
            Partitions = partitions,
            Requests = requests,
            TopSurface = top,
            Hazardous = hazard.hazardous,
            TemperatureControlled = hazard.cold,
            ConfirmedBy = hazard.confirmed ? "Kim Lorne" : null,
            DeclaredClass = declared,
        };

    /// <summary>Several lines with names of their own.</summary>
    public static readonly Gen<Declaration> Declaration = Gen.Select(
        Lane,
        Gen.Enum<UnitSystem>(),
        Pallet.List[1, 6],
        (lane, units, lines) => new Declaration(lane, true, units, [.. lines.Select((line, i) => line with { Reference = $"A{i + 1}" })]));

    private static Gen<Length> Long(double mostInches) => Gen.Frequency(
        (8, Gen.Double[Math.Log(0.001), Math.Log(mostInches)].Select(log => Length.FromInches(Math.Max(0.001, Math.Round(Math.Exp(log), 3))))),
        (1, Gen.OneOf(Length.FromNanometres(1), Length.FromInches(1), Length.FromInches(12), Length.FromInches(40), Length.FromInches(48), Length.FromInches(mostInches))));

    private static readonly Gen<Mass> Heavy = Gen.Frequency(
        (8, Gen.Double[Math.Log(0.001), Math.Log(80_000)].Select(log => Mass.FromPounds(Math.Max(0.001, Math.Round(Math.Exp(log), 3))))),
        (1, Gen.OneOf(Mass.FromNanograms(1), Mass.FromPounds(40), Mass.FromPounds(2000), Mass.FromPounds(80_000))));

    private static readonly Gen<Carton> WildCarton =
        from length in Long(240)
        from width in Long(240)
        from height in Long(240)
        from weight in Heavy
        from board in Gen.Frequency(
            (1, Gen.Const((Board?)null)),
            (3, Gen.Select(Gen.Enum<Flute>(), Gen.Double[0.01, 500], (flute, ect) => (Board?)new Board(flute, ect))))
        select new Carton(length, width, height, weight, board);

    private static readonly Gen<CartonContents> WildCartons =
        from carton in WildCarton
        from perLayer in Gen.Frequency((3, Gen.Int[1, 30]), (1, Gen.Int[1, 500]))
        from layers in Gen.Frequency((3, Gen.Int[1, 12]), (1, Gen.Int[0, 100]))
        from top in Gen.Int[0, perLayer - 1]
        from stack in Gen.Enum<StackKind>()
        select new CartonContents(carton, perLayer, Math.Min(layers, MostCartons / perLayer), stack, layers == 0 && top == 0 ? Math.Max(1, perLayer - 1) : top);

    private static readonly Gen<Contents> WildOther =
        from kind in Gen.Int[0, 6]
        from diameter in Long(240)
        from height in Long(240)
        from weight in Heavy
        from count in Gen.OneOf(Gen.Int[1, 30], Gen.OneOf(1, 2000))
        from tiers in Gen.Int[1, 20]
        from lines in WildCarton.Select(Gen.OneOf(Gen.Int[1, 30], Gen.OneOf(1, 2000)), (carton, n) => new CartonLine(carton, n)).List[1, 5]
        from flag in Gen.Bool
        select (Contents)(kind switch
        {
            0 => new CrateContents("gearbox", flag),
            1 => new FurnitureContents("sideboard", flag),
            2 => new MachineryContents("lathe", flag, flag ? height : null),
            3 => new DrumContents(diameter, height, weight, count, tiers, flag ? DrumMaterial.Steel : DrumMaterial.Fibre),
            4 => new RollContents(diameter, height, weight, count, flag ? RollStanding.OnEnd : RollStanding.OnSide),
            5 => new BagContents(weight, count, tiers, flag ? StackKind.Column : StackKind.Interlocked),
            _ => new MixedCartonContents(lines),
        });

    /// <summary>Anything at all that the form lets through, sense or nonsense.</summary>
    public static readonly Gen<HandlingUnit> Allowed =
        from kind in Gen.Enum<HandlingUnitKind>()
        from deckLength in Long(636)
        from deckWidth in Long(636)
        from deckHeight in Long(60)
        from tare in Heavy
        from material in Gen.Enum<PlatformMaterial>()
        from rating in Gen.Frequency((1, Gen.Const((Mass?)null)), (1, Heavy.Select(mass => (Mass?)mass)))
        from length in Long(636)
        from width in Long(636)
        from height in Long(636)
        from gross in Heavy
        from cartons in WildCartons
        from piece in Gen.Int[0, 5]
        from other in WildOther
        from declared in Gen.Frequency((2, Gen.Const((decimal?)null)), (1, Gen.OneOf(50m, 92.5m, 500m).Select(freightClass => (decimal?)freightClass)))
        from flags in Gen.Select(Gen.Bool, Gen.Bool, Gen.Bool, Requests, TopSurface, (hazardous, cold, partitions, requests, top) => (hazardous, cold, partitions, requests, top))
        from turns in Gen.Int[0, 50]
        from protection in Protection
        from stackable in Gen.Bool
        from fragile in Gen.Enum<Fragility>()
        from quantity in Gen.OneOf(Gen.Int[1, 30], Gen.OneOf(1, 999))
        select new HandlingUnit
        {
            Reference = "A1",
            Quantity = quantity,
            Kind = kind,
            Platform = kind == HandlingUnitKind.Pallet ? new(deckLength, deckWidth, deckHeight, tare, material, rating) : null,
            Outer = new(length, width, height),
            GrossWeight = gross,
            Contents = piece < 3 && kind != HandlingUnitKind.LooseCarton
                ? piece == 0 ? new PieceContents("lathe") : other
                : kind == HandlingUnitKind.LooseCarton ? cartons with { PerLayer = 1, Layers = 1, TopLayer = 0 } : cartons,
            Protection = protection with { WrapTurns = turns },
            Stackable = stackable,
            Fragile = fragile,
            Partitions = flags.partitions,
            Requests = flags.requests,
            TopSurface = flags.top,
            Hazardous = flags.hazardous,
            TemperatureControlled = flags.cold,
            DeclaredClass = declared,
        };
}
