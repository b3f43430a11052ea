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
public sealed record Reading(UnitSystem Units, Lane? Lane, bool DriverOnDock, IReadOnlyList<HandlingUnit?> Lines, IReadOnlyDictionary<string, string> Errors)
{
    /// <summary>What can be checked so far; null while the lane is unknown.</summary>
    public Declaration? Readable => Lane is null ? null : new(Lane, DriverOnDock, Units, [.. Lines.OfType<HandlingUnit>()]);

    /// <summary>Errors that concern the freight and its lane, and not the head of the pickup.</summary>
    public IEnumerable<KeyValuePair<string, string>> FreightErrors => Errors.Where(error =>
        error.Key is "units" or "handlingUnits" || error.Key.StartsWith("lane", StringComparison.Ordinal) || error.Key.StartsWith("handlingUnits[", StringComparison.Ordinal));

    public static Reading Of(PickupForm form)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        Collect(PickupFormValidator.Instance.Validate(form), "", errors);
        var units = form.Units == "metric" ? UnitSystem.Metric : UnitSystem.Imperial;
        var validator = UnitFormValidator.For(units);
        var lines = new HandlingUnit?[Math.Min(form.HandlingUnits.Count, PickupFormValidator.MostLines)];
        var taken = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < lines.Length; i++)
        {
            var line = form.HandlingUnits[i];
            var path = $"handlingUnits[{i}].";
            var result = validator.Validate(line);
            Collect(result, path, errors);
            var unique = taken.Add(line.Reference?.Trim() ?? "");
            if (!unique)
                errors.TryAdd(path + "reference", "Another unit has this name already.");
            lines[i] = result.IsValid && unique ? Unit(line, units) : null;
        }

        var laneIsRead = !errors.Keys.Any(key => key.StartsWith("lane", StringComparison.Ordinal));
        var lane = laneIsRead
            ? new Lane(PickupFormValidator.Miles(form.Lane.Miles)!.Value, UnitFormValidator.Whole(form.Lane.Transfers)!.Value, form.Lane.CrossBorder)
            : null;
        return new(units, lane, form.DriverOnDock, lines, errors);
    }

    private static void Collect(ValidationResult result, string prefix, Dictionary<string, string> errors)
    {
        foreach (var failure in result.Errors)
            errors.TryAdd(prefix + CamelCase(failure.PropertyName), failure.ErrorMessage);
    }

    private static string CamelCase(string path) =>
        string.Join('.', path.Split('.').Select(part => part.Length == 0 ? part : char.ToLowerInvariant(part[0]) + part[1..]));

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
                : null,
            Outer = new(Long(form.Outer.Length), Long(form.Outer.Width), Long(form.Outer.Height)),
            GrossWeight = Heavy(form.GrossWeight),
            Contents = form.Contents.Kind == "cartons" ? Cartons(form.Contents) : new PieceContents(form.Contents.Description!.Trim()),
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
        };

        CartonContents Cartons(ContentsForm contents) => new(
            new(
                Long(contents.Carton.Length),
                Long(contents.Carton.Width),
                Long(contents.Carton.Height),
                Heavy(contents.Carton.GrossWeight),
                UnitFormValidator.EdgeCrush(contents.Carton.Board.EdgeCrush) is { } edgeCrush
                    ? new Board(UnitFormValidator.FluteOf(contents.Carton.Board.Flute)!.Value, edgeCrush)
                    : null),
            Whole(contents.PerLayer),
            Whole(contents.Layers),
            Wording.Parse<StackKind>(contents.Stack) ?? StackKind.Column,
            Whole(contents.TopLayer));

        Length Long(string? text) => MeasureText.TryLength(text, units, out var length) ? length : throw new InvalidOperationException("The validator let a length through that cannot be read.");
        Mass Heavy(string? text) => MeasureText.TryMass(text, units, out var mass) ? mass : throw new InvalidOperationException("The validator let a weight through that cannot be read.");
        static int Whole(string? text) => UnitFormValidator.Whole(text) ?? 0;
    }
}
