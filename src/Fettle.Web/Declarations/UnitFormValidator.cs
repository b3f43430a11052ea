using System.Globalization;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Densities;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using FluentValidation;

namespace Fettle.Web.Declarations;

/// <summary>
/// Whether a line can be read at all. Bounds are wide: they refuse what no dock has ever seen, and leave what is merely
/// wrong to the check, which can say why.
/// </summary>
public sealed class UnitFormValidator : AbstractValidator<UnitForm>
{
    public static readonly Length LongestSide = Length.FromInches(636);
    public static readonly Length LongestCartonSide = Length.FromInches(240);
    public static readonly Mass Heaviest = Mass.FromPounds(80_000);
    public const int MostUnits = 999;
    public const int MostCartons = 2000;

    // Before the validators, which name it in their messages.
    private static readonly string?[] ContentsKinds = ["cartons", "mixed-cartons", "crate", "drum", "bags", "rolls", "furniture", "machinery", "piece"];

    private static readonly UnitFormValidator Imperial = new(UnitSystem.Imperial);
    private static readonly UnitFormValidator Metric = new(UnitSystem.Metric);

    private UnitFormValidator(UnitSystem units)
    {
        RuleFor(x => x.Reference)
            .NotEmpty().WithMessage(_ => T("Give the unit a name, for example A1."))
            .MaximumLength(30).WithMessage(_ => T("At most 30 characters."))
            .Must(ReadableText).WithMessage(_ => T("Letters, digits and ordinary signs only."));
        RuleFor(x => x.Quantity).MustBeWhole(1, MostUnits);
        RuleFor(x => x.Kind).MustBeOneOf<UnitForm, HandlingUnitKind>();
        RuleFor(x => x.Outer.Length).MustBeLength(units, LongestSide);
        RuleFor(x => x.Outer.Width).MustBeLength(units, LongestSide);
        RuleFor(x => x.Outer.Height).MustBeLength(units, LongestSide);
        RuleFor(x => x.GrossWeight).MustBeMass(units, Heaviest);
        RuleFor(x => x.Fragile).MustBeOneOf<UnitForm, Fragility>(optional: true);
        RuleFor(x => x.TopSurface).MustBeOneOf<UnitForm, TopSurface>(optional: true);
        RuleFor(x => x.Requests)
            .Must(words => RequestWords.Parse(words) is not null).WithMessage(_ => T("Choose from: {0}.", string.Join(", ", RequestWords.All)));
        RuleFor(x => x.ConfirmedBy)
            .MaximumLength(100).WithMessage(_ => T("At most 100 characters."))
            .Must(ReadableText).WithMessage(_ => T("Letters, digits and ordinary signs only."));
        RuleFor(x => x.BuiltBy)
            .MaximumLength(100).WithMessage(_ => T("At most 100 characters."))
            .Must(ReadableText).WithMessage(_ => T("Letters, digits and ordinary signs only."));
        RuleFor(x => x.DeclaredClass)
            .Must(text => string.IsNullOrWhiteSpace(text) || FreightClass(text) is not null)
            .WithMessage(_ => T("A freight class: {0}.", string.Join(", ", FreightClassScale.Classes.Select(c => c.ToString("0.#", CultureInfo.InvariantCulture)))));
        RuleFor(x => x.Protection.WrapTurns).MustBeWhole(0, 50);
        RuleFor(x => x.Protection.Straps).MustBeWhole(0, 20, optional: true);
        RuleFor(x => x.Protection.CornerBoards).MustBeOneOf<UnitForm, CornerBoards>(optional: true);

        When(x => Kind(x) == HandlingUnitKind.Pallet, () =>
        {
            RuleFor(x => x.Platform.Length).MustBeLength(units, LongestSide);
            RuleFor(x => x.Platform.Width).MustBeLength(units, LongestSide);
            RuleFor(x => x.Platform.Height).MustBeLength(units, Length.FromInches(60));
            RuleFor(x => x.Platform.Tare).MustBeMass(units, Heaviest);
            RuleFor(x => x.Platform.Material).MustBeOneOf<UnitForm, PlatformMaterial>(optional: true);
            RuleFor(x => x.Platform.Rating).MustBeMass(units, Heaviest, optional: true);
            RuleFor(x => x.Platform.Entry).MustBeOneOf<UnitForm, ForkEntry>(optional: true);
            RuleFor(x => x.Platform.Condition).MustBeOneOf<UnitForm, PlatformCondition>(optional: true);
            RuleFor(x => x.Platform.TreatmentMark).MustBeOneOf<UnitForm, TreatmentMark>(optional: true);
        });
        RuleFor(x => x.Contents.Kind)
            .Must(kind => ContentsKinds.Contains(kind)).WithMessage(_ => T("Choose one of: {0}.", string.Join(", ", ContentsKinds)));
        When(x => x.Contents.Kind == "cartons", () =>
        {
            RuleFor(x => x.Contents.Carton).SetValidator(new CartonFormValidator(units));
            RuleFor(x => x.Contents.PerLayer).MustBeWhole(1, 500);
            RuleFor(x => x.Contents.Layers).MustBeWhole(0, 100);
            RuleFor(x => x.Contents.TopLayer).MustBeWhole(0, 500, optional: true);
            RuleFor(x => x.Contents.Stack).MustBeOneOf<UnitForm, StackKind>(optional: true);
            RuleFor(x => x.Contents.TopLayer)
                .Must((x, text) => Whole(text) is null or 0 || Whole(x.Contents.PerLayer) is not { } per || Whole(text) < per)
                .WithMessage(_ => T("A layer with that many cartons is a full one: count it among the layers."));
            RuleFor(x => x.Contents.Layers)
                .Must((x, text) => Whole(text) != 0 || Whole(x.Contents.TopLayer) > 0)
                .WithMessage(_ => T("At least one layer."));
            RuleFor(x => x.Contents.PerLayer)
                .Must((x, text) => (long)(Whole(text) ?? 0) * (Whole(x.Contents.Layers) ?? 0) <= MostCartons)
                .WithMessage(_ => T("More than {0} cartons on one unit: check the count.", MostCartons));
        });
        When(x => x.Contents.Kind == "mixed-cartons", () =>
        {
            RuleFor(x => x.Contents.Lines.Count)
                .GreaterThan(0).WithMessage(_ => T("Name at least one kind of carton."))
                .LessThanOrEqualTo(MixedCartonContents.MostLines).WithMessage(_ => T("At most {0} kinds of carton on one unit.", MixedCartonContents.MostLines))
                .OverridePropertyName("Contents.Lines");
            RuleForEach(x => x.Contents.Lines).SetValidator(new CartonLineFormValidator(units));
            RuleFor(x => x.Contents.Lines)
                .Must(lines => lines.Sum(line => (long)(Whole(line.Count) ?? 0)) <= MostCartons)
                .WithMessage(_ => T("More than {0} cartons on one unit: check the counts.", MostCartons));
        });
        When(x => x.Contents.Kind is "crate" or "furniture" or "machinery" or "piece", () =>
            RuleFor(x => x.Contents.Description)
                .NotEmpty().WithMessage(_ => T("Say what it is, for example: lathe."))
                .MaximumLength(200).WithMessage(_ => T("At most 200 characters."))
                .Must(ReadableText).WithMessage(_ => T("Letters, digits and ordinary signs only.")));
        When(x => x.Contents.Kind is "drum" or "rolls", () =>
        {
            RuleFor(x => x.Contents.Diameter).MustBeLength(units, LongestCartonSide);
            RuleFor(x => x.Contents.Height).MustBeLength(units, LongestCartonSide);
            RuleFor(x => x.Contents.WeightEach).MustBeMass(units, Heaviest);
            RuleFor(x => x.Contents.Count).MustBeWhole(1, 500);
        });
        When(x => x.Contents.Kind == "drum", () =>
        {
            RuleFor(x => x.Contents.Tiers).MustBeWhole(1, 10);
            RuleFor(x => x.Contents.Material).MustBeOneOf<UnitForm, DrumMaterial>(optional: true);
        });
        When(x => x.Contents.Kind == "rolls", () => RuleFor(x => x.Contents.Standing).MustBeOneOf<UnitForm, RollStanding>(optional: true));
        When(x => x.Contents.Kind == "bags", () =>
        {
            RuleFor(x => x.Contents.WeightEach).MustBeMass(units, Heaviest);
            RuleFor(x => x.Contents.PerLayer).MustBeWhole(1, 500);
            RuleFor(x => x.Contents.Layers).MustBeWhole(1, 100);
            RuleFor(x => x.Contents.Stack).MustBeOneOf<UnitForm, StackKind>(optional: true);
        });
        When(x => x.Contents.Kind == "machinery", () => RuleFor(x => x.Contents.CentreOfGravity).MustBeLength(units, LongestSide, optional: true));
        When(x => Kind(x) == HandlingUnitKind.LooseCarton && x.Contents.Kind == "cartons", () =>
            RuleFor(x => x.Contents.PerLayer)
                .Must((x, _) => Whole(x.Contents.PerLayer) == 1 && Whole(x.Contents.Layers) == 1 && Whole(x.Contents.TopLayer) is null or 0)
                .WithMessage(_ => T("A loose carton is one carton: 1 a layer, 1 layer. Give the number of cartons as the quantity.")));
        When(x => Kind(x) == HandlingUnitKind.LooseCarton, () =>
            RuleFor(x => x.Contents.Kind)
                .Must(kind => kind is "cartons" or "piece" || !ContentsKinds.Contains(kind))
                .WithMessage(_ => T("A loose carton is made of one carton. Choose another kind of handling unit for this.")));
        When(x => Kind(x) == HandlingUnitKind.Drum, () =>
        {
            RuleFor(x => x.Contents.Kind)
                .Must(kind => kind == "drum" || !ContentsKinds.Contains(kind)).WithMessage(_ => T("A single drum holds a drum. Choose another kind of handling unit for this."));
            RuleFor(x => x.Contents.Count)
                .Must((x, text) => x.Contents.Kind != "drum" || Whole(text) is null or 1).WithMessage(_ => T("A single drum is one. Give their number as the quantity, or put them on a pallet."));
        });
    }

