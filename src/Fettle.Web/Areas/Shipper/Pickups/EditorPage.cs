using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Catalogue;
using Fettle.Web.Declarations;
using Fettle.Web.Parties;

namespace Fettle.Web.Areas.Shipper.Pickups;

/// <summary>Everything that the declaration page shows: what was typed, and what follows from it.</summary>
public sealed record EditorPage
{
    public required Guid Id { get; init; }

    public required string Number { get; init; }

    /// <summary>The saved version that this page was made from; sent back, so that a second tab is noticed.</summary>
    public required Guid Version { get; init; }

    /// <summary>A random word for this open page.</summary>
    public required string Tab { get; init; }

    public required PickupForm Form { get; init; }

    public required Reading Reading { get; init; }

    /// <summary>Errors of the head of the pickup and of the freight, by field.</summary>
    public required IReadOnlyDictionary<string, string> Errors { get; init; }

    public required IReadOnlyList<LinePage> Lines { get; init; }

    /// <summary>About the pickup as a whole.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    public required IReadOnlyList<Site> Sites { get; init; }

    public required IReadOnlyList<Carrier> Carriers { get; init; }

    /// <summary>Also show what is missing in fields that nothing was typed into: after pressing Check or Submit.</summary>
    public bool ShowMissing { get; init; }

    /// <summary>Lines whose parts a page with JavaScript needs back; null for all.</summary>
    public IReadOnlySet<int>? Only { get; init; }

    /// <summary>A line by itself: it keeps its name and number of units, and nothing can be added or taken away.</summary>
    public bool IsOneLine { get; init; }

    public EditConflict? Conflict { get; init; }

    /// <summary>On top of the page: what was just done, or why not.</summary>
    public EditorNotice? Notice { get; init; }

    public string? ExceptionRequest { get; init; }

    /// <summary>What the shipper's catalogue offers.</summary>
    public IReadOnlyList<CatalogueEntry> Catalogue { get; init; } = [];

    public BuildNotSaved? BuildNotSaved { get; init; }

    public IEnumerable<CatalogueEntry> Offered(CatalogueKind kind) => Catalogue.Where(entry => entry.Kind == kind);

    public UnitSystem Units => Reading.Units;

    public IEnumerable<LinePage> Judged => Lines.Where(line => line.Result is not null);

    public Verdict? Verdict => Judged.Any() ? CheckResult.Of(Judged.Select(line => line.Result!.Verdict), Findings) : null;

    public int HandlingUnits => Judged.Sum(line => line.Result!.Quantity);

    /// <summary>What stands beside a field: what cannot be read, then what was found.</summary>
    public FieldMessages Messages(string path)
    {
        var error = Errors.TryGetValue(path, out var message) && (ShowMissing || !IsBlank(path)) ? message : null;
        if (LinePage.Split(path) is not var (index, field) || index >= Lines.Count || Lines[index].Result is not { } result)
            return new(error, []);
        return new(error, [.. result.Findings.Where(finding => LinePage.FieldOf(finding.Subject) == field)]);
    }

    private bool IsBlank(string path) => Reading.Blank.Contains(path)
        || (path == "terminal" && string.IsNullOrWhiteSpace(Form.Terminal))
        || (path == "handlingUnits" && Form.HandlingUnits.Count == 0);

