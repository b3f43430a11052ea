using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Figures that cannot all be true. Arithmetic; how far they may be apart is our choice, without a source.</summary>
public class ConsistencyRuleTests
{
    [Theory]
    [InlineData(47.74, true)]
    [InlineData(47.75, false)]
    [InlineData(48, false)]
    public void The_outside_is_no_shorter_than_the_deck(double length, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Of(Freight.Sound.Reaching(length: Typed.Long(length, units)), "outer.length") is not null);
    }

    [Theory]
    [InlineData(39.74, true)]
    [InlineData(39.75, false)]
    public void Nor_narrower(double width, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Of(Freight.Sound.Reaching(width: Typed.Long(width, units)), "outer.width") is not null);
    }

    [Theory]
    // Four layers of 10 in on 5.5 in of pallet: 45.5 in, give or take 1.5 in.
    [InlineData(43.99, true)]
    [InlineData(44, false)]
    [InlineData(47, false)]
    [InlineData(47.01, true)]
    public void Layers_and_pallet_add_up_to_the_height(double height, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Of(High(Freight.Sound, Typed.Long(height, units)), "outer.height") is not null);
    }

    [Theory]
    // Nine layers make 95.5 in, and 3 % of that is 2.865 in.
    [InlineData(98.365, false)]
    [InlineData(98.366, true)]
    public void On_a_tall_load_by_three_percent(double height, bool found)
    {
        var tall = Freight.Pallet(new CartonContents(Freight.Small, 16, 9, StackKind.Column));
        foreach (var units in Typed.Both)
            Assert.Equal(found, Of(High(tall, Typed.Long(height, units)), "outer.height") is not null);
    }

    [Theory]
    // 48 × 40 in hold eight cartons of 20 × 12 in: they cover it to the last square inch.
    [InlineData(8, false)]
    [InlineData(9, true)]
    public void Cartons_fit_in_their_layer(int perLayer, bool found)
    {
        var unit = Freight.Pallet(new CartonContents(Freight.Carton(20, 12, 10, 10, 44), perLayer, 3, StackKind.Column));
        var finding = Of(unit, "contents.perLayer");
        Assert.Equal(found, finding is not null);
        if (finding is null)
            return;
        Assert.Equal((Quantity.Pieces(9), Quantity.Pieces(8)), (finding.Measured, finding.Limit));
        Assert.Equal("9 cartons of 20 in × 12 in cannot stand in one layer of 48 in × 40 in; at most 8 fit.", finding.Message.Said());
    }

    [Fact]
    public void More_fit_when_the_load_is_declared_to_hang_over()
    {
        var unit = Freight.Pallet(new CartonContents(Freight.Carton(20, 12, 10, 10, 44), 9, 3, StackKind.Column));
        Assert.Null(Of(unit.Reaching(Length.FromInches(60), Length.FromInches(42)), "contents.perLayer"));
    }

    [Fact]
    public void The_finding_names_the_figure_that_would_fit()
    {
        var finding = Of(High(Freight.Sound, Length.FromInches(55)), "outer.height")!;
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Equal((new Quantity(55, Unit.Inch), new Quantity(45.5, Unit.Inch)), (finding.Measured, finding.Limit));
        Assert.Equal(BasisKind.Arithmetic, finding.Basis.Kind);
        Assert.Equal("4 layers of 10 in on the pallet reach 45.5 in, but an outer height of 55 in is declared. 45.5 in would fit.", finding.Message.Said());
        Assert.True(FindingCodes.IsContradiction(finding.Code));
        var one = Freight.Pallet(new CartonContents(Freight.Small, 16, 1, StackKind.Column));
        Assert.StartsWith("1 layer of 10 in", Of(High(one, Length.FromInches(30)), "outer.height")!.Message.Said(), StringComparison.Ordinal);
    }

    [Theory]
    // One inch is exactly 2.54 cm: 48 in are 4 ft, 121.92 cm, 1219.2 mm and 1.2192 m.
    [InlineData(UnitSystem.Imperial, 4, "Typed in feet? 48 in would fit.")]
    [InlineData(UnitSystem.Imperial, 1.2192, "Typed in metres? 48 in would fit.")]
    [InlineData(UnitSystem.Imperial, 121.92, "Typed in centimetres? 48 in would fit.")]
    [InlineData(UnitSystem.Imperial, 1219.2, "Typed in millimetres? 48 in would fit.")]
    [InlineData(UnitSystem.Metric, 4, "Typed in feet? 121.9 cm would fit.")]
    [InlineData(UnitSystem.Metric, 48, "Typed in inches? 121.9 cm would fit.")]
    [InlineData(UnitSystem.Metric, 1.2192, "Typed in metres? 121.9 cm would fit.")]
    [InlineData(UnitSystem.Metric, 1219.2, "Typed in millimetres? 121.9 cm would fit.")]
    public void A_slip_of_units_is_named_with_the_figure_that_was_meant(UnitSystem field, double typed, string said)
    {
        var message = Of(Freight.Sound.Reaching(length: Length.From(typed, field)), "outer.length", typedIn: field)!.Message;
        Assert.EndsWith(said, message.Said(field), StringComparison.Ordinal);
        // Whoever reads the other family of units reads the same length.
        Assert.EndsWith(field == UnitSystem.Imperial ? "121.9 cm would fit." : "48 in would fit.", message.Said(field == UnitSystem.Imperial ? UnitSystem.Metric : UnitSystem.Imperial), StringComparison.Ordinal);
    }

    [Theory]
    // Half an inch on a deck of 48 in is half a foot, half a metre, half a centimetre or half a millimetre: none comes near.
    [InlineData(UnitSystem.Imperial, 0.5, "48 in would fit.")]
    // A hundredth, a tenth and ten times are slips between metres, centimetres and millimetres only.
    [InlineData(UnitSystem.Imperial, 0.48, "48 in would fit.")]
    [InlineData(UnitSystem.Imperial, 480, "48 in would fit.")]
    // Inches belong into a field of inches, and centimetres into one of centimetres.
    [InlineData(UnitSystem.Imperial, 18.9, "48 in would fit.")]
    [InlineData(UnitSystem.Metric, 309.7, "121.9 cm would fit.")]
    // Twelve times is feet into inches only.
    [InlineData(UnitSystem.Metric, 10.16, "121.9 cm would fit.")]
    public void What_no_slip_explains_is_not_called_one(UnitSystem field, double typed, string said)
    {
        var message = Of(Freight.Sound.Reaching(length: Length.From(typed, field)), "outer.length", typedIn: field)!.Message.Said(field);
        Assert.EndsWith(". " + said, message, StringComparison.Ordinal);
        Assert.DoesNotContain("Typed in", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_what_was_not_typed_no_slip_is_named()
    {
        var finding = Of(Freight.Sound.Reaching(length: Length.FromInches(4)), "outer.length")!;
        Assert.EndsWith(" 48 in would fit.", finding.Message.Said(), StringComparison.Ordinal);
        Assert.DoesNotContain("Typed", finding.Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_units_typed_in_change_nothing_but_the_words()
    {
        var unit = Freight.Sound.Reaching(length: Length.FromInches(4));
        var (inches, centimetres) = (unit.Check(typedIn: UnitSystem.Imperial), unit.Check(typedIn: UnitSystem.Metric));
        Assert.Equal(inches.Verdict, centimetres.Verdict);
        Assert.Equal(inches.Findings.Select(found => found with { Message = Phrase.Empty }), centimetres.Findings.Select(found => found with { Message = Phrase.Empty }));
    }

    [Theory]
    [InlineData(UnitSystem.Imperial, 3.79, "Typed in feet? 45.5 in would fit.")]
    [InlineData(UnitSystem.Imperial, 1.16, "Typed in metres? 45.7 in would fit.")]
    [InlineData(UnitSystem.Metric, 45.5, "Typed in inches? 115.6 cm would fit.")]
    [InlineData(UnitSystem.Metric, 1156, "Typed in millimetres? 115.6 cm would fit.")]
    public void Also_in_a_height(UnitSystem field, double typed, string said) =>
        Assert.EndsWith(said, Of(High(Freight.Sound, Length.From(typed, field)), "outer.height", typedIn: field)!.Message.Said(field), StringComparison.Ordinal);

    [Theory]
    // A carton of 11 × 9 in with its middle past the edge: more than 5.5 in at each end.
    [InlineData(59, false)]
    [InlineData(59.1, true)]
    public void Cartons_do_not_stand_with_their_middle_past_the_edge(double length, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Of(Freight.Sound.Reaching(length: Typed.Long(length, units)), "outer.length") is not null);
        Assert.Equal(found, Of(Freight.Sound.Reaching(width: Length.FromInches(length - 8)), "outer.width") is not null);
    }

    [Fact]
    public void A_machine_is_taller_than_its_pallet()
    {
        Assert.NotNull(Of(High(Freight.Machine, Freight.Deck.Height), "outer.height"));
        Assert.Null(Of(High(Freight.Machine, Freight.Deck.Height + Length.FromNanometres(1)), "outer.height"));
    }

    [Fact]
    public void A_height_below_the_pallets_is_said_once()
    {
        var findings = High(Freight.Sound, Length.FromInches(4)).Check().Findings.Where(f => f.Subject == "outer.height");
        Assert.Single(findings);
    }

    [Theory]
    [InlineData(11.9, true)]
    [InlineData(12, false)]
    public void No_pallet_is_smaller_than_a_foot(double length, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var unit = Freight.Machine with { Platform = Freight.Deck with { Length = Typed.Long(length, units) } };
            Assert.Equal(found, Of(unit, "platform.length") is not null);
        }
    }

    [Theory]
    [InlineData(UnitSystem.Imperial, 4, "Typed in feet? 48 in would be likely.")]
    [InlineData(UnitSystem.Imperial, 1.2, "Typed in metres? 47.2 in would be likely.")]
    [InlineData(UnitSystem.Imperial, 0.5, "Was it typed in another unit?")]
    [InlineData(UnitSystem.Metric, 4, "Typed in feet? 121.9 cm would be likely.")]
    [InlineData(UnitSystem.Metric, 1.2, "Typed in metres? 120 cm would be likely.")]
    [InlineData(UnitSystem.Metric, 30, "Typed in inches? 76.2 cm would be likely.")]
    [InlineData(UnitSystem.Metric, 11, "Was it typed in another unit?")]
    public void A_pallet_typed_in_another_unit_is_recognised(UnitSystem field, double typed, string said)
    {
        var unit = Freight.Machine with { Platform = Freight.Deck with { Length = Length.From(typed, field), Width = Length.FromInches(3.33) } };
        Assert.EndsWith(said, Of(unit, "platform.length", typedIn: field)!.Message.Said(field), StringComparison.Ordinal);
        Assert.NotNull(Of(unit, "platform.width", typedIn: field));
    }

    [Fact]
    public void A_crate_may_be_taller_than_what_is_in_it_but_not_smaller()
    {
        var crate = new HandlingUnit
        {
            Reference = "C1",
            Quantity = 1,
            Kind = HandlingUnitKind.Crate,
            Outer = Freight.Outer(48, 40, 36),
            GrossWeight = Mass.FromPounds(480),
            Contents = new CartonContents(Freight.Carton(20, 12, 10, 20, 44), 8, 3, StackKind.Column),
        };
        Assert.Empty(crate.Check().Findings);
        Assert.Contains("need 30 in", Of(High(crate, Length.FromInches(28)), "outer.height")!.Message.Said(), StringComparison.Ordinal);
        Assert.NotNull(Of(crate with { Outer = Freight.Outer(47, 40, 36) }, "contents.perLayer"));
    }

    [Fact]
    public void A_loose_carton_is_as_large_as_its_carton_either_way_round()
    {
        Assert.Empty(Freight.LooseCarton.Check().Findings);
        Assert.Empty((Freight.LooseCarton with { Outer = Freight.Outer(12, 16, 10) }).Check().Findings);
        Assert.Null(Of(Freight.LooseCarton with { Outer = Freight.Outer(17.5, 12, 10) }, "outer.length"));
        var finding = Of(Freight.LooseCarton with { Outer = Freight.Outer(17.6, 12, 10) }, "outer.length")!;
        Assert.Equal((new Quantity(17.6, Unit.Inch), new Quantity(16, Unit.Inch)), (finding.Measured, finding.Limit));
        Assert.NotNull(Of(Freight.LooseCarton with { Outer = Freight.Outer(12, 20, 10) }, "outer.width"));
    }

    [Fact]
    public void A_lone_unfinished_layer_is_a_full_one()
    {
        var unfinished = Freight.Pallet(new CartonContents(Freight.Small, 16, 0, StackKind.Column, TopLayer: 12)) with { Stackable = true };
        var full = Freight.Pallet(new CartonContents(Freight.Small, 12, 1, StackKind.Column)) with { Stackable = true };
        Assert.Equal(full.Check().Findings, unfinished.Check().Findings);
        var (a, b) = (full.Check().Measures, unfinished.Check().Measures);
        Assert.Equal(a with { Shape = b.Shape }, b);
        Assert.Equal(a.Shape.Layer, b.Shape.Layer);
    }

    [Fact]
    public void Weight_and_film_change_nothing_about_sizes()
    {
        var odd = High(Freight.Sound, Length.FromInches(55));
        Assert.Equal(Of(odd, "outer.height"), Of(odd with { GrossWeight = Mass.FromPounds(3000), Protection = Protection.None }, "outer.height"));
    }

    [Fact]
    public void A_rule_set_may_allow_more()
    {
        var tariff = Tariff.With(rules => rules with
        {
            Consistency = new ConsistencyLimits { Size = Length.FromInches(12), Tape = Length.FromInches(1), SmallestDeck = Length.FromInches(50), Severity = Severity.Caution },
        });
        Assert.Null(Of(High(Freight.Sound, Length.FromInches(55)), "outer.height", tariff));
        Assert.Null(Of(Freight.Sound.Reaching(length: Length.FromInches(47)), "outer.length", tariff));
        var finding = Of(Freight.Sound, "platform.length", tariff)!;
        Assert.Equal((Severity.Caution, new Quantity(50, Unit.Inch)), (finding.Severity, finding.Limit));
        Tariff.IsNamedBy(finding);
    }

    private static HandlingUnit High(HandlingUnit unit, Length height) => unit with { Outer = unit.Outer with { Height = height } };

    private static Finding? Of(HandlingUnit unit, string subject, RuleSet? rules = null, UnitSystem? typedIn = null) =>
        unit.Check(rules: rules, typedIn: typedIn).Findings.SingleOrDefault(f => f.Code == FindingCodes.InconsistentDimensions && f.Subject == subject);
}
