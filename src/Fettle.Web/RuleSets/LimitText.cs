using System.Globalization;
using System.Xml.Linq;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Declarations;

namespace Fettle.Web.RuleSets;

/// <summary>Limits as people type and read them: inches and pounds, or anything that names its unit.</summary>
public static class LimitText
{
    private const string Yes = "yes";
    private const string No = "no";

    private static readonly Lazy<IReadOnlyDictionary<string, string>> Summaries = new(ReadSummaries);

    /// <summary>As it stands in its field.</summary>
    public static string Field(object value) => value switch
    {
        Severity severity => severity.Word(),
        Length length => Writing.Text(length.Inches),
        Mass mass => Writing.Text(mass.Pounds),
        double number => Writing.Text(number),
        int whole => whole.ToString(CultureInfo.InvariantCulture),
        bool yes => yes ? Yes : No,
        _ => throw new ArgumentException($"{value.GetType().Name} is no limit."),
    };

    /// <summary>As it is read: "2 in", "Stop", "3 %".</summary>
    public static string Say(Limit limit, object value) => value switch
    {
        Severity severity => Areas.Shared.Labels.Label(severity),
        bool yes => yes ? Yes : No,
        _ => $"{Figure(value).ToString("#,0.###", CultureInfo.InvariantCulture)} {limit.Unit.Word()}".TrimEnd(),
    };

    /// <summary>As the API gives it; null for what is no figure.</summary>
    public static Quantity? Quantity(Limit limit, object value) => value is Severity or bool ? null : new(Figure(value), limit.Unit);

    /// <summary>The values and words to choose from; null for what is typed.</summary>
    public static IReadOnlyList<(string Value, string Text)>? Choices(Limit limit) => limit.Kind switch
    {
        LimitKind.Severity => [.. Enum.GetValues<Severity>().OrderDescending().Select(severity => (severity.Word(), Areas.Shared.Labels.Label(severity)))],
        LimitKind.YesNo => [(No, "No"), (Yes, "Yes")],
        LimitKind.Length or LimitKind.Mass or LimitKind.Number or LimitKind.Whole => null,
    };

    /// <summary>Reads what was typed.</summary>
    /// <param name="now">What the limit is now: text that shows it means it to the last digit, and so does the built-in one's.</param>
    /// <returns>The value, or else why there is none.</returns>
    public static (object? Value, string? Error) Read(Limit limit, string? text, object now)
    {
        text = text?.Trim() ?? "";
        foreach (var known in (object[])[now, limit.Of(RuleSet.BuiltIn)])
        {
            if (text == Field(known))
                return (known, LimitNotes.Complaint(limit, known));
        }

        object? value = limit.Kind switch
        {
            LimitKind.Severity => Wording.Parse<Severity>(text),
            LimitKind.Length => MeasureText.TryLength(text, UnitSystem.Imperial, out var length) ? length : null,
            LimitKind.Mass => MeasureText.TryMass(text, UnitSystem.Imperial, out var mass) ? mass : null,
            LimitKind.Number => Number(text, limit.Unit.Word()),
            LimitKind.Whole => int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var whole) ? whole : null,
            LimitKind.YesNo => text is Yes or No ? text == Yes : null,
        };
        return value is null ? (null, Unreadable(limit)) : (value, LimitNotes.Complaint(limit, value));
    }

    /// <summary>What the code says of a limit, or of a whole rule: its documentation, in plain words. Null when it says nothing.</summary>
    public static string? Summary(Limit limit) => Summaries.Value.GetValueOrDefault($"P:{limit.Owner.FullName}.{limit.Name}");

    /// <inheritdoc cref="Summary(Limit)"/>
    public static string? Summary(Type rule) => Summaries.Value.GetValueOrDefault($"T:{rule.FullName}");

    private static double? Number(string text, string unit)
    {
        if (unit.Length > 0 && text.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
            text = text[..^unit.Length].TrimEnd();
        return MeasureText.TryNumber(text, out var number) ? (double)number : null;
    }

    private static string Unreadable(Limit limit) => limit.Kind switch
    {
        LimitKind.Severity => "Choose stop, caution or tip.",
        LimitKind.Length => "A length, for example 2, 2 1/2 or 5 cm.",
        LimitKind.Mass => "A weight, for example 2000 or 900 kg.",
        LimitKind.Number => "A number, for example 1.5.",
        LimitKind.Whole => "A whole number.",
        LimitKind.YesNo => "Choose yes or no.",
    };

    private static double Figure(object value) => value switch
    {
        Length length => length.Inches,
        Mass mass => mass.Pounds,
        double number => number,
        int whole => whole,
        _ => throw new ArgumentException($"{value.GetType().Name} is no figure."),
    };

    private static Dictionary<string, string> ReadSummaries()
    {
        var file = Path.Combine(AppContext.BaseDirectory, $"{typeof(RuleSet).Assembly.GetName().Name}.xml");
        if (!File.Exists(file))
            return [];
        return XDocument.Load(file).Descendants("member")
            .Where(member => member.Element("summary") is not null)
            .ToDictionary(member => member.Attribute("name")!.Value, member => Plain(member.Element("summary")!), StringComparer.Ordinal);
    }

    /// <summary>Text without marks: a reference is called by the last part of its name.</summary>
    private static string Plain(XElement summary)
    {
        var text = string.Concat(summary.Nodes().Select(node => node switch
        {
            XText words => words.Value,
            XElement { Name.LocalName: "see" or "paramref" } named => (named.Attribute("cref") ?? named.Attribute("name"))?.Value.Split('.')[^1].ToLowerInvariant() ?? "",
            XElement other => other.Value,
            _ => "",
        }));
        return string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }
}
