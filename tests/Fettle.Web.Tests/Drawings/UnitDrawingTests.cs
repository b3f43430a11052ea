using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Web.Drawings;

namespace Fettle.Web.Tests.Drawings;

public sealed class UnitDrawingTests
{
    private static DrawnSvg Draw(HandlingUnit unit, UnitSystem units = UnitSystem.Imperial) => new(UnitDrawing.Svg(unit, units));

    [Fact]
    public void Every_carton_of_the_layer_is_drawn_and_turned_ones_are_marked()
    {
        var plan = Draw(Freight.Tidy).View("fd-plan");

        Assert.Equal(8, DrawnSvg.Of(plan, "fd-carton").Count());
        // 15.5 × 12 cartons, four side by side along 48 in: all lie with their length across the deck.
        Assert.Equal(8, DrawnSvg.Of(plan, "fd-turned").Count());
        // Ten of 16 × 12 on 48 × 40 take six one way and four the other: 3 × 16 = 4 × 12 = 48, and 2 × 12 + 16 = 40.
        var mixed = Draw(Freight.Pallet("M", (16, 12, 9), 10, 4)).View("fd-plan");
        Assert.Equal(10, DrawnSvg.Of(mixed, "fd-carton").Count());
        Assert.Equal(4, DrawnSvg.Of(mixed, "fd-turned").Count());
    }

    [Fact]
    public void Deck_and_load_are_drawn_to_one_scale()
    {
        var plan = Draw(Freight.Tidy).View("fd-plan");
        var scale = DrawnSvg.Scale(plan);

        var deck = DrawnSvg.Extent(DrawnSvg.Of(plan, "fd-wood"));
        var load = DrawnSvg.Extent(DrawnSvg.Of(plan, "fd-carton"));

        Assert.Equal(48 * scale, deck.Right - deck.X, 0.05);
        Assert.Equal(40 * scale, deck.Bottom - deck.Y, 0.05);
        Assert.Equal(48 * scale, load.Right - load.X, 0.05);
        Assert.Equal(31 * scale, load.Bottom - load.Y, 0.05);
        Assert.Equal(4.5 * scale, load.Y - deck.Y, 0.05);
    }

    [Fact]
    public void Overhang_is_hatched_to_scale_and_written_on_each_side()
    {
        var drawn = Draw(Freight.Overhanging);
        var plan = drawn.View("fd-plan");
        var scale = DrawnSvg.Scale(plan);

        var deck = DrawnSvg.Extent(DrawnSvg.Of(plan, "fd-wood"));
        var over = DrawnSvg.Extent(DrawnSvg.Of(plan, "fd-over"));

        Assert.Equal(1 * scale, deck.X - over.X, 0.05);
        Assert.Equal(1 * scale, over.Right - deck.Right, 0.05);
        Assert.Equal(2 * scale, deck.Y - over.Y, 0.05);
        Assert.Equal(2 * scale, over.Bottom - deck.Bottom, 0.05);
        Assert.NotEmpty(DrawnSvg.Of(plan, "fd-over-hatch"));
        Assert.Equal(["1\u00a0in", "1\u00a0in", "2\u00a0in", "2\u00a0in"], DrawnSvg.Of(plan, "fd-over-text").Select(text => text.Value).Order());
        Assert.NotEmpty(DrawnSvg.Of(drawn.View("fd-corner"), "fd-over"));
        Assert.Contains("Past the deck: 1\u00a0in at each end, 2\u00a0in on each side", drawn.Words);
    }

    [Fact]
    public void Nothing_is_hatched_when_nothing_overhangs()
    {
        HandlingUnit[] without = [Freight.Tidy, Freight.UnfinishedTop, Freight.Crate, Freight.Loose];
        foreach (var unit in without)
        {
            var drawn = Draw(unit);
            Assert.Empty(drawn.Of("fd-over"));
            Assert.Empty(drawn.Of("fd-over-hatch"));
            Assert.Empty(drawn.Of("fd-over-tag"));
            Assert.Empty(drawn.Of("fd-wrong"));
        }
    }

    [Fact]
    public void Overhang_at_the_ends_alone_leaves_the_sides_unmarked()
    {
        var plan = Draw(Freight.Tidy with { Outer = new(Freight.In(52), Freight.In(40), Freight.In(45.5)) }).View("fd-plan");
        var deck = DrawnSvg.Extent(DrawnSvg.Of(plan, "fd-wood"));
        var over = DrawnSvg.Extent(DrawnSvg.Of(plan, "fd-over"));

        Assert.Equal(2 * DrawnSvg.Scale(plan), deck.X - over.X, 0.05);
        Assert.True(over.Y >= deck.Y && over.Bottom <= deck.Bottom);
        Assert.Equal(2, DrawnSvg.Of(plan, "fd-over-text").Count());
        Assert.Equal(["4.5\u00a0in", "4.5\u00a0in"], DrawnSvg.Of(plan, "fd-tag-text").Where(text => !text.Attribute("class")!.Value.Contains("over", StringComparison.Ordinal)).Select(text => text.Value));
    }

