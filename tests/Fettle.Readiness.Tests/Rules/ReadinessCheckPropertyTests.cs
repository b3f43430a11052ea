using System.Text.Json;
using CsCheck;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>What holds for every declaration, whatever is in it.</summary>
public class ReadinessCheckPropertyTests
{
    [Fact]
    public void Whatever_the_form_lets_through_is_judged_with_finite_figures_and_whole_sentences() =>
        Gen.Select(Any.Allowed, Any.Lane).Sample(
            (unit, lane) =>
            {
                var result = ReadinessCheck.Run(unit, lane, RuleSet.BuiltIn);
                foreach (var finding in result.Findings)
                    IsWhole(finding);
                Assert.Equal(result.Findings.OrderByDescending(f => f.Severity), result.Findings);
                Assert.Equal(Judged(result.Findings), result.Verdict);
                var search = AlternativeFinder.Find(unit, result, lane, RuleSet.BuiltIn, UnitCosts.Default);
                Assert.Equal(result.Findings.Count > 0 && search.Alternatives.Count == 0, search.Blocked is not null);
            },
            iter: 800,
            print: Any.Print);

    [Fact]
    public void So_is_freight_as_it_stands_on_a_dock() =>
        Gen.Select(Gen.OneOf(Any.Pallet, Any.Other), Any.Lane).Sample(
            (unit, lane) => Assert.All(ReadinessCheck.Run(unit, lane, RuleSet.BuiltIn).Findings, IsWhole),
            iter: 2000,
            print: Any.Print);

    [Fact]
    public void More_overhang_never_turns_a_stop_into_a_pass() =>
        Gen.Select(Any.Pallet, Any.Lane, Gen.Double[0, 20], Gen.Double[0, 20]).Sample(
            (unit, lane, along, across) =>
            {
                var further = unit.Reaching(unit.Outer.Length + Length.FromInches(along), unit.Outer.Width + Length.FromInches(across));
                var (before, after) = (unit.Check(lane), further.Check(lane));
                Assert.True(before.Verdict != Verdict.Hold || after.Verdict == Verdict.Hold);
                Assert.True(Worst(after, FindingCodes.Overhang) >= Worst(before, FindingCodes.Overhang));
                if (before.Measures.UsableStrength is { } strength)
                    Assert.True(after.Measures.UsableStrength <= strength);
            },
            iter: 1000,
            print: Any.Print);

    [Fact]
    public void Inches_and_centimetres_of_the_same_thing_are_judged_the_same() =>
        Gen.Select(
            Gen.Double[40, 56], Gen.Double[36, 48], Gen.Double[6, 24], Gen.Double[6, 18], Gen.Double[4, 16], Gen.Double[1, 60], Gen.Int[1, 16], Gen.Int[1, 8])
            .Select(Any.Protection, Any.Lane)
            .Sample(
                (figures, protection, lane) =>
                {
                    var (outerLength, outerWidth, length, width, height, weight, perLayer, layers) = figures;
                    var (inches, centimetres) = (Written(UnitSystem.Imperial), Written(UnitSystem.Metric));
                    Assert.Equal(inches, centimetres);
                    Assert.Equal(inches.Check(lane).Findings, centimetres.Check(lane).Findings);

                    HandlingUnit Written(UnitSystem units)
                    {
                        Length Long(double value) => Typed.Long(Math.Round(value, 3), units);
                        var carton = new Carton(Long(length), Long(width), Long(height), Typed.Heavy(Math.Round(weight, 2), units), new Board(Flute.C, 32));
                        var deck = Freight.Deck with { Length = Typed.Long(48, units), Width = Typed.Long(40, units), Height = Typed.Long(5.5, units), Tare = Typed.Heavy(40, units) };
                        var unit = Freight.Pallet(new CartonContents(carton, perLayer, layers, StackKind.Column), deck);
                        return unit with { Outer = unit.Outer with { Length = Long(outerLength), Width = Long(outerWidth) }, Protection = protection, Stackable = true };
                    }
                },
                iter: 1000,
                print: Any.Print);

