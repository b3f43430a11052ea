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
            Platform = unit.Platform is { } deck
                ? new()
                {
                    Length = Long(deck.Length),
                    Width = Long(deck.Width),
                    Height = Long(deck.Height),
                    Tare = Heavy(deck.Tare),
                    Material = deck.Material.Word(),
                    Rating = deck.Rating is { } rating ? Heavy(rating) : null,
                }
                : new(),
            Outer = new() { Length = Long(unit.Outer.Length), Width = Long(unit.Outer.Width), Height = Long(unit.Outer.Height) },
            GrossWeight = Heavy(unit.GrossWeight),
            Contents = unit.Contents switch
            {
                CartonContents cartons => new()
                {
                    Kind = "cartons",
                    Carton = new()
                    {
                        Length = Long(cartons.Carton.Length),
                        Width = Long(cartons.Carton.Width),
                        Height = Long(cartons.Carton.Height),
                        GrossWeight = Heavy(cartons.Carton.GrossWeight),
                        Board = cartons.Carton.Board is { } board ? new() { Flute = board.Flute.ToString(), EdgeCrush = Text(board.EdgeCrush) } : new(),
                    },
                    PerLayer = Text(cartons.PerLayer),
                    Layers = Text(cartons.Layers),
                    TopLayer = cartons.TopLayer > 0 ? Text(cartons.TopLayer) : null,
                    Stack = cartons.Stack.Word(),
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
        };
    }

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
                Carton = written.Contents.Carton with
                {
                    Length = Long(written.Contents.Carton.Length, typed.Contents.Carton.Length),
                    Width = Long(written.Contents.Carton.Width, typed.Contents.Carton.Width),
                    Height = Long(written.Contents.Carton.Height, typed.Contents.Carton.Height),
                    GrossWeight = Heavy(written.Contents.Carton.GrossWeight, typed.Contents.Carton.GrossWeight),
                },
            },
        };
    }

    public static string Text(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);
}
