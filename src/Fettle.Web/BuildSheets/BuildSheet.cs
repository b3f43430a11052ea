using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Drawings;

namespace Fettle.Web.BuildSheets;

/// <summary>
/// What whoever builds the unit on the dock has to know, and nothing else: how many, each layer from above, the finished
/// load, and the steps in the order of the work. Pure; page and PDF show the same one.
/// </summary>
public sealed record BuildSheet
{
    /// <summary>What is lifted by one person alone: the load constant of the revised NIOSH equation, as in the check's own limits.</summary>
    private static readonly FewCartonLimits Lifts = RuleSet.BuiltIn.FewCartons;

    public required string Title { get; init; }

    public required string Of { get; init; }

    public required string Alike { get; init; }

    public required string Load { get; init; }

    public required SheetStep Weight { get; init; }

    public required SheetStep Size { get; init; }

    public required bool MayCarry { get; init; }

    public required string Stacking { get; init; }

    /// <summary>Why the office has to be asked first; null when the check found no stop.</summary>
    public required string? Stop { get; init; }

    public required IReadOnlyList<SheetPicture> Pictures { get; init; }

    public required IReadOnlyList<SheetStep> Steps { get; init; }

    public required string TakeCare { get; init; }

    public required IReadOnlyList<string> Cautions { get; init; }

    public required string Foot { get; init; }

    public required CultureInfo Culture { get; init; }

    /// <param name="of">Which pickup and line, or whose standard build.</param>
    /// <param name="findings">What the check found; stops are told on top, and their cautions below.</param>
    public static BuildSheet For(
        HandlingUnit unit,
        string title,
        Func<BuildSheetWords, string> of,
        IReadOnlyList<Finding> findings,
        RuleSetVersion ruleSet,
        UnitSystem units,
        CultureInfo culture,
        DrawingOptions drawings)
    {
        var words = new BuildSheetWords(units, culture);
        var mayCarry = TopLoad.MayCarry(unit);
        Phrase[] stops = [.. findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Message)];
        return new()
        {
            Title = title,
            Of = of(words),
            Alike = words.Alike(unit.Quantity),
            Load = words.Load(unit),
            Weight = new(words.WeightCaption, words.Weight(unit.GrossWeight)),
            Size = new(words.SizeCaption, words.Size(unit.Outer)),
            MayCarry = mayCarry,
            Stacking = words.Stacking(mayCarry),
            Stop = stops.Length == 0 ? null : words.WouldBeHeld(stops),
            Pictures =
            [
                .. SheetDrawing.Layers(unit, units, drawings).Select(layer => new SheetPicture(words.Layer(layer), layer.Svg)),
                .. SheetDrawing.Corner(unit, units, drawings) is { } corner ? [new SheetPicture(words.Finished, corner)] : Array.Empty<SheetPicture>(),
            ],
            Steps = [.. StepsOf(unit, words).OfType<SheetStep>()],
            TakeCare = words.TakeCare,
            Cautions = [.. CautionsOf(unit, findings, words)],
            Foot = $"{words.NoPromise} {words.CheckedBy(ruleSet.Say())}",
            Culture = culture,
        };
    }

    private static IEnumerable<SheetStep?> StepsOf(HandlingUnit unit, BuildSheetWords words)
    {
        yield return unit.Platform is { } deck ? words.Platform(deck) : null;
        yield return words.Contents(unit);
        yield return words.Fragile(unit);
        yield return words.SlipSheets(unit.Protection);
        yield return words.Sleeve(unit.Protection);
        yield return words.CornerBoards(unit);
        yield return words.TopCap(unit.Protection);
        yield return words.Film(unit);
        yield return words.Straps(unit.Protection);
        yield return words.Scale(unit.GrossWeight);
        yield return words.Labels(unit);
        yield return words.Regulated(unit);
        yield return words.Ask(unit.Requests);
    }

    private static IEnumerable<string> CautionsOf(HandlingUnit unit, IReadOnlyList<Finding> findings, BuildSheetWords words)
    {
        var heaviest = unit.Contents switch
        {
            CartonContents cartons => cartons.Carton.GrossWeight,
            MixedCartonContents mixed => mixed.Lines.Max(line => line.Carton.GrossWeight),
            DrumContents drums => drums.WeightEach,
            BagContents bags => bags.WeightEach,
            RollContents rolls => rolls.WeightEach,
            _ => unit.Platform is null ? unit.GrossWeight : Mass.Zero,
        };
        if (heaviest > Lifts.OnePersonLift)
            yield return words.LiftCaution(heaviest, heaviest > Lifts.TwoPersonLift ? 3 : 2);
        if (unit.Protection.Straps > 0)
            yield return words.StrapCaution;
        yield return words.ForkCaution;
        foreach (var caution in findings.Select(finding => FindingCodes.CautionFor(finding.Code)).OfType<string>().Distinct())
            yield return caution;
    }
}

/// <param name="Svg">Made by Fettle's own drawings.</param>
public sealed record SheetPicture(string Caption, string Svg);