    [Fact]
    public void The_order_of_the_lines_changes_nothing_about_any_of_them() =>
        Any.Declaration.SelectMany(declaration => Gen.Shuffle(declaration.HandlingUnits.ToArray()).Select(shuffled => (declaration, shuffled))).Sample(
            (declaration, shuffled) =>
            {
                var (before, after) = (ReadinessCheck.Run(declaration, RuleSet.BuiltIn), ReadinessCheck.Run(declaration with { HandlingUnits = shuffled }, RuleSet.BuiltIn));
                Assert.Equal(before.Verdict, after.Verdict);
                Assert.All(before.HandlingUnits, unit =>
                {
                    var same = after.HandlingUnits.Single(other => other.Reference == unit.Reference);
                    Assert.Equal(unit.Findings, same.Findings);
                    Assert.Equal(unit.Measures, same.Measures);
                });
                Assert.Equal(shuffled.Select(unit => unit.Reference), after.HandlingUnits.Select(unit => unit.Reference));
            },
            iter: 500,
            print: Any.Print);

    [Fact]
    public void How_many_there_are_alike_changes_nothing_about_one() =>
        Gen.Select(Any.Pallet, Any.Lane, Gen.Int[1, 999]).Sample(
            (unit, lane, quantity) => Assert.Equal(unit.Check(lane).Findings, (unit with { Quantity = quantity }).Check(lane).Findings),
            iter: 500,
            print: Any.Print);

    [Fact]
    public void What_presses_and_what_may_be_put_on_top_are_plain_arithmetic_in_pounds() =>
        Gen.Select(Any.Pallet, Any.Lane).Sample(
            (unit, lane) =>
            {
                var (cartons, limits, measures) = (unit.Cartons().Settled, RuleSet.BuiltIn.Strength, unit.Check(lane).Measures);
                var mixed = limits.MixedFreightPoundsPerCubicFoot * unit.Outer.Length.Feet * unit.Outer.Width.Feet * Math.Max(0, limits.VehicleStack.Feet - unit.Outer.Height.Feet);
                var pair = unit.Outer.Height * 2 <= RuleSet.BuiltIn.Height.DoubleStack ? unit.GrossWeight.Pounds : 0;
                Assert.Equal(Math.Max(mixed, pair), measures.TopLoadExpected.Pounds, 1e-6);
                if (measures.UsableStrength is not { } usable)
                    return;
                var above = cartons.Carton.GrossWeight.Pounds * (cartons.Tiers - 1);
                var spare = cartons.TopLayer > 0 ? 0 : Math.Max(0, (usable.Pounds / limits.SafetyFactor) - above) * cartons.PerLayer;
                Assert.Equal(above, measures.LoadOnBottomCarton!.Value.Pounds, 1e-6);
                Assert.Equal(spare, measures.TopLoadCapacity!.Value.Pounds, 1e-6);
                Assert.Equal(above > 0, measures.SelfCrushSafety is not null);
                Assert.Equal(above > 0 ? usable.Pounds / above : 0, measures.SelfCrushSafety ?? 0, 1e-6);
            },
            iter: 1000,
            print: Any.Print);

    [Fact]
    public void More_damp_days_transfers_or_layers_never_make_a_stack_stronger() =>
        Gen.Select(Any.Pallet, Any.Lane, Gen.Double[0, 100], Gen.Double[0, 100], Gen.Double[0, 200], Gen.Double[0, 200], Gen.Int[0, 6], Gen.Int[0, 5]).Sample(
            (unit, lane, humidity, damper, days, longer, transfers, layers) =>
            {
                var cartons = unit.Cartons();
                var taller = unit with
                {
                    Contents = cartons with { Layers = cartons.Layers + layers },
                    Outer = unit.Outer with { Height = unit.Outer.Height + (cartons.Carton.Height * layers) },
                    GrossWeight = unit.GrossWeight + (cartons.Carton.GrossWeight * (cartons.PerLayer * layers)),
                };
                var mild = unit.Check(lane, Conditions(humidity, days)).Measures;
                foreach (var harsh in new[]
                {
                    unit.Check(lane, Conditions(Math.Min(100, humidity + damper), days)).Measures,
                    unit.Check(lane, Conditions(humidity, days + longer)).Measures,
                    unit.Check(lane with { Transfers = lane.Transfers + transfers }, Conditions(humidity, days)).Measures,
                    taller.Check(lane, Conditions(humidity, days)).Measures,
                })
                {
                    Assert.True((harsh.SelfCrushSafety ?? double.MaxValue) <= (mild.SelfCrushSafety ?? double.MaxValue));
                    Assert.True((harsh.TopLoadCapacity ?? Mass.Zero) <= (mild.TopLoadCapacity ?? Mass.Zero));
                    Assert.True(mild.CarriesLikeUnit || !harsh.CarriesLikeUnit);
                }

                static RuleSet Conditions(double humidity, double days) =>
                    Tariff.With(rules => rules with { Strength = rules.Strength with { RelativeHumidity = humidity, Days = days } });
            },
            iter: 1000,
            print: Any.Print);

