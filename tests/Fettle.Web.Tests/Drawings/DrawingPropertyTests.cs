using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Rules;
using Fettle.Web.Drawings;

namespace Fettle.Web.Tests.Drawings;

/// <summary>What holds for any unit, possible or absurd.</summary>
public sealed class DrawingPropertyTests
{
    private static readonly Gen<double> anySide = Gen.OneOf(Gen.Double[6, 60], Gen.Double[0.1, 500]);
    private static readonly Gen<double> anyHeight = Gen.OneOf(Gen.Double[4, 90], Gen.Const(0.0), Gen.Double[0, 500]);

    private static readonly Gen<Protection> anyProtection =
        from turns in Gen.Int[0, 200]
        from over in Gen.Bool
        from boards in Gen.Enum<CornerBoards>()
        from sleeve in Gen.Bool
        from cap in Gen.Bool
        from straps in Gen.Int[0, 50]
        from sheets in Gen.Bool
        select new Protection(turns, over, boards, sleeve, cap, straps, sheets);

    private static readonly Gen<Contents> anyContents = Gen.OneOf<Contents>(
        from length in anySide
        from width in anySide
        from height in anyHeight
        from perLayer in Gen.OneOf(Gen.Int[1, 30], Gen.Int[0, 1200])
        from layers in Gen.OneOf(Gen.Int[0, 8], Gen.Int[0, 1000])
        from top in Gen.Int[0, 20]
        from stack in Gen.Enum<StackKind>()
        select (Contents)new CartonContents(new Carton(Freight.In(length), Freight.In(width), Freight.In(height), Freight.Lb(20), null), perLayer, layers, stack, top),
        Gen.String.Select(Contents (description) => new PieceContents(description)));

    private static readonly Gen<HandlingUnit> anyUnit =
        from reference in Gen.String
        from quantity in Gen.Int[1, 500]
        from kind in Gen.Enum<HandlingUnitKind>()
        from deck in Gen.Select(anySide, anySide, Gen.Double[0, 10], (l, w, h) => Freight.Deck(l, w, h)).Null(0.2)
        from length in anySide
        from width in anySide
        from height in anyHeight
        from contents in anyContents
        from protection in anyProtection
        select new HandlingUnit
        {
            Reference = reference,
            Quantity = quantity,
            Kind = kind,
            Platform = deck,
            Outer = new(Freight.In(length), Freight.In(width), Freight.In(height)),
            GrossWeight = Freight.Lb(800),
            Contents = contents,
            Protection = protection,
        };

    [Fact]
    public void Any_unit_gives_a_bounded_drawing_that_stays_inside_its_frame() => Gen.Select(anyUnit, Gen.Enum<UnitSystem>()).Sample(
        (unit, units) =>
        {
            var drawn = new DrawnSvg(UnitDrawing.Svg(unit, units));
            Assert.Equal(UnitDrawing.Width, drawn.Width);
            Assert.InRange(drawn.Height, 20, 320);
            Assert.True(drawn.Text.Length < 250_000, $"{drawn.Text.Length} characters");
            foreach (var (x, y) in drawn.AllSpots)
            {
                Assert.InRange(x, -0.5, drawn.Width + 0.5);
                Assert.InRange(y, -0.5, drawn.Height + 0.5);
            }

            Assert.NotEqual("", drawn.Title);
            Assert.NotEqual("", drawn.Description);
        },
        iter: 400, threads: 1);

    [Fact]
    public void Any_unit_hatches_its_overhang_when_there_is_some_and_only_then() => anyUnit.Sample(
        unit =>
        {
            var drawn = new DrawnSvg(UnitDrawing.Svg(unit, UnitSystem.Imperial));
            if (!drawn.Of("fd-plan").Any())
                return;
            var over = LoadShape.Of(unit).Overhang;
            Assert.Equal(over.Greatest > Length.Zero, drawn.Of("fd-wrong").Any(line => line.Value.StartsWith("Past the deck", StringComparison.Ordinal)));
            // A hair's breadth may be too fine to be drawn, but what does not overhang is never hatched.
            if (over.Greatest == Length.Zero)
                Assert.Empty(drawn.Of("fd-over"));
        },
        iter: 300, threads: 1);

    [Fact]
    public void The_same_unit_always_gives_the_same_drawing() => anyUnit.Sample(
        unit =>
        {
            Assert.Equal(UnitDrawing.Svg(unit, UnitSystem.Imperial), UnitDrawing.Svg(unit with { }, UnitSystem.Imperial));
            Assert.Equal(UnitDrawing.LayerSvg(unit, UnitSystem.Metric), UnitDrawing.LayerSvg(unit with { }, UnitSystem.Metric));
        },
        iter: 100, threads: 1);

    [Fact]
    public void Any_build_stays_inside_its_frame() => anyUnit.List[1, 8].Sample(
        lines =>
        {
            var drawn = new DrawnSvg(UnitDrawing.BuildSvg(lines, UnitSystem.Imperial));
            foreach (var (x, y) in drawn.AllSpots)
            {
                Assert.InRange(x, -0.5, drawn.Width + 0.5);
                Assert.InRange(y, -0.5, drawn.Height + 0.5);
            }
        },
        iter: 60, threads: 1);
}
