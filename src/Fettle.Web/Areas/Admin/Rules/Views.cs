using Fettle.Readiness;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;

namespace Fettle.Web.Areas.Admin.Rules;

public sealed record CarrierRow(Carrier Carrier, CarrierRules? Rules, DateTimeOffset Now);

/// <param name="History">Newest first.</param>
public sealed record CarrierPage(Carrier Carrier, CarrierRules? Rules, DateTimeOffset Now, IReadOnlyList<HistoryEntry> History, IReadOnlyList<RulePreview> Previews)
{
    public PublishedRuleSet? InForce => Rules?.InForce(Now);

    public string Zone => RulesController.ZoneOf(Carrier);

    /// <summary>What a version is doing now, in a word for the style sheet and one for people.</summary>
    public (string Tone, string Text) StandingOf(PublishedRuleSet version) =>
        version == InForce ? ("ready", "In force")
        : Rules!.Until(version) == version.From ? ("cautions", "Replaced before it began")
        : version.From > Now ? ("cautions", "To come")
        : ("cautions", "Was in force");
}

/// <summary>One thing that happened to a carrier's rules.</summary>
public sealed record HistoryEntry(DateTimeOffset At, Actor By, string What, string? Note, IReadOnlyList<LimitChange> Changes)
{
    /// <summary>Oldest first.</summary>
    public static IEnumerable<HistoryEntry> Of(IEnumerable<RuleSetEvent> happened)
    {
        CarrierRules? state = null;
        foreach (var one in happened)
        {
            yield return one switch
            {
                RuleSetDrafted e => new(e.At, e.By, $"Draft of version {e.Rules.Identity.Version} begun as a copy of {e.CopyOf}", null, []),
                RuleSetChanged e => new(e.At, e.By, "Draft changed", null, Limit.Between(state!.Draft!.Rules, e.Rules)),
                RuleSetDraftDropped e => new(e.At, e.By, "Draft given up", null, []),
                RuleSetPublished e => new(e.At, e.By, $"Version {e.Rules.Identity.Version} published", e.Note, []),
                _ => throw new InvalidOperationException($"No words for {one.GetType().Name}."),
            };
            state = CarrierRules.Evolve(state, one);
        }
    }
}

/// <param name="Other">What it is compared with; null for the built-in rules.</param>
public sealed record VersionPage(Carrier Carrier, CarrierRules Rules, PublishedRuleSet Shown, PublishedRuleSet? Other)
{
    public RuleSet Against => Other?.Rules ?? RuleSet.BuiltIn;
}

/// <summary>A draft as it is typed.</summary>
/// <param name="Limits">Text by the limit's path. One that is not sent stays as it is.</param>
/// <param name="Seen">The revision that the page was made from.</param>
public sealed record DraftForm(Dictionary<string, string?>? Limits = null, int Seen = 0, string? From = null, string? Note = null)
{
    public static DraftForm Of(RuleSet rules, int revision) =>
        new(Limit.All.ToDictionary(limit => limit.Path, string? (limit) => LimitText.Field(limit.Of(rules)), StringComparer.Ordinal), revision);

    /// <summary>What was typed, put into the draft; what cannot be stays as it was and has an error under its path.</summary>
    public (RuleSet Rules, Dictionary<string, string> Errors) Read(RuleSet draft)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var rules = draft;
        foreach (var limit in Limit.All)
        {
            if (Limits is null || !Limits.TryGetValue(limit.Path, out var text))
                continue;
            var (value, error) = LimitText.Read(limit, text, limit.Of(draft));
            if (error is not null)
                errors[limit.Path] = error;
            else if (!value!.Equals(limit.Of(rules)))
                rules = limit.With(rules, value);
        }

        // What is wrong between two fields is told when each by itself is right.
        if (errors.Count == 0)
        {
            foreach (var problem in LimitNotes.Problems(rules))
                errors.TryAdd(problem.Path, problem.Message);
        }

        return (rules, errors);
    }
}

/// <param name="InForce">What judges now.</param>
/// <param name="Errors">By the limit's path, and "from" and "note".</param>
/// <param name="Today">At the carrier's first terminal.</param>
public sealed record DraftPage(Carrier Carrier, RuleSetDraft Draft, RuleSet InForce, DraftForm Form, IReadOnlyDictionary<string, string> Errors, string Today)
{
    public string? Notice { get; init; }

    /// <summary>Where somebody else's saved draft differs from what was typed here; null without a conflict.</summary>
    public IReadOnlyList<LimitChange>? Conflict { get; init; }

    public IReadOnlyList<LimitChange> Changes => Limit.Between(InForce, Draft.Rules);

    public IEnumerable<IGrouping<string, Limit>> Groups => Limit.All.GroupBy(limit => limit.Group);
}

public sealed record LimitField(DraftPage Page, Limit Limit)
{
    public string Name => $"Limits[{Limit.Path}]";

    public string Id => IdOf(Limit.Path);

    /// <summary>The element's id of a limit's path, or of another field's name.</summary>
    public static string IdOf(string field) => Readiness.RuleSets.Limit.Find(field) is null ? field : $"limit-{field.Replace('.', '-')}";

    public string Value => Page.Form.Limits?.TryGetValue(Limit.Path, out var typed) == true ? typed ?? "" : LimitText.Field(Limit.Of(Page.Draft.Rules));

    /// <summary>The word behind the field; empty for plain numbers.</summary>
    public string Unit => Engineering.Units.UnitCodes.Word(Limit.Unit);

    public string BuiltIn => LimitText.Say(Limit, Limit.Of(RuleSet.BuiltIn));

    public bool Differs => Value.Trim() != LimitText.Field(Limit.Of(RuleSet.BuiltIn));

    public string? Error => Page.Errors.GetValueOrDefault(Limit.Path);

    public string? Hint => LimitNotes.FloorOf(Limit) is var (least, why) ? $"At least a {least.ToString().ToLowerInvariant()}: {why}." : LimitText.Summary(Limit);
}

/// <param name="Shippers">Names by id.</param>
/// <param name="IsCurrent">The draft is still as it was previewed.</param>
public sealed record PreviewPage(Carrier Carrier, RulePreview Preview, IReadOnlyDictionary<Guid, string> Shippers, bool IsCurrent, bool HasDraft)
{
    public string NameOf(Guid shipper) => Shippers.GetValueOrDefault(shipper) ?? "A shipper that is gone";

    public IReadOnlyList<LimitChange> Changes => Limit.Between(Preview.Against, Preview.Rules);
}