    public static UnitFormValidator For(UnitSystem units) => units == UnitSystem.Metric ? Metric : Imperial;

    internal static HandlingUnitKind? Kind(UnitForm form) => Wording.Parse<HandlingUnitKind>(form.Kind);

    // Not Enum.TryParse, which reads numbers and lists too.
    internal static Flute? FluteOf(string? text)
    {
        foreach (var flute in Enum.GetValues<Flute>())
        {
            if (string.Equals(text?.Trim(), flute.ToString(), StringComparison.OrdinalIgnoreCase))
                return flute;
        }

        return null;
    }

    internal static decimal? FreightClass(string? text) =>
        MeasureText.TryNumber(text, out var number) && FreightClassScale.Classes.Contains(number) ? number : null;

    internal static int? Whole(string? text) =>
        int.TryParse(text, NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var number) ? number : null;

    internal static double? EdgeCrush(string? text) =>
        MeasureText.TryNumber(text, out var number) ? (double)number : null;

    /// <summary>No control characters (the database refuses some of them) and no halves of characters.</summary>
    internal static bool ReadableText(string? text) =>
        text is null || (!text.Any(char.IsControl) && text.EnumerateRunes().All(rune => rune != System.Text.Rune.ReplacementChar));
}

/// <summary>Whether a carton can be read.</summary>
internal sealed class CartonFormValidator : AbstractValidator<CartonForm>
{
    public CartonFormValidator(UnitSystem units)
    {
        RuleFor(x => x.Length).MustBeLength(units, UnitFormValidator.LongestCartonSide);
        RuleFor(x => x.Width).MustBeLength(units, UnitFormValidator.LongestCartonSide);
        RuleFor(x => x.Height).MustBeLength(units, UnitFormValidator.LongestCartonSide);
        RuleFor(x => x.GrossWeight).MustBeMass(units, UnitFormValidator.Heaviest);
        RuleFor(x => x.Board.Flute)
            .MustBeOneOf<CartonForm, Flute>(optional: true, UnitFormValidator.FluteOf)
            .Must((x, flute) => !string.IsNullOrWhiteSpace(flute) || string.IsNullOrWhiteSpace(x.Board.EdgeCrush))
            .WithMessage(_ => T("Name the flute that goes with the edge crush."));
        RuleFor(x => x.Board.EdgeCrush)
            .Must(text => string.IsNullOrWhiteSpace(text) || UnitFormValidator.EdgeCrush(text) is > 0 and <= Board.GreatestEdgeCrush)
            .WithMessage(_ => T("Edge crush in lb/in as printed on the carton, for example 32."));
    }
}

