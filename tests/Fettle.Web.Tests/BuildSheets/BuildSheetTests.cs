using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.BuildSheets;
using Fettle.Web.Drawings;
using static Fettle.Web.Tests.Drawings.Freight;

namespace Fettle.Web.Tests.BuildSheets;

public sealed class BuildSheetTests
{
    private static readonly Lane Lane = new(300, 1, false);

    [Fact]
    public void Every_kind_of_contents_gets_a_sheet_with_steps_a_picture_and_cautions()
    {
        var kinds = typeof(Contents).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(Contents)) && !type.IsAbstract);
        Assert.Empty(kinds.Except(Kinds.All.Select(unit => unit.Contents.GetType())));

        foreach (var unit in Kinds.All)
        {
            var sheet = Of(unit);
            Assert.NotEmpty(sheet.Pictures);
            Assert.Contains(sheet.Steps, step => step.Name == "Labels");
            Assert.Contains(sheet.Steps, step => step.Name == "Scale" && step.How.Contains(((Quantity)unit.GrossWeight).Show(UnitSystem.Imperial), StringComparison.Ordinal));
            Assert.NotEmpty(sheet.Cautions);
            Assert.All(sheet.Steps, step => Assert.False(string.IsNullOrWhiteSpace(step.How)));
        }
    }

    [Fact]
    public void A_column_stack_shows_one_layer_and_says_how_many()
    {
        var sheet = Of(Tidy with { Quantity = 12 });

        Assert.Equal("Build 12 alike", sheet.Alike);
        Assert.Equal("32 cartons: 4 layers of 8", sheet.Load);
        Assert.Equal(["Layers 1 to 4: 8 each", "Finished"], sheet.Pictures.Select(picture => picture.Caption));
        Assert.Equal("8 a layer as drawn, corners straight above corners", How(sheet, "Cartons"));
    }

    [Fact]
    public void An_interlocked_stack_shows_both_layers_and_how_the_second_is_turned()
    {
        var sheet = Of(Kinds.Interlocked);

        Assert.Equal(3, sheet.Pictures.Count);
        Assert.Equal("Layers 1 and 3: 5 each", sheet.Pictures[0].Caption);
        Assert.StartsWith("Layers 2 and 4: 5 each, ", sheet.Pictures[1].Caption, StringComparison.Ordinal);
        Assert.NotEqual(sheet.Pictures[0].Svg, sheet.Pictures[1].Svg);
        Assert.Equal("5 a layer, every second layer turned as drawn", How(sheet, "Cartons"));
    }

    [Fact]
    public void An_unfinished_top_layer_is_a_picture_of_its_own()
    {
        var sheet = Of(UnfinishedTop);

        Assert.Equal("53 cartons: 3 layers of 16, 5 on top", sheet.Load);
        Assert.Equal(["Layers 1 to 3: 16 each", "Layer 4: 5, each on whole cartons", "Finished"], sheet.Pictures.Select(picture => picture.Caption));
    }

    [Fact]
    public void Steps_stand_in_the_order_of_the_work()
    {
        var sheet = Of(Kinds.All[1]);

        Assert.Equal(
            ["Pallet", "Cartons", "Fragile", "Slip sheets", "Sleeve", "Corner boards", "Top cap", "Film", "Straps", "Scale", "Labels"],
            sheet.Steps.Select(step => step.Name));
        Assert.Equal("3 full turns at the thinnest place, 2\u00a0in down over the pallet, up over the top edge", How(sheet, "Film"));
        Assert.Equal("all 4 corners, from the pallet up to the top", How(sheet, "Corner boards"));
    }

    /// <summary>GS1 General Specifications: bars 400 to 800 mm (16 to 32 in) above the base, 50 mm (2 in) from an upright edge, two sides that meet.</summary>
    [Theory]
    [InlineData(UnitSystem.Imperial, "2 alike, on two sides that meet; bars 16\u00a0in to 32\u00a0in off the floor, 2\u00a0in off the edge")]
    [InlineData(UnitSystem.Metric, "2 alike, on two sides that meet; bars 40\u00a0cm to 80\u00a0cm off the floor, 5\u00a0cm off the edge")]
    public void Labels_go_where_GS1_says(UnitSystem units, string expected) => Assert.Equal(expected, How(Of(Tidy, units), "Labels"));

    [Fact]
    public void Labels_of_a_low_load_go_as_high_as_they_can() =>
        Assert.Contains("as high as they go", How(Of(Tidy with { Outer = Tidy.Outer with { Height = In(15) } }), "Labels"), StringComparison.Ordinal);

    [Fact]
    public void Nothing_goes_on_top_of_what_is_not_stackable_is_fragile_or_asks_for_no_top_load()
    {
        Assert.Equal("Another may ride on top", Of(Tidy with { Stackable = true }).Stacking);
        Assert.Equal("Nothing on top", Of(Tidy with { Stackable = false }).Stacking);
        Assert.Equal("Nothing on top", Of(Tidy with { Stackable = true, Requests = new(NoTopLoad: true) }).Stacking);
        Assert.Equal("Nothing on top", Of(Tidy with { Stackable = true, Requests = new(Decking: true) }).Stacking);
        Assert.Equal("Nothing on top", Of(Tidy with { Stackable = true, Fragile = Fragility.Glass }).Stacking);
    }

    [Fact]
    public void What_would_be_held_says_so_on_top_and_why()
    {
        var sheet = Of(Overhanging);

        Assert.StartsWith("Ask the office before you build this: it would be held. ", sheet.Stop, StringComparison.Ordinal);
        Assert.Contains("sticks out", sheet.Stop, StringComparison.Ordinal);
        Assert.Null(Of(Tidy).Stop);
    }

    /// <summary>51 lb: the load constant of the revised NIOSH lifting equation, Pub. 94-110.</summary>
    [Fact]
    public void Heavy_cartons_are_lifted_by_two_and_very_heavy_ones_by_a_machine()
    {
        Assert.DoesNotContain(Of(Weighing(51)).Cautions, caution => caution.Contains("two people", StringComparison.Ordinal));
        Assert.Contains(Of(Weighing(52)).Cautions, caution => caution.Contains("two people", StringComparison.Ordinal));
        Assert.Contains(Of(Weighing(103)).Cautions, caution => caution.Contains("with a machine", StringComparison.Ordinal));

        static HandlingUnit Weighing(double pounds) =>
            Tidy with { Contents = new CartonContents(new(In(15.5), In(12), In(10), Lb(pounds), null), 8, 4, StackKind.Column) };
    }

    internal static BuildSheet Of(HandlingUnit unit, UnitSystem units = UnitSystem.Imperial)
    {
        var result = ReadinessCheck.Run(unit, Lane, RuleSet.BuiltIn);
        return BuildSheet.For(unit, unit.Reference, words => words.OfPickup("P-4K7Q2M", 1, 3), result.Findings, RuleSet.BuiltIn.Identity, units, CultureInfo.InvariantCulture, DrawingOptions.ForMail);
    }

    private static string How(BuildSheet sheet, string step) => Assert.Single(sheet.Steps, each => each.Name == step).How;
}
