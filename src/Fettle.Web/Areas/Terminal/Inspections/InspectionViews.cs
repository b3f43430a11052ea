using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Rules;
using Fettle.Web.Declarations;
using Fettle.Web.Inspections;

namespace Fettle.Web.Areas.Terminal.Inspections;

/// <summary>A row of the form: what was declared, and a field for what is measured.</summary>
/// <param name="Choices">To choose from; null for a field to type into.</param>
public sealed record MeasureRow(string Field, string Title, string? Hint, string Declared, string? Unit, string? Value, IReadOnlyList<(string Value, string Title)>? Choices = null)
{
    public string Id => Field.Replace('.', '-').Replace('[', '-').Replace("]", "", StringComparison.Ordinal);

    public string? Error { get; init; }
}

public static class InspectionViews
{
    /// <summary>What can be measured of this unit, in the order in which one walks round it.</summary>
    public static IEnumerable<MeasureRow> Rows(InspectPage page)
    {
        var (line, form, units) = (page.Line, page.Form.Measured, page.Units);
        var (inch, pound) = units == UnitSystem.Metric ? ("cm", "kg") : ("in", "lb");
        yield return Row("measured.length", T("Length"), null, Long(line.Outer.Length), inch, form.Length);
        yield return Row("measured.width", T("Width"), null, Long(line.Outer.Width), inch, form.Width);
        yield return Row("measured.height", T("Height"), T("pallet included"), Long(line.Outer.Height), inch, form.Height);
        yield return Row("measured.grossWeight", T("Gross weight"), T("on the scale, pallet included"), Heavy(line.GrossWeight), pound, form.GrossWeight);
        if (line.Platform is not null)
        {
            var over = LoadShape.Of(line).Overhang;
            yield return Row("measured.overhangAtEnds", T("Overhang at the ends"), T("the most at either end, where forks enter"), Long(over.Front), inch, form.OverhangAtEnds);
            yield return Row("measured.overhangAtSides", T("Overhang at the sides"), T("the most at either side"), Long(over.Left), inch, form.OverhangAtSides);
        }

        yield return Row("measured.wrapTurns", T("Turns of film"), T("at the thinnest place"), Writing.Text(line.Protection.WrapTurns), null, form.WrapTurns);
        if (line.Platform is not null)
            yield return Row("measured.wrapOverPlatform", T("Film"), null, T(line.Protection.WrapOverPlatform ? "over the pallet" : "not over the pallet"), null, form.WrapOverPlatform, [("", NotLooked), ("yes", T("over the pallet")), ("no", T("not over the pallet"))]);
        yield return Row("measured.cornerBoards", T("Corner boards"), null, Boards(line.Protection.CornerBoards), null, form.CornerBoards, [("", NotLooked), .. Enum.GetValues<CornerBoards>().Select(boards => (boards.Word(), Boards(boards)))]);

        MeasureRow Row(string field, string title, string? hint, string declared, string? unit, string? value, IReadOnlyList<(string, string)>? choices = null) =>
            new(field, title, hint, declared, unit, value, choices) { Error = page.Error(field) };
        string Long(Length length) => ((Quantity)length).Show(units);
        string Heavy(Mass mass) => ((Quantity)mass).Show(units);
    }

    public static IReadOnlyList<(string Value, string Title)> DamageKinds => [("", T("none")), .. Enum.GetValues<DamageKind>().Select(kind => (kind.Word(), T(Recheck.Word(kind))))];

    public static IReadOnlyList<(string Value, string Title)> DamageSpots => [("", "–"), .. Enum.GetValues<DamageSpot>().Select(spot => (spot.Word(), T(Recheck.Word(spot))))];

    public static IEnumerable<(string Value, string Title)> StackTests =>
        [(StackTest.NotTried.Word(), Label(StackTest.NotTried)), (StackTest.Held.Word(), Label(StackTest.Held)), (StackTest.Failed.Word(), Label(StackTest.Failed))];

    public static string Label(this StackTest test) => test switch
    {
        StackTest.NotTried => T("Not tried"),
        StackTest.Held => T("It held"),
        StackTest.Failed => T("It failed"),
    };

    /// <summary>"P-4K7Q2M/A1, unit 2".</summary>
    public static string Name(InspectionRecorded recorded) => recorded.Index is { } index
        ? T("{0}, unit {1}", $"{recorded.Pickup.Number}/{recorded.Reference}", index)
        : $"{recorded.Pickup.Number}/{recorded.Reference}";

    private static string NotLooked => T("not looked at");

    private static string Boards(CornerBoards boards) => boards switch
    {
        CornerBoards.None => T("none"),
        CornerBoards.Partial => T("end above the pallet"),
        CornerBoards.ToPlatform => T("down to the pallet"),
    };
}