    [Fact]
    public void Dimensions_weight_and_counts_are_written_in_inches_and_pounds()
    {
        var drawn = Draw(Freight.Tidy);

        Assert.Contains("48\u00a0in", drawn.Words);
        Assert.Contains("40\u00a0in", drawn.Words);
        Assert.Contains("45.5\u00a0in", drawn.Words);
        Assert.Contains("Deck 48 × 40\u00a0in, 5.5\u00a0in high", drawn.Words);
        Assert.Contains("Pallet of 32 cartons · 4 layers of 8, in columns", drawn.Words);
        Assert.Contains(drawn.Words, line => line.Contains("765\u00a0lb gross", StringComparison.Ordinal));
        Assert.Equal("A1: pallet of 32 cartons", drawn.Title);
        Assert.Contains("Outside 48\u00a0in long, 40\u00a0in wide, 45.5\u00a0in high.", drawn.Description, StringComparison.Ordinal);
        Assert.Contains("platform 5.5\u00a0in high", drawn.Description, StringComparison.Ordinal);
        Assert.Contains("4.5\u00a0in bare on each side", drawn.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Dimensions_and_weight_are_written_in_centimetres_and_kilograms()
    {
        // 48 in = 121.92 cm, 40 in = 101.6 cm, 45.5 in = 115.57 cm, 5.5 in = 13.97 cm; 765 lb = 347.0 kg: exact definitions of inch and pound.
        var drawn = Draw(Freight.Tidy, UnitSystem.Metric);

        Assert.Contains("121.9\u00a0cm", drawn.Words);
        Assert.Contains("101.6\u00a0cm", drawn.Words);
        Assert.Contains("115.6\u00a0cm", drawn.Words);
        Assert.Contains(drawn.Words, line => line.Contains("347\u00a0kg gross", StringComparison.Ordinal));
        Assert.Contains("platform 14\u00a0cm high", drawn.Description, StringComparison.Ordinal);
        Assert.DoesNotContain("\u00a0in", drawn.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("\u00a0lb", drawn.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Numbers_do_not_follow_the_servers_language()
    {
        var before = UnitDrawing.Svg(Freight.Overhanging, UnitSystem.Imperial);
        var culture = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(before, UnitDrawing.Svg(Freight.Overhanging, UnitSystem.Imperial));
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }

    [Fact]
    public void Forks_go_in_at_both_ends_of_the_deck_and_nowhere_without_one()
    {
        var drawn = Draw(Freight.Tidy);
        var deck = DrawnSvg.Extent(DrawnSvg.Of(drawn.View("fd-plan"), "fd-wood"));
        var arrows = drawn.Of("fd-fork").Select(arrow => DrawnSvg.Extent([arrow])).ToArray();

        Assert.Equal(2, drawn.Words.Count(word => word == "forks"));
        Assert.Equal(2, arrows.Count(arrow => arrow.Right <= deck.X));
        Assert.Equal(2, arrows.Count(arrow => arrow.X >= deck.Right));
        Assert.DoesNotContain("forks", Draw(Freight.Crate).Words);
        Assert.DoesNotContain("forks", Draw(Freight.Loose).Words);
    }

    [Fact]
    public void The_corner_view_has_every_tier_and_an_unfinished_layer_stands_out_on_top()
    {
        var corner = Draw(Freight.UnfinishedTop).View("fd-corner");

        // Three full tiers of 4 × 4 flush cartons show four faces on each side; every carton of the unfinished fourth shows both of its own.
        var sides = DrawnSvg.Of(corner, "fd-side").Sum(DrawnSvg.Outlines);
        var tops = DrawnSvg.Of(corner, "fd-top").Sum(DrawnSvg.Outlines);
        Assert.Equal((3 * 4) + 5, sides);
        Assert.Equal(16 + 5, tops);
    }

    [Fact]
    public void Interlocked_layers_differ_from_one_to_the_next_and_columns_do_not()
    {
        var column = Draw(Freight.Pallet("M", (16, 12, 9), 10, 4)).View("fd-corner");
        var interlocked = Draw(Freight.Pallet("M", (16, 12, 9), 10, 4, StackKind.Interlocked)).View("fd-corner");

        Assert.Empty(DrawnSvg.Of(column, "fd-other"));
        Assert.NotEmpty(DrawnSvg.Of(interlocked, "fd-other"));
        // Mirrored, the row of four turned cartons stands at the other side: three faces there in one tier, four in the next.
        Assert.Equal([3, 4, 3, 4], DrawnSvg.Of(interlocked, "fd-side").Select(DrawnSvg.Outlines));
        Assert.Equal([3, 3, 3, 3], DrawnSvg.Of(column, "fd-side").Select(DrawnSvg.Outlines));
    }

    [Fact]
    public void A_symmetric_interlocked_layer_says_that_its_turning_is_not_known()
    {
        Assert.Contains("How the layers are turned is not declared", Draw(Freight.Pallet("S", (12, 10, 10), 16, 3, StackKind.Interlocked)).Words);
        Assert.DoesNotContain("How the layers are turned is not declared", Draw(Freight.Pallet("S", (12, 10, 10), 16, 3)).Words);
    }

    [Fact]
    public void Film_over_the_platform_reaches_lower_than_film_that_ends_above_it()
    {
        var over = Draw(Freight.Tidy);
        var above = Draw(Freight.Tidy with { Protection = Freight.Wrapped with { WrapOverPlatform = false } });
        var none = Draw(Freight.Tidy with { Protection = Protection.None });

        Assert.True(DrawnSvg.Extent(over.Of("fd-film")).Bottom > DrawnSvg.Extent(above.Of("fd-film")).Bottom);
        Assert.Empty(over.Of("fd-film-end"));
        Assert.Single(above.Of("fd-film-end"));
        Assert.Equal(["Film 3×, ends above the pallet"], above.Of("fd-wrong").Select(text => text.Value));
        Assert.Empty(none.Of("fd-film"));
        Assert.Contains(none.Words, line => line.Contains("no film", StringComparison.Ordinal));
    }

    [Fact]
    public void Boards_sleeve_cap_and_straps_are_drawn_when_declared()
    {
        var full = Draw(Freight.Tidy with { Protection = new(2, true, CornerBoards.Partial, true, true, 2, true) });
        var bare = Draw(Freight.Tidy with { Protection = Protection.None });
        string[] parts = ["fd-corner-board", "fd-sleeve", "fd-cap", "fd-strap", "fd-slip-sheet"];
        foreach (var part in parts)
        {
            Assert.NotEmpty(full.Of(part));
            Assert.Empty(bare.Of(part));
        }

        Assert.Equal(2, full.Of("fd-strap").Count());
        foreach (var word in new[] { "short corner boards", "sleeve", "top cap", "slip sheets", "2 straps" })
            Assert.Contains(word, full.Description, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void A_drawing_needs_nothing_that_a_strict_content_policy_forbids()
    {
        foreach (var unit in new[] { Freight.Tidy, Freight.Overhanging, Freight.Crate, Freight.Loose })
        {
            foreach (var svg in new[]
            {
                UnitDrawing.Svg(unit, UnitSystem.Imperial),
                UnitDrawing.LayerSvg(unit, UnitSystem.Imperial),
                UnitDrawing.BuildSvg([unit, unit], UnitSystem.Imperial),
            })
            {
                var root = new DrawnSvg(svg).Root;
                Assert.Equal("img", root.Attribute("role")!.Value);
                var allowed = new[] { "svg", "g", "title", "desc", "rect", "path", "text" };
                Assert.All(root.DescendantsAndSelf(), element => Assert.Contains(element.Name.LocalName, allowed));
                Assert.All(root.DescendantsAndSelf().SelectMany(element => element.Attributes()), attribute =>
                {
                    Assert.DoesNotContain(attribute.Name.LocalName, new[] { "style", "href", "id" });
                    Assert.False(attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal));
                    Assert.DoesNotContain("url(", attribute.Value, StringComparison.Ordinal);
                });
            }
        }
    }

    [Fact]
    public void Hostile_names_are_only_ever_text()
    {
        const string Hostile = "\"><script>alert(1)</script>\u0000\u000b\ud800&amp;]]>";
        var unit = Freight.Crate with { Reference = Hostile, Contents = new PieceContents(Hostile) };

        var drawn = Draw(unit);

        Assert.DoesNotContain("<script", drawn.Text, StringComparison.Ordinal);
        Assert.Contains("<script>alert", drawn.Title, StringComparison.Ordinal);
        Assert.Contains(drawn.Words, line => line.Contains("<script>alert(1)</script>", StringComparison.Ordinal));
        Assert.Contains("&amp;", drawn.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void A_very_long_description_is_cut_short()
    {
        var drawn = Draw(Freight.Crate with { Contents = new PieceContents(string.Concat(Enumerable.Repeat("gear wheel ", 500))) });

        Assert.All(drawn.Words, line => Assert.True(line.Length <= 80));
        Assert.Contains(drawn.Words, line => line.EndsWith('…'));
    }

    [Fact]
    public void Too_many_cartons_are_drawn_as_a_block_that_says_so()
    {
        var many = Draw(Freight.Pallet("X", (2, 2, 2), 480, 2));
        var tall = Draw(Freight.Pallet("Y", (12, 10, 0), 16, 200));

        Assert.Empty(many.Of("fd-carton"));
        Assert.Contains("Drawn as a block: 480 cartons a layer are too many to draw", many.Words);
        Assert.Equal(16, tall.Of("fd-carton").Count());
        Assert.Contains("Drawn as a block: 200 layers are too many to draw", tall.Words);
        Assert.Contains("Drawn as a block: 1,000 cartons are too many to draw", Draw(Freight.Pallet("Z", (4.8, 4, 4), 100, 10)).Words);
        Assert.True(many.Text.Length < 20_000 && tall.Text.Length < 20_000);
    }

    [Fact]
    public void Cartons_that_do_not_fit_are_not_invented()
    {
        var drawn = Draw(Freight.Pallet("X", (30, 30, 10), 9, 3));

        Assert.Empty(drawn.Of("fd-carton"));
        Assert.Contains("Cartons not drawn: so many do not fit in a layer", drawn.Words);
    }

    [Fact]
    public void A_loose_carton_is_drawn_by_its_outside_when_its_carton_is_declared_larger()
    {
        var carton = (CartonContents)Freight.Loose.Contents with { Carton = new(Freight.In(500), Freight.In(12), Freight.In(10), Freight.Lb(22), null) };
        var drawn = Draw(Freight.Loose with { Contents = carton });

        Assert.Single(DrawnSvg.Of(drawn.View("fd-plan"), "fd-carton"));
        Assert.All(drawn.AllSpots, spot => Assert.InRange(spot.X, 0, drawn.Width));
    }

    [Fact]
    public void What_lacks_a_size_is_named_instead_of_drawn()
    {
        HandlingUnit[] incomplete =
        [
            Freight.Tidy with { Platform = Freight.Deck(length: 0) },
            Freight.Tidy with { Contents = (CartonContents)Freight.Tidy.Contents with { PerLayer = 0 } },
            Freight.Tidy with { Contents = (CartonContents)Freight.Tidy.Contents with { Layers = 0 } },
            Freight.Crate with { Outer = new(Length.Zero, Length.Zero, Length.Zero) },
        ];
        foreach (var unit in incomplete)
            Assert.Contains("Not drawn: a size or a count is missing", Draw(unit).Words);
    }

    [Fact]
    public void A_mail_drawing_has_its_own_ground_and_ink_and_a_page_drawing_takes_the_pages()
    {
        var mail = UnitDrawing.Svg(Freight.Tidy, UnitSystem.Imperial, DrawingOptions.ForMail);
        var page = UnitDrawing.Svg(Freight.Tidy, UnitSystem.Imperial);

        Assert.Single(new DrawnSvg(mail).Of("fd-ground"));
        Assert.DoesNotContain("currentColor", mail, StringComparison.Ordinal);
        Assert.Empty(new DrawnSvg(page).Of("fd-ground"));
        Assert.Contains("currentColor", page, StringComparison.Ordinal);
        Assert.DoesNotContain("font-family", page, StringComparison.Ordinal);
    }

    [Fact]
    public void The_layer_alone_has_its_cartons_and_their_number()
    {
        var layer = new DrawnSvg(UnitDrawing.LayerSvg(Freight.Tidy, UnitSystem.Imperial));

        Assert.Equal(8, layer.Of("fd-carton").Count());
        Assert.Equal(["8 a layer"], layer.Words);
    }

    [Fact]
    public void A_build_shows_its_lines_side_by_side_at_one_scale_with_how_many_there_are()
    {
        var build = new DrawnSvg(UnitDrawing.BuildSvg([Freight.Tidy with { Quantity = 2 }, Freight.UnfinishedTop, Freight.Loose], UnitSystem.Imperial));
        var views = build.Root.Elements().Where(element => element.Attribute("class")?.Value == "fd-corner").ToArray();

        Assert.Equal(3, views.Length);
        Assert.Single(views.Select(DrawnSvg.Scale).Distinct());
        Assert.Contains("2 × 4 layers", build.Words);
        Assert.Contains("1 × 3 layers", build.Words);
        Assert.Contains("and 5 on top", build.Words);
        Assert.Contains("12 ×", build.Words);
        Assert.Equal("2 × 4 layers, 8 a layer; 1 × 3 layers, and 5 on top; 12 ×, loose carton", build.Title);
    }

    [Fact]
    public void A_build_of_many_lines_counts_those_it_does_not_draw()
    {
        var build = new DrawnSvg(UnitDrawing.BuildSvg([.. Enumerable.Repeat(Freight.Tidy, 9)], UnitSystem.Imperial));

        Assert.Equal(UnitDrawing.MostInBuild, build.Root.Elements().Count(element => element.Attribute("class")?.Value == "fd-corner"));
        Assert.Contains("and 3 more lines, not drawn", build.Words);
    }
}
