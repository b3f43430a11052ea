using Fettle.Readiness.Findings;

namespace Fettle.Readiness.RuleSets;

public abstract record RuleSetEvent;

/// <summary>A new version was begun, as a copy.</summary>
/// <param name="Rules">The copy, under the name and number that it is to have.</param>
/// <param name="CopyOf">The version that was copied.</param>
public sealed record RuleSetDrafted(Guid CarrierId, RuleSet Rules, RuleSetVersion CopyOf, Actor By, DateTimeOffset At) : RuleSetEvent;

/// <summary>Limits of the draft were changed.</summary>
/// <param name="Rules">The draft as it is now.</param>
public sealed record RuleSetChanged(Guid CarrierId, RuleSet Rules, Actor By, DateTimeOffset At) : RuleSetEvent;

/// <summary>The draft was given up.</summary>
public sealed record RuleSetDraftDropped(Guid CarrierId, Actor By, DateTimeOffset At) : RuleSetEvent;

/// <summary>The draft became a version, which never changes again.</summary>
/// <param name="From">When it begins to judge.</param>
/// <param name="Note">Why it was made.</param>
public sealed record RuleSetPublished(Guid CarrierId, RuleSet Rules, DateTimeOffset From, string Note, Actor By, DateTimeOffset At) : RuleSetEvent;

/// <param name="CopyOf">What it began as.</param>
public sealed record RuleSetDraft(RuleSet Rules, RuleSetVersion CopyOf, Actor ChangedBy, DateTimeOffset ChangedAt);

public sealed record PublishedRuleSet(RuleSet Rules, DateTimeOffset From, string Note, Actor By, DateTimeOffset At)
{
    public int Version => Rules.Identity.Version;
}

/// <summary>A carrier's own rules: its versions, and the one being written.</summary>
/// <param name="Id">The carrier's id.</param>
/// <param name="Revision">How many things have happened to it; tells whether somebody changed it since it was read.</param>
/// <param name="Versions">Numbered from 1, in that order.</param>
public sealed record CarrierRules(Guid Id, int Revision, RuleSetDraft? Draft, IReadOnlyList<PublishedRuleSet> Versions)
{
    public const int LongestNote = 500;

    /// <summary>
    /// The version that judges at a moment: the one published last among those that have begun by then. So a version that is
    /// published later takes the place of an earlier one from its own start on, even of one that has not begun yet; and the
    /// past never changes, since nothing starts before it was published. Null before the first: the built-in rules judge.
    /// </summary>
    public PublishedRuleSet? InForce(DateTimeOffset at) => Versions.LastOrDefault(version => version.From <= at);

    public RuleSet RulesAt(DateTimeOffset at) => InForce(at)?.Rules ?? RuleSet.BuiltIn;

    /// <summary>When a version's time ends, as far as is known; its own start when it never comes to judge, null for no end.</summary>
    public DateTimeOffset? Until(PublishedRuleSet version)
    {
        DateTimeOffset[] later = [.. Versions.Where(other => other.Version > version.Version).Select(other => other.From)];
        return later.Length == 0 ? null : later.Min() is var end && end > version.From ? end : version.From;
    }

    public static CarrierRules? Evolve(CarrierRules? state, RuleSetEvent happened)
    {
        var revision = (state?.Revision ?? 0) + 1;
        return happened switch
        {
            RuleSetDrafted e => new(e.CarrierId, revision, new(e.Rules, e.CopyOf, e.By, e.At), state?.Versions ?? []),
            RuleSetChanged e => state! with { Revision = revision, Draft = state.Draft! with { Rules = e.Rules, ChangedBy = e.By, ChangedAt = e.At } },
            RuleSetDraftDropped => state! with { Revision = revision, Draft = null },
            RuleSetPublished e => state! with { Revision = revision, Draft = null, Versions = [.. state.Versions, new(e.Rules, e.From, e.Note, e.By, e.At)] },
            _ => throw new InvalidOperationException($"A carrier's rules do not know {happened.GetType().Name}."),
        };
    }

    public static Decision<RuleSetEvent> Decide(CarrierRules? state, DraftRuleSet command)
    {
        if (state?.Draft is { } begun)
            return Refuse(new RuleSetDraftExists(begun.ChangedBy));
        var copied = command.OfBuiltIn ? RuleSet.BuiltIn : state?.RulesAt(command.At) ?? RuleSet.BuiltIn;
        var draft = copied with { Identity = new(command.CarrierName, (state?.Versions.Count ?? 0) + 1) };
        return Accept(new RuleSetDrafted(command.CarrierId, draft, copied.Identity, command.By, command.At));
    }

