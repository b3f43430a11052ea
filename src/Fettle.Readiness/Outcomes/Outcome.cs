using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Outcomes;

/// <summary>
/// How the freight of a pickup came to the consignee. Never edited: what was recorded wrongly is superseded by another, with
/// a reason.
/// </summary>
/// <param name="DeliveredOn">Day of delivery at the consignee; nothing is counted from the hour.</param>
/// <param name="Units">One or more for each line of the declaration; together they account for all of its units.</param>
/// <param name="Deadlines">Counted by the terms that held when it was recorded, and kept as they were.</param>
/// <param name="Supersedes">The outcome that this one replaces; null for the first.</param>
/// <param name="Reason">Why it replaces the earlier one; null for the first.</param>
public sealed record OutcomeRecorded(
    Guid PickupId,
    Guid OutcomeId,
    DateOnly DeliveredOn,
    IReadOnlyList<UnitOutcome> Units,
    ClaimDeadlines Deadlines,
    Guid? Supersedes,
    string? Reason,
    Actor By,
    DateTimeOffset At) : PickupEvent
{
    /// <summary>Every unit that travelled came whole.</summary>
    public bool IsClean => Units.All(unit => unit.Kind is OutcomeKind.Clean or OutcomeKind.Stayed);
}

/// <summary>What became of some units of one line.</summary>
/// <param name="Reference">The line of the declaration.</param>
/// <param name="Count">So many of its units, 1 or more.</param>
/// <param name="Where">Where on the unit; null unless damaged.</param>
/// <param name="How">Null unless damaged.</param>
/// <param name="Concealed">Found only after the delivery receipt had been signed without a remark.</param>
/// <param name="CarriedFreight">Another unit rode on top of it; null when nobody noted it.</param>
public sealed record UnitOutcome(
    string Reference,
    int Count,
    OutcomeKind Kind,
    DamagePlace? Where = null,
    DamageManner? How = null,
    bool Concealed = false,
    bool? CarriedFreight = null,
    string? Note = null);

public enum OutcomeKind
{
    Clean,

    /// <summary>Not all of it came.</summary>
    Short,
    Damaged,

    /// <summary>The consignee did not take it.</summary>
    Refused,

    /// <summary>It did not travel: returned, refused by the carrier, or left for another pickup.</summary>
    Stayed,
}

public enum DamagePlace
{
    Top,
    Side,
    Corner,
    Bottom,

    /// <summary>Inside, behind a sound outside.</summary>
    Inside,
    Whole,
}

public enum DamageManner
{
    Crushed,
    Punctured,
    Shifted,
    Wet,
    Broken,
    Torn,
    Other,
}

/// <param name="Terms">Of the carrier's tariff on that day.</param>
/// <param name="Holidays">Days besides weekends on which nobody works, as far as they matter.</param>
/// <param name="Supersedes">The outcome that the person saw and corrects; null when they saw none.</param>
public sealed record RecordOutcome(
    Guid OutcomeId,
    DateOnly DeliveredOn,
    IReadOnlyList<UnitOutcome> Units,
    ClaimTerms Terms,
    IReadOnlyCollection<DateOnly> Holidays,
    Guid? Supersedes,
    string? Reason,
    Actor By,
    DateTimeOffset At)
{
    /// <summary>References of lines that are held and not decided about.</summary>
    public IReadOnlyCollection<string> Undecided { get; init; } = [];
}

