using System.Globalization;
using Fettle.Engineering.Identification;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Web.Declarations;
using Fettle.Web.HandlingUnits;

namespace Fettle.Web.Inspections;

/// <summary>A form that could be read.</summary>
public sealed record ReadInspection(
    Guid Id,
    string Reference,
    int? Index,
    Sscc? Sscc,
    Measurement Measured,
    IReadOnlyList<SeenDamage> Damage,
    StackTest? StackTest,
    int Alike,
    string? Note,
    DateTimeOffset TakenAt);

/// <summary>
/// From what was typed, on the page or in JSON, to what the decider reads. Bounds are wide: they refuse what no dock has ever
/// seen. Fields are named as in the API.
/// </summary>
public static class InspectionReading
{
    public const int MostDamage = 10;
    public const int LongestNote = 1000;
    public const int LongestDamageNote = 200;

    /// <summary>A form may wait on a device for so long before it is sent; older than that its clock is wrong.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromDays(30);

    /// <param name="units">What a number without a unit is meant in.</param>
    /// <param name="errors">What is wrong, by field.</param>
    /// <returns>Null when something is.</returns>
    public static ReadInspection? Read(InspectionForm form, Pickup pickup, UnitSystem units, DateTimeOffset now, Dictionary<string, string> errors)
    {
        if (!Guid.TryParse(form.Id, out var id) || id == Guid.Empty)
            errors["id"] = T("Send a random UUID that was made where the inspection was written down.");
        var line = pickup.Declaration.HandlingUnits.SingleOrDefault(line => line.Reference == form.Reference?.Trim());
        if (line is null)
            errors["reference"] = T("Choose one of: {0}.", string.Join(", ", pickup.Declaration.HandlingUnits.Select(line => line.Reference)));
        var index = Whole("index", form.Index, 1, line?.Quantity ?? HandlingUnit.MostAlike);
        Sscc? sscc = null;
        if (!string.IsNullOrWhiteSpace(form.Sscc) && (sscc = UnitLookup.SsccIn(form.Sscc)) is null)
            errors["sscc"] = T("An SSCC is eighteen digits, the last of them its check digit.");
        var measured = new Measurement
        {
            Length = Long("measured.length", form.Measured.Length),
            Width = Long("measured.width", form.Measured.Width),
            Height = Long("measured.height", form.Measured.Height),
            GrossWeight = Heavy("measured.grossWeight", form.Measured.GrossWeight),
            OverhangAtEnds = Long("measured.overhangAtEnds", form.Measured.OverhangAtEnds, zero: true),
            OverhangAtSides = Long("measured.overhangAtSides", form.Measured.OverhangAtSides, zero: true),
            WrapTurns = Whole("measured.wrapTurns", form.Measured.WrapTurns, 0, 50),
            WrapOverPlatform = YesNo("measured.wrapOverPlatform", form.Measured.WrapOverPlatform),
            CornerBoards = OneOf<CornerBoards>("measured.cornerBoards", form.Measured.CornerBoards),
        };
        if (line is { Platform: null })
        {
            foreach (var (field, given) in new[] { ("measured.overhangAtEnds", measured.OverhangAtEnds), ("measured.overhangAtSides", measured.OverhangAtSides) })
            {
                if (given is not null)
                    errors[field] = T("It is declared without a pallet, so that nothing can go past one.");
            }
        }

        var damage = Damage(form.Damage, errors);
        var test = OneOf<StackTest>("stackTest", form.StackTest);
        var alike = Whole("alike", form.Alike, 1, line?.Quantity ?? HandlingUnit.MostAlike) ?? 1;
        var note = Text("note", form.Note, LongestNote, errors);
        if (errors.Count == 0 && measured.IsEmpty && damage.Count == 0 && test is null && note is null)
            errors["measured"] = T("Measure something, say what you saw, or write a note: an inspection without anything in it says nothing.");
        return errors.Count > 0 ? null : new(id, line!.Reference, index, sscc, measured, damage, test, alike, note, TakenAt());

        Length? Long(string field, string? text, bool zero = false)
        {
            if (string.IsNullOrWhiteSpace(text))
                return null;
            if (MeasureText.TryLength(text, units, out var length) && length <= UnitFormValidator.LongestSide && (zero ? length >= Length.Zero : length > Length.Zero))
                return length;
            errors[field] = T("A length such as {0}, at most {1}.", units == UnitSystem.Metric ? "122.5" : "48 1/2", ((Quantity)UnitFormValidator.LongestSide).Show(units));
            return null;
        }

        Mass? Heavy(string field, string? text)
        {
            if (string.IsNullOrWhiteSpace(text))
                return null;
            if (MeasureText.TryMass(text, units, out var mass) && mass > Mass.Zero && mass <= UnitFormValidator.Heaviest)
                return mass;
            errors[field] = T("A weight such as {0}, at most {1}.", units == UnitSystem.Metric ? "427" : "940", ((Quantity)UnitFormValidator.Heaviest).Show(units));
            return null;
        }

        int? Whole(string field, string? text, int least, int most)
        {
            if (string.IsNullOrWhiteSpace(text))
                return null;
            if (UnitFormValidator.Whole(text) is { } number && number >= least && number <= most)
                return number;
            errors[field] = T("A whole number from {0} to {1}.", least, most);
            return null;
        }

        bool? YesNo(string field, string? text)
        {
            switch (text?.Trim())
            {
                case null or "":
                    return null;
                case "yes":
                    return true;
                case "no":
                    return false;
                default:
                    errors[field] = T("Choose one of: {0}.", "yes, no");
                    return null;
            }
        }

        TEnum? OneOf<TEnum>(string field, string? text)
            where TEnum : struct, Enum
        {
            if (string.IsNullOrWhiteSpace(text))
                return null;
            if (Wording.Parse<TEnum>(text) is { } value)
                return value;
            errors[field] = T("Choose one of: {0}.", string.Join(", ", Wording.All<TEnum>()));
            return null;
        }

        DateTimeOffset TakenAt() =>
            DateTimeOffset.TryParse(form.TakenAt, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var taken) && taken <= now && taken > now - LongestWait ? taken : now;
    }

    private static List<SeenDamage> Damage(List<DamageForm> forms, Dictionary<string, string> errors)
    {
        List<SeenDamage> seen = [];
        if (forms.Count > MostDamage)
            errors["damage"] = T("At most {0}.", MostDamage);
        for (var i = 0; i < Math.Min(forms.Count, MostDamage); i++)
        {
            if (forms[i] is not { IsEmpty: false } form)
                continue;
            var kind = Wording.Parse<DamageKind>(form.Kind);
            if (kind is null)
                errors[$"damage[{i}].kind"] = T("Choose one of: {0}.", string.Join(", ", Wording.All<DamageKind>()));
            var where = Wording.Parse<DamageSpot>(form.Where);
            if (where is null)
                errors[$"damage[{i}].where"] = T("Choose one of: {0}.", string.Join(", ", Wording.All<DamageSpot>()));
            var note = Text($"damage[{i}].note", form.Note, LongestDamageNote, errors);
            if (kind is not null && where is not null)
                seen.Add(new(kind.Value, where.Value, note));
        }

        return seen;
    }

    private static string? Text(string field, string? text, int longest, Dictionary<string, string> errors)
    {
        if (string.IsNullOrWhiteSpace(text))
            return null;
        var trimmed = text.Trim();
        if (trimmed.Length <= longest && UnitFormValidator.ReadableText(trimmed.ReplaceLineEndings(" ")))
            return trimmed;
        errors[field] = T("At most {0} readable characters.", longest);
        return null;
    }
}
