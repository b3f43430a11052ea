using System.Reflection;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.RuleSets;

/// <summary>What sort of figure a limit is.</summary>
public enum LimitKind
{
    /// <summary>How grave a finding is.</summary>
    Severity,
    Length,
    Mass,

    /// <summary>A number with or without decimals, in <see cref="Limit.Unit"/>.</summary>
    Number,

    /// <summary>A count.</summary>
    Whole,
    YesNo,
}

/// <summary>
/// One limit or severity of a rule set. There is no list of them to keep: <see cref="All"/> is read from the type, so that
/// a limit which is added to <see cref="RuleSet"/> can be set, compared, validated and shown at once. What a name and type
/// cannot tell (words, bounds of its own, a floor) is in <see cref="LimitNotes"/>, and may be missing there.
/// </summary>
public sealed record Limit
{
    private static readonly PropertyInfo[] Rules = [.. typeof(RuleSet).GetProperties().Where(property => IsLimits(property.PropertyType))];

    private readonly PropertyInfo rule;
    private readonly PropertyInfo property;

    private Limit(PropertyInfo rule, PropertyInfo property, LimitKind kind)
    {
        (this.rule, this.property, Kind) = (rule, property, kind);
        Path = $"{Camel(rule.Name)}.{Camel(property.Name)}";
        (Group, Owner, Name) = (Camel(rule.Name), property.DeclaringType!, property.Name);
    }

    /// <summary>All limits, rule by rule, in the order in which they are written down.</summary>
    public static IReadOnlyList<Limit> All { get; } =
    [
        .. from rule in Rules
           from property in rule.PropertyType.GetProperties()
           let kind = KindOf(property.PropertyType)
           where kind is not null && property.CanWrite
           select new Limit(rule, property, kind.Value),
    ];

    private static readonly Dictionary<string, Limit> ByPath = All.ToDictionary(limit => limit.Path, StringComparer.OrdinalIgnoreCase);

    /// <summary>Its name in forms and in JSON: "overhang.clearance".</summary>
    public string Path { get; }

    /// <summary>The rule that it belongs to: "overhang".</summary>
    public string Group { get; }

    /// <summary>The record that holds it, and its name there: where its documentation is.</summary>
    public Type Owner { get; }

    public string Name { get; }

    public LimitKind Kind { get; }

    public string Title => LimitNotes.Title(this);

    /// <summary>What a plain number is counted in.</summary>
    public Unit Unit => LimitNotes.Unit(this);

    public static Limit? Find(string path) => ByPath.GetValueOrDefault(path);

    /// <summary>A severity, a length, a mass, a double, an int or a bool; a decimal is given as a double.</summary>
    public object Of(RuleSet rules)
    {
        var value = property.GetValue(rule.GetValue(rules))!;
        return value is decimal number ? (double)number : value;
    }

    /// <summary>The same rules but for this limit.</summary>
    /// <exception cref="ArgumentException">The value is of another kind.</exception>
    public RuleSet With(RuleSet rules, object value) =>
        (RuleSet)Copy(rules, rule, Copy(rule.GetValue(rules)!, property, property.PropertyType == typeof(decimal) ? (decimal)(double)value : value));

    /// <summary>The limits in which two rule sets differ; their names and versions do not count.</summary>
    public static IReadOnlyList<LimitChange> Between(RuleSet before, RuleSet after) =>
        [.. All.Select(limit => new LimitChange(limit, limit.Of(before), limit.Of(after))).Where(change => !change.Before.Equals(change.After))];

    public override string ToString() => Path;

    private static object Copy(object original, PropertyInfo changed, object value)
    {
        var copy = Activator.CreateInstance(original.GetType())!;
        foreach (var each in original.GetType().GetProperties().Where(each => each.CanWrite))
            each.SetValue(copy, each == changed ? value : each.GetValue(original));
        return copy;
    }

    private static bool IsLimits(Type type) => type.IsClass && type.Namespace == typeof(RuleSet).Namespace && type.GetConstructor(Type.EmptyTypes) is not null;

    private static LimitKind? KindOf(Type type) =>
        type == typeof(Severity) ? LimitKind.Severity
        : type == typeof(Length) ? LimitKind.Length
        : type == typeof(Mass) ? LimitKind.Mass
        : type == typeof(double) || type == typeof(decimal) ? LimitKind.Number
        : type == typeof(int) ? LimitKind.Whole
        : type == typeof(bool) ? LimitKind.YesNo
        : null;

    private static string Camel(string name) => char.ToLowerInvariant(name[0]) + name[1..];
}

/// <summary>A limit that two rule sets set differently.</summary>
public sealed record LimitChange(Limit Limit, object Before, object After);

/// <summary>A limit that cannot be set so.</summary>
/// <param name="Path">Which one.</param>
/// <param name="Message">Why not, in an administrator's words.</param>
public sealed record LimitProblem(string Path, string Message);