    [Fact]
    public void More_film_boards_or_a_sleeve_never_make_it_worse() =>
        Gen.Select(Any.Pallet, Any.Lane).Sample(
            (unit, lane) =>
            {
                var better = unit with { Protection = unit.Protection with { WrapTurns = unit.Protection.WrapTurns + 2, WrapOverPlatform = true, CornerBoards = CornerBoards.ToPlatform, Sleeve = true } };
                Assert.True(better.Check(lane).Verdict <= unit.Check(lane).Verdict);
                Assert.True(better.Check(lane).Findings.Count <= unit.Check(lane).Findings.Count);
            },
            iter: 500,
            print: Any.Print);

    /// <summary>Subjects are the API's own field names.</summary>
    private static readonly HashSet<string> Fields =
    [
        "kind", "outer.length", "outer.width", "outer.height", "grossWeight", "stackable", "topSurface", "partitions", "requests", "hazardous", "temperatureControlled", "declaredClass",
        "platform.length", "platform.width", "platform.condition", "platform.entry", "platform.treatmentMark",
        "contents.perLayer", "contents.layers", "contents.stack", "contents.carton.board", "contents.carton.width", "contents.carton.grossWeight",
        "contents.lines", "contents.diameter", "contents.tiers", "contents.braced", "contents.fastened", "contents.centreOfGravity",
        "protection.wrapTurns", "protection.wrapOverPlatform", "protection.cornerBoards", "protection.sleeve", "protection.topCap", "protection.straps", "protection.slipSheets",
    ];

    private static void IsWhole(Finding finding)
    {
        Assert.True(double.IsFinite(finding.Measured.Value), $"{finding.Code} measured {finding.Measured.Value}");
        Assert.True(double.IsFinite(finding.Limit.Value), $"{finding.Code} limit {finding.Limit.Value}");
        Assert.Contains(finding.Subject, Fields);
        Assert.NotEmpty(finding.Basis.ToString());
        Assert.Equal(RuleSet.BuiltIn.Identity, finding.RuleSet);
        foreach (var units in Typed.Both)
        {
            foreach (var sentence in new[] { finding.Message.Say(units), finding.Cure.Say(units) })
            {
                Assert.True(sentence[^1] is '.' or '?', sentence);
                Assert.True(char.IsUpper(sentence[0]) || char.IsDigit(sentence[0]), sentence);
                Assert.DoesNotContain("{", sentence, StringComparison.Ordinal);
                Assert.DoesNotContain("  ", sentence, StringComparison.Ordinal);
                Assert.DoesNotContain("NaN", sentence, StringComparison.Ordinal);
            }
        }

        foreach (var units in Typed.Both)
        {
            var working = finding.Formula.Say(units);
            Assert.InRange(working.Length, 5, 200);
            Assert.DoesNotContain("NaN", working, StringComparison.Ordinal);
            Assert.DoesNotContain("{", working, StringComparison.Ordinal);
        }

        // What is stored can be read again.
        Assert.Equal(JsonSerializer.Serialize(finding), JsonSerializer.Serialize(JsonSerializer.Deserialize<Finding>(JsonSerializer.Serialize(finding))));
    }

    private static Verdict Judged(IReadOnlyList<Finding> findings) => findings.Select(finding => finding.Severity switch
    {
        Severity.Stop => Verdict.Hold,
        Severity.Caution => Verdict.ReadyWithCautions,
        Severity.Tip => Verdict.Ready,
    }).DefaultIfEmpty(Verdict.Ready).Max();

    private static int Worst(UnitResult result, string code) =>
        result.Findings.Where(finding => finding.Code == code).Select(finding => (int)finding.Severity).DefaultIfEmpty(-1).Max();
}
