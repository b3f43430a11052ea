using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Web.Declarations;

/// <summary>A handling unit back as a form: for an alternative that was applied, and for what came through the API.</summary>
public static class Writing
{
    public static UnitForm Form(HandlingUnit unit, UnitSystem units)
    {
        string Long(Length length) => Text(length.In(units));
        string Heavy(Mass mass) => Text(mass.In(units));
        return new()
        {
            Reference = unit.Reference,
            Quantity = Text(unit.Quantity),
            Kind = unit.Kind.Word(),
            Platform = unit.Platform is { } deck ? Platform(deck, units) : new(),
            Outer = new() { Length = Long(unit.Outer.Length), Width = Long(unit.Outer.Width), Height = Long(unit.Outer.Height) },
            GrossWeight = Heavy(unit.GrossWeight),
            Contents = unit.Contents switch
            {
                CartonContents cartons => new()
                {
                    Kind = "cartons",
                    Carton = Carton(cartons.Carton, units),
                    PerLayer = Text(cartons.PerLayer),
                    Layers = Text(cartons.Layers),
                    TopLayer = cartons.TopLayer > 0 ? Text(cartons.TopLayer) : null,
                    Stack = cartons.Stack.Word(),
                },
                MixedCartonContents mixed => new()
                {
                    Kind = "mixed-cartons",
                    Lines = [.. mixed.Lines.Select(line => new CartonLineForm { Carton = Carton(line.Carton, units), Count = Text(line.Count) })],
                },
                CrateContents crate => new() { Kind = "crate", Description = crate.Description, Braced = crate.Braced },
                DrumContents drums => new()
                {
                    Kind = "drum",
                    Diameter = Long(drums.Diameter),
                    Height = Long(drums.Height),
                    WeightEach = Heavy(drums.WeightEach),
                    Count = Text(drums.Count),
                    Tiers = Text(drums.Tiers),
                    Material = drums.Material.Word(),
                },
                BagContents bags => new() { Kind = "bags", WeightEach = Heavy(bags.WeightEach), PerLayer = Text(bags.PerLayer), Layers = Text(bags.Layers), Stack = bags.Stack.Word() },
                RollContents rolls => new()
                {
                    Kind = "rolls",
                    Diameter = Long(rolls.Diameter),
                    Height = Long(rolls.Width),
                    WeightEach = Heavy(rolls.WeightEach),
                    Count = Text(rolls.Count),
                    Standing = rolls.Standing.Word(),
                },
                FurnitureContents furniture => new() { Kind = "furniture", Description = furniture.Description, Boxed = furniture.Boxed },
                MachineryContents machinery => new()
                {
                    Kind = "machinery",
                    Description = machinery.Description,
                    Fastened = machinery.Fastened,
                    CentreOfGravity = machinery.CentreOfGravity is { } centre ? Long(centre) : null,
                },
                PieceContents piece => new() { Kind = "piece", Description = piece.Description },
                _ => throw new InvalidOperationException($"There is no form for {unit.Contents.GetType().Name}."),
            },
            Stackable = unit.Stackable,
            Protection = new()
            {
                WrapTurns = Text(unit.Protection.WrapTurns),
                WrapOverPlatform = unit.Protection.WrapOverPlatform,
                CornerBoards = unit.Protection.CornerBoards.Word(),
                Sleeve = unit.Protection.Sleeve,
                TopCap = unit.Protection.TopCap,
                Straps = Text(unit.Protection.Straps),
                SlipSheets = unit.Protection.SlipSheets,
            },
            Fragile = unit.Fragile.Word(),
            Partitions = unit.Partitions,
            TopSurface = unit.TopSurface.Word(),
            Requests = [.. unit.Requests.Words()],
            Hazardous = unit.Hazardous,
            TemperatureControlled = unit.TemperatureControlled,
            ConfirmedBy = unit.ConfirmedBy,
            DeclaredClass = unit.DeclaredClass is { } declared ? Text((double)declared) : null,
            BuiltBy = unit.BuiltBy,
        };
    }

    public static PlatformForm Platform(Platform deck, UnitSystem units) => new()
    {
        Length = Text(deck.Length.In(units)),
        Width = Text(deck.Width.In(units)),
        Height = Text(deck.Height.In(units)),
        Tare = Text(deck.Tare.In(units)),
        Material = deck.Material.Word(),
        Rating = deck.Rating is { } rating ? Text(rating.In(units)) : null,
        Entry = deck.Entry.Word(),
        Condition = deck.Condition.Word(),
        TreatmentMark = deck.TreatmentMark.Word(),
    };

    public static CartonForm Carton(Carton carton, UnitSystem units) => new()
    {
        Length = Text(carton.Length.In(units)),
        Width = Text(carton.Width.In(units)),
        Height = Text(carton.Height.In(units)),
        GrossWeight = Text(carton.GrossWeight.In(units)),
        Board = carton.Board is { } board ? new() { Flute = board.Flute.ToString(), EdgeCrush = Text(board.EdgeCrush) } : new(),
    };

    /// <summary>
    /// A copy in which a figure that did not change is left as it was typed: "48 1/2" does not become 48.5 because a film
    /// turn was added.
    /// </summary>
    public static UnitForm KeepTyped(UnitForm written, UnitForm typed, UnitSystem units)
    {
        string? Long(string? now, string? before) =>
            MeasureText.TryLength(now, units, out var a) && MeasureText.TryLength(before, units, out var b) && a == b ? before : now;
        string? Heavy(string? now, string? before) =>
            MeasureText.TryMass(now, units, out var a) && MeasureText.TryMass(before, units, out var b) && a == b ? before : now;
        return written with
        {
            Platform = written.Platform with
            {
                Length = Long(written.Platform.Length, typed.Platform.Length),
                Width = Long(written.Platform.Width, typed.Platform.Width),
                Height = Long(written.Platform.Height, typed.Platform.Height),
                Tare = Heavy(written.Platform.Tare, typed.Platform.Tare),
                Rating = Heavy(written.Platform.Rating, typed.Platform.Rating),
            },
            Outer = new()
            {
                Length = Long(written.Outer.Length, typed.Outer.Length),
                Width = Long(written.Outer.Width, typed.Outer.Width),
                Height = Long(written.Outer.Height, typed.Outer.Height),
            },
            GrossWeight = Heavy(written.GrossWeight, typed.GrossWeight),
            Contents = written.Contents with
            {
                Carton = Carton(written.Contents.Carton, typed.Contents.Carton),
                Lines = [.. written.Contents.Lines.Select((line, i) => i < typed.Contents.Lines.Count ? line with { Carton = Carton(line.Carton, typed.Contents.Lines[i].Carton) } : line)],
                Diameter = Long(written.Contents.Diameter, typed.Contents.Diameter),
                Height = Long(written.Contents.Height, typed.Contents.Height),
                WeightEach = Heavy(written.Contents.WeightEach, typed.Contents.WeightEach),
                CentreOfGravity = Long(written.Contents.CentreOfGravity, typed.Contents.CentreOfGravity),
            },
        };

        CartonForm Carton(CartonForm now, CartonForm before) => now with
        {
            Length = Long(now.Length, before.Length),
            Width = Long(now.Width, before.Width),
            Height = Long(now.Height, before.Height),
            GrossWeight = Heavy(now.GrossWeight, before.GrossWeight),
        };
    }

    public static string? TextOf(double? number) => number is { } n ? Text(n) : null;

    public static string Text(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);
}