    public static Decision<RuleSetEvent> Decide(CarrierRules? state, ChangeRuleSet command)
    {
        if (Stale(state, command.Seen) is { } stale)
            return Refuse(stale);
        var (id, draft) = (state!.Id, state.Draft!.Rules);
        if (LimitNotes.Problems(command.Rules) is { Count: > 0 } problems)
            return Refuse(new RuleSetUnusable(problems));
        if (Limit.Between(draft, command.Rules).Count == 0)
            return Accept();
        return Accept(new RuleSetChanged(id, command.Rules with { Identity = draft.Identity }, command.By, command.At));
    }

    public static Decision<RuleSetEvent> Decide(CarrierRules? state, DropRuleSetDraft command) =>
        Stale(state, command.Seen) is { } stale ? Refuse(stale) : Accept(new RuleSetDraftDropped(state!.Id, command.By, command.At));

    public static Decision<RuleSetEvent> Decide(CarrierRules? state, PublishRuleSet command)
    {
        if (Stale(state, command.Seen) is { } stale)
            return Refuse(stale);
        var draft = state!.Draft!.Rules;
        // The bounds may have become narrower since it was saved.
        if (LimitNotes.Problems(draft) is { Count: > 0 } problems)
            return Refuse(new RuleSetUnusable(problems));
        if (command.From < command.At)
            return Refuse(new StartsInThePast());
        if (string.IsNullOrWhiteSpace(command.Note))
            return Refuse(new NoReasonForRules());
        if (Limit.Between(state.RulesAt(command.From), draft).Count == 0)
            return Refuse(new NothingDiffers(state.RulesAt(command.From).Identity));
        return Accept(new RuleSetPublished(state.Id, draft, command.From, command.Note.Trim(), command.By, command.At));
    }

    private static Refusal? Stale(CarrierRules? state, int seen) =>
        state?.Draft is not { } draft ? new NoRuleSetDraft()
        : state.Revision != seen ? new RuleSetChangedMeanwhile(draft.ChangedBy, draft.ChangedAt)
        : null;

    private static Decision<RuleSetEvent> Accept(params IReadOnlyList<RuleSetEvent> events) => Decision<RuleSetEvent>.Accept(events);

    private static Decision<RuleSetEvent> Refuse(Refusal refusal) => Decision<RuleSetEvent>.Refuse(refusal);
}

/// <summary>Begins a version as a copy of the one in force, or of the built-in rules.</summary>
/// <param name="CarrierName">What the rule set will be called.</param>
public sealed record DraftRuleSet(Guid CarrierId, string CarrierName, bool OfBuiltIn, Actor By, DateTimeOffset At);

/// <param name="Seen">The revision that the change was made to.</param>
/// <param name="Rules">The whole draft as it is to be.</param>
public sealed record ChangeRuleSet(int Seen, RuleSet Rules, Actor By, DateTimeOffset At);

public sealed record DropRuleSetDraft(int Seen, Actor By, DateTimeOffset At);

public sealed record PublishRuleSet(int Seen, DateTimeOffset From, string Note, Actor By, DateTimeOffset At);

public sealed record NoRuleSetDraft : Refusal
{
    public override string Code => "no-rule-set-draft";

    public override Phrase Message => Phrase.Of($"There is no draft any more: it was published or given up. Nothing of yours was saved.");
}

public sealed record RuleSetDraftExists(Actor By) : Refusal
{
    public override string Code => "rule-set-draft-exists";

    public override Phrase Message => Phrase.Of($"There is a draft already, last changed by {By.Name}: go on with that one, or give it up first.");
}

/// <summary>Somebody else was quicker.</summary>
public sealed record RuleSetChangedMeanwhile(Actor By, DateTimeOffset At) : Refusal
{
    public override string Code => "rule-set-changed-meanwhile";

    public override Phrase Message => Phrase.Of($"{By.Name} changed this draft since you opened it.");
}

public sealed record RuleSetUnusable(IReadOnlyList<LimitProblem> Problems) : Refusal
{
    public override string Code => "rule-set-unusable";

    public override Phrase Message =>
        Phrase.Of($"Some limits cannot be used: {string.Join(" ", Problems.Select(problem => $"{Limit.Find(problem.Path)?.Title ?? problem.Path}: {problem.Message}"))}");
}

public sealed record StartsInThePast : Refusal
{
    public override string Code => "starts-in-the-past";

    public override Phrase Message => Phrase.Of($"A version starts today or later: what was declared before was judged by the rules of then.");
}

public sealed record NoReasonForRules : Refusal
{
    public override string Code => "no-reason-for-rules";

    public override Phrase Message => Phrase.Of($"Say in a few words why the rules change: shippers will ask.");
}

public sealed record NothingDiffers(RuleSetVersion From) : Refusal
{
    public override string Code => "nothing-differs";

    public override Phrase Message => Phrase.Of($"Nothing differs from {From.ToString()}, which is in force then. Change a limit first.");
}
