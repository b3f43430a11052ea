using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using FluentValidation.Results;

namespace Fettle.Web.Declarations;

/// <summary>
/// A form as far as it could be read. Page and API both read this way, so that they refuse the same things with the same
/// words.
/// </summary>
/// <param name="Lane">Null while the lane cannot be read; nothing is checked then.</param>
/// <param name="Lines">One for each line of the form, in its order; null where it cannot be read yet.</param>
/// <param name="Errors">What to mend, by field as named in the API: "handlingUnits[0].outer.length".</param>
/// <param name="Blank">Those of these fields that nothing was typed into yet.</param>
public sealed record Reading(
    UnitSystem Units,
    Lane? Lane,
    bool DriverOnDock,
    IReadOnlyList<HandlingUnit?> Lines,
    IReadOnlyDictionary<string, string> Errors,
    IReadOnlySet<string> Blank)
{
    /// <summary>What can be checked so far; null while the lane is unknown.</summary>
    public Declaration? Readable => Lane is null ? null : new(Lane, DriverOnDock, Units, [.. Lines.OfType<HandlingUnit>()]);

    /// <summary>Errors that concern the freight and its lane, and not the head of the pickup.</summary>
    public IEnumerable<KeyValuePair<string, string>> FreightErrors => Errors.Where(error =>
        error.Key is "units" or "handlingUnits" || error.Key.StartsWith("lane", StringComparison.Ordinal) || error.Key.StartsWith("handlingUnits[", StringComparison.Ordinal));

    public static Reading Of(PickupForm form)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var blank = new HashSet<string>(StringComparer.Ordinal);
        Collect(PickupFormValidator.Instance.Validate(form), "", errors, blank);
        var units = form.Units == "metric" ? UnitSystem.Metric : UnitSystem.Imperial;
        var validator = UnitFormValidator.For(units);
        var lines = new HandlingUnit?[Math.Min(form.HandlingUnits.Count, PickupFormValidator.MostLines)];
        var taken = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < lines.Length; i++)
        {
            var line = form.HandlingUnits[i];
            var path = $"handlingUnits[{i}].";
            var result = validator.Validate(line);
            Collect(result, path, errors, blank);
            var unique = taken.Add(line.Reference?.Trim() ?? "");
            if (!unique)
                errors.TryAdd(path + "reference", T("Another unit has this name already."));
            lines[i] = result.IsValid && unique ? Unit(line, units) : null;
        }

        var laneIsRead = !errors.Keys.Any(key => key.StartsWith("lane", StringComparison.Ordinal));
        var lane = laneIsRead
            ? new Lane(PickupFormValidator.Miles(form.Lane.Miles)!.Value, UnitFormValidator.Whole(form.Lane.Transfers)!.Value, form.Lane.CrossBorder) { Liftgate = form.Lane.Liftgate, NoDock = form.Lane.NoDock }
            : null;
        return new(units, lane, form.DriverOnDock, lines, errors, blank);
    }

    private static void Collect(ValidationResult result, string prefix, Dictionary<string, string> errors, HashSet<string> blank)
    {
        foreach (var failure in result.Errors)
        {
            var field = prefix + CamelCase(failure.PropertyName);
            if (errors.TryAdd(field, failure.ErrorMessage) && failure.AttemptedValue is null or string { Length: 0 } || (failure.AttemptedValue is string text && string.IsNullOrWhiteSpace(text)))
                blank.Add(field);
        }
    }

    private static string CamelCase(string path) =>
        string.Join('.', path.Split('.').Select(part => part.Length == 0 ? part : char.ToLowerInvariant(part[0]) + part[1..]));

    /// <summary>A carton by itself: read as it is in a line, with the same complaints at the same fields ("length").</summary>
    /// <returns>Null when it cannot be read.</returns>
    public static Carton? Carton(CartonForm form, UnitSystem units, IDictionary<string, string> errors) =>
        Alone(UnitForm.Ordinary("A1") with { Contents = new() { Kind = "cartons", PerLayer = "1", Layers = "1", Carton = form } }, units, "contents.carton.", errors) is { Contents: CartonContents cartons }
            ? cartons.Carton
            : null;

    /// <summary>A platform by itself.</summary>
    /// <returns>Null when it cannot be read.</returns>
    public static Platform? Platform(PlatformForm form, UnitSystem units, IDictionary<string, string> errors) =>
        Alone(UnitForm.Ordinary("A1") with { Contents = new() { Kind = "piece", Description = "load" }, Platform = form }, units, "platform.", errors)?.Platform;

    /// <summary>A line by itself, outside of a pickup's form, with complaints at its own fields ("outer.length").</summary>
    /// <returns>Null when it cannot be read.</returns>
    public static HandlingUnit? Line(UnitForm line, UnitSystem units, Dictionary<string, string> errors)
    {
        var result = UnitFormValidator.For(units).Validate(line);
        Collect(result, "", errors, []);
        return result.IsValid ? Unit(line, units) : null;
    }

    /// <summary>A part of a line whose other parts are right.</summary>
    private static HandlingUnit? Alone(UnitForm line, UnitSystem units, string part, IDictionary<string, string> errors)
    {
        line.Outer = new() { Length = "48 in", Width = "40 in", Height = "40 in" };
        line.GrossWeight = "500 lb";
        line.Protection.WrapTurns = "0";
        var found = new Dictionary<string, string>(StringComparer.Ordinal);
        Collect(UnitFormValidator.For(units).Validate(line), "", found, []);
        foreach (var (field, message) in found)
            errors.TryAdd(field.StartsWith(part, StringComparison.Ordinal) ? field[part.Length..] : field, message);
        return found.Count == 0 ? Unit(line, units) : null;
    }

    /// <summary>A line that the validator has passed.</summary>
    private static HandlingUnit Unit(UnitForm form, UnitSystem units)
    {
        var kind = Wording.Parse<HandlingUnitKind>(form.Kind)!.Value;
        return new()
        {
            Reference = form.Reference!.Trim(),
            Quantity = Whole(form.Quantity),
            Kind = kind,
            Platform = kind == HandlingUnitKind.Pallet
                ? new(
                    Long(form.Platform.Length),
                    Long(form.Platform.Width),
                    Long(form.Platform.Height),
                    Heavy(form.Platform.Tare),
                    Wording.Parse<PlatformMaterial>(form.Platform.Material) ?? PlatformMaterial.Wood,
                    string.IsNullOrWhiteSpace(form.Platform.Rating) ? null : Heavy(form.Platform.Rating))
                {
                    Entry = Wording.Parse<ForkEntry>(form.Platform.Entry) ?? ForkEntry.FourWay,
                    Condition = Wording.Parse<PlatformCondition>(form.Platform.Condition) ?? PlatformCondition.Sound,
                    TreatmentMark = Wording.Parse<TreatmentMark>(form.Platform.TreatmentMark) ?? TreatmentMark.None,
                }
                : null,
            Outer = new(Long(form.Outer.Length), Long(form.Outer.Width), Long(form.Outer.Height)),
            GrossWeight = Heavy(form.GrossWeight),
            Contents = Contents(form.Contents),
            Stackable = form.Stackable,
            Protection = new(
                Whole(form.Protection.WrapTurns),
                form.Protection.WrapOverPlatform,
                Wording.Parse<CornerBoards>(form.Protection.CornerBoards) ?? CornerBoards.None,
                form.Protection.Sleeve,
                form.Protection.TopCap,
                Whole(form.Protection.Straps),
                form.Protection.SlipSheets),
            Fragile = Wording.Parse<Fragility>(form.Fragile) ?? Fragility.None,
            Partitions = form.Partitions,
            TopSurface = Wording.Parse<TopSurface>(form.TopSurface) ?? TopSurface.Flat,
            Requests = RequestWords.Parse(form.Requests) ?? Requests.None,
            Hazardous = form.Hazardous,
            TemperatureControlled = form.TemperatureControlled,
            ConfirmedBy = Said(form.ConfirmedBy),
            DeclaredClass = UnitFormValidator.FreightClass(form.DeclaredClass),
            BuiltBy = Said(form.BuiltBy),
        };

        Contents Contents(ContentsForm contents) => contents.Kind switch
        {
            "cartons" => Cartons(contents),
            "mixed-cartons" => new MixedCartonContents([.. contents.Lines.Select(line => new CartonLine(Carton(line.Carton), Whole(line.Count)))]),
            "crate" => new CrateContents(contents.Description!.Trim(), contents.Braced),
            "drum" => new DrumContents(
                Long(contents.Diameter), Long(contents.Height), Heavy(contents.WeightEach), Whole(contents.Count), Whole(contents.Tiers), Wording.Parse<DrumMaterial>(contents.Material) ?? DrumMaterial.Steel),
            "bags" => new BagContents(Heavy(contents.WeightEach), Whole(contents.PerLayer), Whole(contents.Layers), Wording.Parse<StackKind>(contents.Stack) ?? StackKind.Interlocked),
            "rolls" => new RollContents(
                Long(contents.Diameter), Long(contents.Height), Heavy(contents.WeightEach), Whole(contents.Count), Wording.Parse<RollStanding>(contents.Standing) ?? RollStanding.OnEnd),
            "furniture" => new FurnitureContents(contents.Description!.Trim(), contents.Boxed),
            "machinery" => new MachineryContents(
                contents.Description!.Trim(), contents.Fastened, string.IsNullOrWhiteSpace(contents.CentreOfGravity) ? null : Long(contents.CentreOfGravity)),
            "piece" => new PieceContents(contents.Description!.Trim()),
            _ => throw new InvalidOperationException("The validator let contents through that cannot be read."),
        };

        Carton Carton(CartonForm carton) => new(
            Long(carton.Length),
            Long(carton.Width),
            Long(carton.Height),
            Heavy(carton.GrossWeight),
            UnitFormValidator.EdgeCrush(carton.Board.EdgeCrush) is { } edgeCrush ? new Board(UnitFormValidator.FluteOf(carton.Board.Flute)!.Value, edgeCrush) : null);

        CartonContents Cartons(ContentsForm contents) => new(
            Carton(contents.Carton),
            Whole(contents.PerLayer),
            Whole(contents.Layers),
            Wording.Parse<StackKind>(contents.Stack) ?? StackKind.Column,
            Whole(contents.TopLayer));

        Length Long(string? text) => MeasureText.TryLength(text, units, out var length) ? length : throw new InvalidOperationException("The validator let a length through that cannot be read.");
        Mass Heavy(string? text) => MeasureText.TryMass(text, units, out var mass) ? mass : throw new InvalidOperationException("The validator let a weight through that cannot be read.");
        static int Whole(string? text) => UnitFormValidator.Whole(text) ?? 0;
        static string? Said(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
    }
}