    /// <param name="rules">Those of the chosen terminal's carrier.</param>
    public static EditorPage Of(
        Draft draft,
        PickupForm form,
        string tab,
        Parties.Shipper shipper,
        IReadOnlyList<Guid> ownSites,
        IReadOnlyList<Carrier> carriers,
        RuleSet rules,
        UnitCosts costs,
        IReadOnlySet<int>? only = null)
    {
        var reading = Reading.Of(form);
        var errors = reading.Errors.ToDictionary(StringComparer.Ordinal);
        Heading.Of(form, draft.Number, shipper, ownSites, carriers, errors);
        if (form.HandlingUnits.Count == 0)
            errors.TryAdd("handlingUnits", T("Add at least one unit."));
        var taken = Names(form);
        var lines = new List<LinePage>();
        for (var i = 0; i < reading.Lines.Count; i++)
        {
            var unit = reading.Lines[i];
            // Lines that did not change are not computed again for a fragment that does not show them.
            var result = unit is null || reading.Lane is null ? null : ReadinessCheck.Run(unit, reading.Lane, rules, reading.Units);
            var search = result is null || (only is not null && !only.Contains(i)) ? null : AlternativeFinder.Find(unit!, result, reading.Lane!, rules, costs, taken);
            var prefix = $"handlingUnits[{i}].";
            string[] missing = [.. reading.Blank.Where(path => path.StartsWith(prefix, StringComparison.Ordinal)).Select(path => LinePage.NameOf(path[prefix.Length..]))];
            lines.Add(new(i, form.HandlingUnits[i], unit, result, search, missing));
        }

        return new()
        {
            Id = draft.Id,
            Number = draft.Number,
            Version = draft.Version,
            Tab = tab,
            Form = form,
            Reading = reading,
            Errors = errors,
            Lines = lines,
            Findings = reading.Readable is { } declaration ? ReadinessCheck.OfPickup(declaration, rules) : [],
            Sites = [.. shipper.Sites.Where(site => ownSites.Contains(site.Id))],
            Carriers = carriers,
            Only = only,
        };
    }

    /// <summary>Names that the lines have, complete or not; a new line needs another.</summary>
    public static IReadOnlySet<string> Names(PickupForm form) =>
        form.HandlingUnits.Select(line => line.Reference?.Trim()).OfType<string>().ToHashSet(StringComparer.OrdinalIgnoreCase);
}

/// <param name="Missing">Fields still to be filled in, by the names on the page.</param>
public sealed record LinePage(int Index, UnitForm Form, HandlingUnit? Unit, UnitResult? Result, AlternativeSearch? Search, IReadOnlyList<string> Missing)
{
    /// <summary>Every field of a line that can have a message beside it, with its name on the page.</summary>
    private static readonly Dictionary<string, string> Names = new(StringComparer.Ordinal)
    {
        ["reference"] = "name",
        ["quantity"] = "how many",
        ["kind"] = "kind",
        ["outer.length"] = "outer length",
        ["outer.width"] = "outer width",
        ["outer.height"] = "outer height",
        ["grossWeight"] = "gross weight",
        ["platform.length"] = "pallet length",
        ["platform.width"] = "pallet width",
        ["platform.height"] = "pallet height",
        ["platform.tare"] = "pallet weight",
        ["platform.material"] = "pallet material",
        ["platform.rating"] = "pallet rating",
        ["platform.entry"] = "fork entry",
        ["platform.condition"] = "pallet condition",
        ["platform.treatmentMark"] = "treatment mark",
        ["contents.kind"] = "contents",
        ["contents.lines"] = "cartons",
        ["contents.count"] = "how many on the unit",
        ["contents.diameter"] = "diameter",
        ["contents.height"] = "height or roll width",
        ["contents.weightEach"] = "weight of one",
        ["contents.tiers"] = "drums above one another",
        ["contents.material"] = "drum material",
        ["contents.standing"] = "how rolls stand",
        ["contents.braced"] = "braced",
        ["contents.boxed"] = "boxed",
        ["contents.fastened"] = "fastened",
        ["contents.centreOfGravity"] = "centre of gravity",
        ["topSurface"] = "top",
        ["partitions"] = "partitions",
        ["requests"] = "asked of the carrier",
        ["hazardous"] = "hazardous material",
        ["temperatureControlled"] = "temperature",
        ["confirmedBy"] = "confirmed by",
        ["declaredClass"] = "freight class",
        ["builtBy"] = "built by",
        ["contents.description"] = "description",
        ["contents.carton.length"] = "carton length",
        ["contents.carton.width"] = "carton width",
        ["contents.carton.height"] = "carton height",
        ["contents.carton.grossWeight"] = "carton weight",
        ["contents.carton.board.flute"] = "flute",
        ["contents.carton.board.edgeCrush"] = "edge crush",
        ["contents.perLayer"] = "cartons a layer",
        ["contents.layers"] = "layers",
        ["contents.topLayer"] = "cartons on top",
        ["contents.stack"] = "stacking",
        ["protection.wrapTurns"] = "turns of film",
        ["protection.wrapOverPlatform"] = "film over the pallet",
        ["protection.cornerBoards"] = "corner boards",
        ["protection.sleeve"] = "sleeve",
        ["protection.topCap"] = "top cap",
        ["protection.straps"] = "straps",
        ["protection.slipSheets"] = "slip sheets",
        ["stackable"] = "stackable",
        ["fragile"] = "fragile",
    };