public static class Outcome
{
    public static Decision<PickupEvent> Decide(Pickup? state, RecordOutcome command)
    {
        if (state is null)
            return Decision<PickupEvent>.Refuse(new NoSuchPickup());
        if (state.Outcome is { } standing && standing.OutcomeId == command.OutcomeId)
            return Decision<PickupEvent>.Accept();
        if (state.Outcome?.OutcomeId != command.Supersedes)
            return Decision<PickupEvent>.Refuse(new OutcomeStands(state.Outcome!));
        if (command.Supersedes is not null && string.IsNullOrWhiteSpace(command.Reason))
            return Decision<PickupEvent>.Refuse(new SupersededWithoutReason());
        // A day is over in the east of the world before it is in the west.
        if (command.DeliveredOn > DateOnly.FromDateTime(command.At.UtcDateTime.AddHours(14)) || command.DeliveredOn < DateOnly.FromDateTime(state.SubmittedAt.UtcDateTime.AddHours(-14)))
            return Decision<PickupEvent>.Refuse(new ImpossibleDeliveryDay());
        foreach (var line in state.Declaration.HandlingUnits)
        {
            var told = command.Units.Where(unit => unit.Reference == line.Reference).Sum(unit => (long)unit.Count);
            if (told != line.Quantity)
                return Decision<PickupEvent>.Refuse(new UnitsUnaccounted(line.Reference, line.Quantity, (int)Math.Min(told, int.MaxValue)));
        }

        if (command.Units.FirstOrDefault(unit => state.Declaration.HandlingUnits.All(line => line.Reference != unit.Reference)) is { } stranger)
            return Decision<PickupEvent>.Refuse(new NoSuchLine(stranger.Reference));
        if (command.Units.FirstOrDefault(unit => unit.Count < 1 || (unit.Kind == OutcomeKind.Damaged) != (unit.Where is not null && unit.How is not null)
            || (unit.Kind != OutcomeKind.Damaged && (unit.Where is not null || unit.How is not null))) is { } unclear)
            return Decision<PickupEvent>.Refuse(new DamageUnclear(unclear.Reference));
        // Held freight does not move until it is decided about. What was recorded once is put right whatever was held since.
        if (command.Supersedes is null && command.Units.FirstOrDefault(unit => unit.Kind != OutcomeKind.Stayed && command.Undecided.Contains(unit.Reference)) is { } held)
            return Decision<PickupEvent>.Refuse(new HeldUndecided(held.Reference));
        return Decision<PickupEvent>.Accept(new OutcomeRecorded(
            state.Id,
            command.OutcomeId,
            command.DeliveredOn,
            command.Units,
            ClaimDeadlines.Of(command.DeliveredOn, command.Terms, command.Holidays),
            command.Supersedes,
            command.Supersedes is null ? null : command.Reason!.Trim(),
            command.By,
            command.At));
    }
}

public sealed record NoSuchPickup : Refusal
{
    public override string Code => "no-such-pickup";

    public override Phrase Message => Phrase.Of($"There is no such pickup.");
}

/// <summary>Somebody recorded an outcome that this person had not seen.</summary>
public sealed record OutcomeStands(OutcomeRecorded Standing) : Refusal
{
    public override string Code => "outcome-recorded";

    public override Phrase Message => Standing is null
        ? Phrase.Of($"No outcome is recorded yet that could be replaced.")
        : Phrase.Of($"{Standing.By.Name} has recorded an outcome meanwhile. Read it, then replace it with a reason if it is wrong.");
}

public sealed record SupersededWithoutReason : Refusal
{
    public override string Code => "reason-missing";

    public override Phrase Message => Phrase.Of($"Say why the earlier record is replaced.");
}

public sealed record ImpossibleDeliveryDay : Refusal
{
    public override string Code => "impossible-delivery-day";

    public override Phrase Message => Phrase.Of($"The day of delivery lies between the day of the pickup's submission and today.");
}

public sealed record UnitsUnaccounted(string Reference, int Declared, int Told) : Refusal
{
    public override string Code => "units-unaccounted";

    public override Phrase Message => Phrase.Of($"{Reference} has {Declared} units, and you account for {Told}. Each unit needs an outcome.");
}

public sealed record NoSuchLine(string Reference) : Refusal
{
    public override string Code => "no-such-line";

    public override Phrase Message => Phrase.Of($"The pickup has no line {Reference}.");
}

public sealed record DamageUnclear(string Reference) : Refusal
{
    public override string Code => "damage-unclear";

    public override Phrase Message => Phrase.Of($"{Reference}: say where and how it is damaged, and only when it is.");
}

/// <summary>The line is held, nobody has decided about it, and it is said to have travelled.</summary>
public sealed record HeldUndecided(string Reference) : Refusal
{
    public override string Code => "held-undecided";

    public override Phrase Message => Phrase.Of($"{Reference} is held and nobody has decided about it. Decide first, or record that it did not travel.");
}
