using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Fettle.Web.Drawings;

namespace Fettle.Web.Tests.Drawings;

public sealed class TrailerDrawingTests
{
    private static LoadUnits Units(int count, double length, double width, double height, double bears = 0, bool rides = false) =>
        new(Length.FromInches(length), Length.FromInches(width), Length.FromInches(height), Mass.FromPounds(500), count, Mass.FromPounds(bears), rides);

    private static readonly LoadPlan stacked = LoadPlanner.Plan([Units(6, 48, 40, 50, 600, true), Units(3, 60, 48, 90)], Trailer.Van53);

    private static DrawnSvg Draw(LoadPlan plan, UnitSystem units = UnitSystem.Imperial) => new(TrailerDrawing.Svg(plan, ["A1", "<B&2>"], units));

    [Fact]
    public void Every_unit_is_drawn_at_its_level_and_once_from_the_side()
    {
        var drawn = Draw(stacked);

        Assert.Equal(6, DrawnSvg.Of(drawn.View("fd-level-0"), "fd-on-floor").Count());
        Assert.Equal(3, DrawnSvg.Of(drawn.View("fd-level-1"), "fd-on-unit").Count());
        Assert.Equal(6, DrawnSvg.Of(drawn.View("fd-level-1"), "fd-below").Count());
        Assert.Equal(9, DrawnSvg.Of(drawn.View("fd-side-view"), "fd-on-floor").Count() + DrawnSvg.Of(drawn.View("fd-side-view"), "fd-on-unit").Count());
        Assert.Empty(drawn.Of("fd-beam"));
    }

    [Fact]
    public void Units_stand_to_scale_inside_the_trailer_up_to_the_length_used()
    {
        var view = Draw(stacked).View("fd-level-0");
        var scale = DrawnSvg.Scale(view);
        var room = DrawnSvg.Extent(DrawnSvg.Of(view, "fd-room"));
        var freight = DrawnSvg.Extent(DrawnSvg.Of(view, "fd-on-floor"));

        Assert.Equal(630 * scale, room.Right - room.X, 0.05);
        Assert.Equal(98.5 * scale, room.Bottom - room.Y, 0.05);
        Assert.Equal(stacked.LengthUsed.Inches * scale, freight.Right - room.X, 0.05);
        Assert.True(freight.Y >= room.Y - 0.05 && freight.Bottom <= room.Bottom + 0.05);
    }

    [Fact]
    public void A_deck_is_drawn_at_its_height_and_named()
    {
        var plan = LoadPlanner.Plan([Units(20, 48, 40, 50)], Trailer.Van53, Decking.Common);
        var drawn = new DrawnSvg(TrailerDrawing.Svg(plan, ["A1"], UnitSystem.Imperial));
        var side = drawn.View("fd-side-view");
        var room = DrawnSvg.Extent(DrawnSvg.Of(side, "fd-room"));

        Assert.Equal(10, DrawnSvg.Of(drawn.View("fd-level-1"), "fd-on-deck").Count());
        Assert.Equal(room.Bottom - (56 * DrawnSvg.Scale(side)), DrawnSvg.Extent(DrawnSvg.Of(side, "fd-beam")).Y, 0.05);
        Assert.Contains("On the deck, 56\u00a0in up", drawn.Words);
    }

    [Fact]
    public void It_says_in_words_what_it_shows_and_survives_any_name()
    {
        var drawn = Draw(stacked, UnitSystem.Metric);

        Assert.Equal("Floor plan", drawn.Title);
        Assert.Contains("6 on the floor, 3 above them", drawn.Description);
        Assert.Contains("3 × <B&2>", drawn.Description);
        Assert.Contains("From the side, 274\u00a0cm high inside", drawn.Words);
    }

    [Fact]
    public void An_empty_trailer_is_drawn_empty()
    {
        var drawn = Draw(LoadPlanner.Plan([], Trailer.Pup28));
        Assert.Empty(drawn.Of("fd-on-floor"));
    }
}