    private const string CartonRow = "contents.lines[";

    /// <summary>Fields that every line has.</summary>
    public static IEnumerable<string> FixedFields => Names.Keys;

    /// <summary>The fields of this line, those of each kind of carton on a mixed pallet included.</summary>
    public IEnumerable<string> Fields => FixedFields.Concat(
        Enumerable.Range(0, Form.Contents.Lines.Count).SelectMany(row => (string[])
        [
            $"{CartonRow}{row}].count", $"{CartonRow}{row}].carton.length", $"{CartonRow}{row}].carton.width", $"{CartonRow}{row}].carton.height",
            $"{CartonRow}{row}].carton.grossWeight", $"{CartonRow}{row}].carton.board.flute", $"{CartonRow}{row}].carton.board.edgeCrush",
        ]));

    public static string NameOf(string field)
    {
        var close = field.IndexOf("].", StringComparison.Ordinal);
        return field.StartsWith(CartonRow, StringComparison.Ordinal) && close > 0 && int.TryParse(field.AsSpan(CartonRow.Length, close - CartonRow.Length), out var row)
            ? T("carton {0}, {1}", row + 1, T(Names.GetValueOrDefault("contents." + field[(close + 2)..], field[(close + 2)..])))
            : T(Names.GetValueOrDefault(field, field));
    }

    /// <summary>The field beside which a finding is shown.</summary>
    public static string FieldOf(string subject) => subject == "contents.carton.board" ? "contents.carton.board.edgeCrush" : subject;

    /// <summary>"handlingUnits[2].outer.length" as 2 and "outer.length".</summary>
    public static (int Index, string Field)? Split(string path)
    {
        const string Start = "handlingUnits[";
        var close = path.IndexOf("].", StringComparison.Ordinal);
        return path.StartsWith(Start, StringComparison.OrdinalIgnoreCase) && close > 0 && int.TryParse(path.AsSpan(Start.Length, close - Start.Length), out var index)
            ? (index, path[(close + 2)..])
            : null;
    }
}

/// <summary>One sentence about the button that was pressed.</summary>
public sealed record EditorNotice
{
    private EditorNotice(string sentence, string tone) => (Sentence, Tone) = (sentence, tone);

    public string Sentence { get; }

    /// <summary>"good", "caution" or "stop", as the style sheet has them.</summary>
    public string Tone { get; }

    /// <summary>Read out at once, before whatever else the page says.</summary>
    public bool IsRefusal => Tone == "stop";

    public static EditorNotice Done(string sentence) => new(sentence, "good");

    /// <summary>It was done, and somebody had better look at it.</summary>
    public static EditorNotice DoneBut(string sentence) => new(sentence, "caution");

    public static EditorNotice Refused(string sentence) => new(sentence, "stop");
}

public sealed record FieldMessages(string? Error, IReadOnlyList<Finding> Findings);

/// <summary>Somebody else saved this pickup after this page was opened.</summary>
/// <param name="Differences">Fields that differ, with what is saved now.</param>
public sealed record EditConflict(string By, DateTimeOffset At, IReadOnlyList<(string Field, string Saved, string Yours)> Differences);

/// <summary>One field of the page.</summary>
/// <param name="Path">Its name in the form and in the API.</param>
/// <param name="Choices">Value and text of each choice; null for a text field.</param>
public sealed record FieldView(
    EditorPage Page,
    string Path,
    string Label,
    string? Value,
    string? Hint = null,
    IReadOnlyList<(string Value, string Text)>? Choices = null,
    string InputMode = "text",
    string Type = "text",
    bool Required = true)
{
    /// <summary>Names of sites and terminals are the same in every language.</summary>
    public bool ChoicesAreNames { get; init; }

    public string Id => IdOf(Path);

    public string SlotId => SlotIdOf(Path);

    public FieldMessages Messages => Page.Messages(Path);

    public static string IdOf(string path) => "f-" + path.Replace('.', '-').Replace('[', '-').Replace("]", "", StringComparison.Ordinal);

    public static string SlotIdOf(string path) => "m" + IdOf(path)[1..];
}