/// <summary>Whether a line of a mixed pallet can be read.</summary>
internal sealed class CartonLineFormValidator : AbstractValidator<CartonLineForm>
{
    public CartonLineFormValidator(UnitSystem units)
    {
        RuleFor(x => x.Carton).SetValidator(new CartonFormValidator(units));
        RuleFor(x => x.Count).MustBeWhole(1, UnitFormValidator.MostCartons);
    }
}

/// <summary>Rules for figures that are still text.</summary>
internal static class TypedRules
{
    public static IRuleBuilderOptions<TForm, string?> MustBeLength<TForm>(this IRuleBuilder<TForm, string?> rule, UnitSystem units, Length most, bool optional = false) => rule
        .Must(text => (optional && string.IsNullOrWhiteSpace(text)) || (MeasureText.TryLength(text, units, out var length) && length > Length.Zero && length <= most))
        .WithMessage((_, text) => Advice(text, units == UnitSystem.Metric ? T("a length in cm, for example 122") : T("a length in inches, for example 48 or 48 1/2"), ((Quantity)most).Show(units)));

    public static IRuleBuilderOptions<TForm, string?> MustBeMass<TForm>(this IRuleBuilder<TForm, string?> rule, UnitSystem units, Mass most, bool optional = false) => rule
        .Must(text => (optional && string.IsNullOrWhiteSpace(text)) || (MeasureText.TryMass(text, units, out var mass) && mass > Mass.Zero && mass <= most))
        .WithMessage((_, text) => Advice(text, units == UnitSystem.Metric ? T("a weight in kg, for example 426") : T("a weight in pounds, for example 940"), ((Quantity)most).Show(units)));

    public static IRuleBuilderOptions<TForm, string?> MustBeWhole<TForm>(this IRuleBuilder<TForm, string?> rule, int least, int most, bool optional = false) => rule
        .Must(text => (optional && string.IsNullOrWhiteSpace(text)) || (UnitFormValidator.Whole(text) is { } number && number >= least && number <= most))
        .WithMessage(_ => T("A whole number from {0} to {1}.", least, most));

    public static IRuleBuilderOptions<TForm, string?> MustBeOneOf<TForm, TEnum>(this IRuleBuilder<TForm, string?> rule, bool optional = false, Func<string?, TEnum?>? parse = null)
        where TEnum : struct, Enum => rule
        .Must(text => (optional && string.IsNullOrWhiteSpace(text)) || (parse ?? Wording.Parse<TEnum>)(text) is not null)
        .WithMessage(_ => T("Choose one of: {0}.", string.Join(", ", parse is null ? Wording.All<TEnum>() : Enum.GetNames<TEnum>())));

    private static string Advice(string? text, string wanted, string most) => string.IsNullOrWhiteSpace(text)
        ? T("Give {0}.", wanted)
        : T("This is not {0}, more than nothing and at most {1}.", wanted, most);
}
