using System.Globalization;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Declarations;

namespace Fettle.Web.Outcomes;

/// <summary>What is typed on the page: of each line how many did not come whole; the rest did.</summary>
public sealed class OutcomeForm
{
    /// <summary>Made with the page, so that a form sent twice is recorded once.</summary>
    public Guid OutcomeId { get; set; }

    public string? DeliveredOn { get; set; }

    public List<OutcomeLineForm> Lines { get; set; } = [];

    /// <summary>The outcome that the page showed; empty when there was none.</summary>
    public Guid? Supersedes { get; set; }

    public string? Reason { get; set; }
}

/// <summary>One line's units that did not come whole, and what was noted about all of them.</summary>
public sealed class OutcomeLineForm
{
    public string? Reference { get; set; }

    public string? Short { get; set; }

    public string? Damaged { get; set; }

    public string? Refused { get; set; }

    public string? Stayed { get; set; }

    public string? Where { get; set; }

    public string? How { get; set; }

    public bool Concealed { get; set; }

    /// <summary>"yes", "no", or empty when nobody noted it.</summary>
    public string? CarriedFreight { get; set; }

    public string? Note { get; set; }
}

/// <summary>What can be read of an outcome, from the page or the API; errors by field.</summary>
public sealed record OutcomeReading(DateOnly? DeliveredOn, IReadOnlyList<UnitOutcome> Units, Dictionary<string, string> Errors)
{
    public const int LongestNote = 500;

    public static OutcomeReading Of(OutcomeForm form, Pickup pickup)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var day = Day(form.DeliveredOn, "DeliveredOn", errors);
        var units = new List<UnitOutcome>();
        foreach (var (index, (line, declared)) in form.Lines.Zip(pickup.Declaration.HandlingUnits).Index())
        {
            string Field(string name) => $"Lines[{index}].{name}";
            var (missing, damaged, refused, stayed) = (Count("Short", line.Short), Count("Damaged", line.Damaged), Count("Refused", line.Refused), Count("Stayed", line.Stayed));
            var clean = declared.Quantity - missing - damaged - refused - stayed;
            if (clean < 0)
                errors.TryAdd(Field("Damaged"), T("{0} has {1} in all, and here are {2}.", declared.Reference, declared.Quantity, missing + damaged + refused + stayed));
            var where = Wording.Parse<DamagePlace>(line.Where);
            var how = Wording.Parse<DamageManner>(line.How);
            if (damaged > 0 && where is null)
                errors.TryAdd(Field("Where"), T("Say where on the unit."));
            if (damaged > 0 && how is null)
                errors.TryAdd(Field("How"), T("Say what happened to it."));
            var note = Note(line.Note, Field("Note"), errors);
            bool? carried = line.CarriedFreight switch { "yes" => true, "no" => false, _ => null };
            Add(clean, OutcomeKind.Clean);
            Add(missing, OutcomeKind.Short);
            Add(damaged, OutcomeKind.Damaged);
            Add(refused, OutcomeKind.Refused);
            Add(stayed, OutcomeKind.Stayed);

            int Count(string name, string? typed)
            {
                if (string.IsNullOrWhiteSpace(typed))
                    return 0;
                if (int.TryParse(typed.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count <= declared.Quantity)
                    return count;
                errors.TryAdd(Field(name), T("A whole number, 0 to {0}.", declared.Quantity));
                return 0;
            }

            void Add(int count, OutcomeKind kind)
            {
                if (count <= 0)
                    return;
                var harmed = kind == OutcomeKind.Damaged;
                units.Add(new(declared.Reference, count, kind, harmed ? where : null, harmed ? how : null, harmed && line.Concealed, kind == OutcomeKind.Stayed ? null : carried, kind == OutcomeKind.Clean ? null : note));
            }
        }

        if (form.Supersedes is not null)
            Reason(form.Reason, "Reason", errors);
        return new(day, units, errors);
    }

    public static OutcomeReading Of(OutcomeJson request)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var day = Day(request.DeliveredOn, "deliveredOn", errors);
        var units = new List<UnitOutcome>();
        if (request.Units is not { Count: > 0 and <= MostEntries } told)
        {
            errors["units"] = T("Name 1 to {0} entries, which account for every unit.", MostEntries);
            told = [];
        }

        foreach (var (index, unit) in told.Index())
        {
            string Field(string name) => $"units[{index}].{name}";
            var kind = Wording.Parse<OutcomeKind>(unit?.Kind);
            if (string.IsNullOrWhiteSpace(unit?.Reference))
                errors[Field("reference")] = T("Which line of the declaration?");
            if (unit?.Count is not (>= 1 and <= Readiness.Declarations.HandlingUnit.MostAlike))
                errors[Field("count")] = T("A whole number, 1 to {0}.", Readiness.Declarations.HandlingUnit.MostAlike);
            if (kind is null)
                errors[Field("kind")] = Choose<OutcomeKind>();
            var where = Wording.Parse<DamagePlace>(unit?.Where);
            var how = Wording.Parse<DamageManner>(unit?.How);
            if (where is null && (unit?.Where is not null || kind == OutcomeKind.Damaged))
                errors[Field("where")] = Choose<DamagePlace>();
            if (how is null && (unit?.How is not null || kind == OutcomeKind.Damaged))
                errors[Field("how")] = Choose<DamageManner>();
            var note = Note(unit?.Note, Field("note"), errors);
            if (!errors.Keys.Any(key => key.StartsWith($"units[{index}]", StringComparison.Ordinal)))
                units.Add(new(unit!.Reference!.Trim(), unit.Count!.Value, kind!.Value, where, how, unit.Concealed ?? false, unit.CarriedFreight, note));
        }

        if (request.Supersedes is not null)
            Reason(request.Reason, "reason", errors);
        return new(day, units, errors);
    }

    private const int MostEntries = 400;

    private static string Choose<TEnum>()
        where TEnum : struct, Enum => T("Choose one of: {0}.", string.Join(", ", Wording.All<TEnum>()));

    private static DateOnly? Day(string? typed, string field, Dictionary<string, string> errors)
    {
        if (DateOnly.TryParseExact(typed?.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day.Year is > 2000 and < 3000)
            return day;
        errors[field] = T("The day of delivery, for example 2026-11-26.");
        return null;
    }

    private static string? Note(string? typed, string field, Dictionary<string, string> errors)
    {
        if (string.IsNullOrWhiteSpace(typed))
            return null;
        if (typed.Trim().Length <= LongestNote && UnitFormValidator.ReadableText(typed.ReplaceLineEndings(" ")))
            return typed.Trim();
        errors[field] = T("At most {0} readable characters.", LongestNote);
        return null;
    }

    private static void Reason(string? typed, string field, Dictionary<string, string> errors)
    {
        if (string.IsNullOrWhiteSpace(typed))
            errors[field] = T("Say why the earlier record is replaced.");
        else if (typed.Trim().Length > LongestNote || !UnitFormValidator.ReadableText(typed.ReplaceLineEndings(" ")))
            errors[field] = T("At most {0} readable characters.", LongestNote);
    }
}
