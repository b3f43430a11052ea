using Fettle.Readiness.Findings;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Claims;

/// <param name="OutcomeId">The record of delivery that the person saw.</param>
/// <param name="FiledOn">The day, where the freight was picked up.</param>
/// <param name="Terms">Of the carrier's tariff on that day.</param>
public sealed record FileClaim(
    Guid ClaimId,
    string Number,
    Guid OutcomeId,
    DateOnly FiledOn,
    IReadOnlyList<ClaimedLine> Lines,
    string Grounds,
    ClaimTerms Terms,
    Actor By,
    DateTimeOffset At);

/// <param name="Seen">The revision of the claim that the person saw.</param>
/// <param name="Sum">What is offered or paid, with at most two decimals; null when the answer names none.</param>
/// <param name="Terms">Of the carrier's tariff on that day.</param>
public sealed record AnswerClaim(
    Guid ClaimId,
    int Seen,
    Guid AnswerId,
    ClaimAnswer Answer,
    DateOnly AnsweredOn,
    decimal? Sum,
    string? Reason,
    ClaimTerms Terms,
    Actor By,
    DateTimeOffset At);

/// <param name="Seen">The revision of the claim that the person saw.</param>
public sealed record AcceptClaimOffer(Guid ClaimId, int Seen, Actor By, DateTimeOffset At);

/// <param name="Seen">The revision of the claim that the person saw.</param>
public sealed record WithdrawClaim(Guid ClaimId, int Seen, string Reason, Actor By, DateTimeOffset At);

/// <summary>What may be done about claims. Whether a claim is owed is for the parties, the tariff and the law; here is only kept who said what, when.</summary>
public static class ClaimDecisions
{
    public static Decision<PickupEvent> Decide(Pickup? state, FileClaim command)
    {
        if (state is null)
            return Refuse(new NoSuchPickup());
        if (state.ClaimOf(command.ClaimId) is not null)
            return Decision<PickupEvent>.Accept();
        if (state.Outcome is not { } outcome || outcome.OutcomeId != command.OutcomeId)
            return Refuse(new DeliveryChanged(state.Outcome?.By));
        if (state.Claims.Count >= Claim.Most)
            return Refuse(new TooManyClaims());
        if (command.Lines.Count == 0)
            return Refuse(new NothingClaimed());
        foreach (var line in command.Lines.GroupBy(line => line.Reference, StringComparer.Ordinal))
        {
            if (line.Any(part => part.Count < 1 || part.Amount.Cents < 1))
                return Refuse(new NothingClaimed());
            var harm = HarmOf(state, line.Key);
            var asked = line.Sum(part => (long)part.Count);
            if (asked > harm.Left)
                return Refuse(new MoreThanHarmed(line.Key, harm.Harmed, harm.Claimed, (int)Math.Min(asked, int.MaxValue)));
        }

        return Decision<PickupEvent>.Accept(new ClaimFiled(
            state.Id,
            command.ClaimId,
            command.Number,
            command.OutcomeId,
            command.FiledOn,
            command.Lines,
            command.Grounds.Trim(),
            outcome.Deadlines.ClaimBy,
            command.FiledOn.AddDays(command.Terms.AcknowledgeDays),
            command.FiledOn.AddDays(command.Terms.AnswerDays),
            command.By,
            command.At));
    }

    public static Decision<PickupEvent> Decide(Pickup? state, AnswerClaim command)
    {
        if (state?.ClaimOf(command.ClaimId) is not { } claim)
            return Refuse(new NoSuchClaim());
        if (claim.Answers.Any(answer => answer.AnswerId == command.AnswerId))
            return Decision<PickupEvent>.Accept();
        if (claim.Revision != command.Seen)
            return Refuse(new ClaimMovedOn(claim.LastBy));
        if (!Follows(claim.State, command.Answer))
            return Refuse(new ClaimStandsSo(claim.State));
        if (claim.Answers.Count >= Claim.MostAnswers)
            return Refuse(new TooManyClaimAnswers());
        // A day is over in the east of the world before it is in the west.
        if (command.AnsweredOn < claim.Filed.FiledOn || command.AnsweredOn > DateOnly.FromDateTime(command.At.UtcDateTime.AddHours(14)))
            return Refuse(new ImpossibleAnswerDay());
        var names = command.Answer is ClaimAnswer.Offered or ClaimAnswer.Paid;
        var total = claim.Filed.Total;
        if (names && !(command.Sum is > 0 && command.Sum <= total.Amount && decimal.Round(command.Sum.Value, 2) == command.Sum))
            return Refuse(new ImpossibleSum(total));
        var needsReason = command.Answer == ClaimAnswer.Disallowed
            || (command.Answer == ClaimAnswer.Paid && command.Sum < total.Amount && !(claim.State == ClaimState.Agreed && claim.Agreed!.Amount.Amount == command.Sum))
            || claim.State == ClaimState.Paid;
        if (needsReason && string.IsNullOrWhiteSpace(command.Reason))
            return Refuse(new AnswerWithoutReason());
        return Decision<PickupEvent>.Accept(new ClaimAnswered(
            state.Id,
            claim.Id,
            command.AnswerId,
            command.Answer,
            command.AnsweredOn,
            Divide(claim.Filed.Lines, names ? command.Sum!.Value : 0),
            string.IsNullOrWhiteSpace(command.Reason) ? null : command.Reason.Trim(),
            command.Answer == ClaimAnswer.Disallowed ? ClaimDeadlines.SuitBy(command.AnsweredOn, command.Terms) : null,
            command.By,
            command.At));
    }

    public static Decision<PickupEvent> Decide(Pickup? state, AcceptClaimOffer command)
    {
        if (state?.ClaimOf(command.ClaimId) is not { } claim)
            return Refuse(new NoSuchClaim());
        // Pressed twice.
        if (claim.State == ClaimState.Agreed && claim.Revision == command.Seen + 1)
            return Decision<PickupEvent>.Accept();
        if (claim.Revision != command.Seen)
            return Refuse(new ClaimMovedOn(claim.LastBy));
        return claim.Offer is { } offer
            ? Decision<PickupEvent>.Accept(new ClaimOfferAccepted(state.Id, claim.Id, offer.AnswerId, offer.Total, command.By, command.At))
            : Refuse(new ClaimStandsSo(claim.State));
    }

    public static Decision<PickupEvent> Decide(Pickup? state, WithdrawClaim command)
    {
        if (state?.ClaimOf(command.ClaimId) is not { } claim)
            return Refuse(new NoSuchClaim());
        if (claim.State == ClaimState.Withdrawn && claim.Revision == command.Seen + 1)
            return Decision<PickupEvent>.Accept();
        if (claim.Revision != command.Seen)
            return Refuse(new ClaimMovedOn(claim.LastBy));
        return claim.State is ClaimState.Paid or ClaimState.Withdrawn
            ? Refuse(new ClaimStandsSo(claim.State))
            : Decision<PickupEvent>.Accept(new ClaimWithdrawn(state.Id, claim.Id, claim.Filed.Lines, command.Reason.Trim(), command.By, command.At));
    }

    /// <summary>Lines of which something was recorded damaged, missing or not taken and is not claimed yet.</summary>
    public static IReadOnlyList<LineHarm> Claimable(Pickup pickup) =>
        [.. pickup.Declaration.HandlingUnits.Select(line => HarmOf(pickup, line.Reference)).Where(harm => harm.Left > 0)];

    /// <summary>Answers that may follow.</summary>
    public static IReadOnlyList<ClaimAnswer> AnswersAfter(ClaimState state) => [.. Enum.GetValues<ClaimAnswer>().Where(answer => Follows(state, answer))];

    private static LineHarm HarmOf(Pickup pickup, string reference) => new(
        reference,
        pickup.Outcome?.Units.Where(unit => unit.Reference == reference && unit.Kind is (OutcomeKind.Damaged or OutcomeKind.Short or OutcomeKind.Refused)).Sum(unit => unit.Count) ?? 0,
        pickup.Claims.Where(claim => claim.Withdrawn is null).SelectMany(claim => claim.Filed.Lines).Where(part => part.Reference == reference).Sum(part => part.Count));

    private static bool Follows(ClaimState state, ClaimAnswer answer) => state switch
    {
        ClaimState.Filed => true,
        ClaimState.Acknowledged or ClaimState.Offered => answer != ClaimAnswer.Acknowledged,
        // Who has agreed to a sum is not offered another, or told that there is none.
        ClaimState.Agreed => answer == ClaimAnswer.Paid,
        ClaimState.Disallowed => answer is ClaimAnswer.Offered or ClaimAnswer.Paid,
        // Only to put a sum right that was written down wrongly, with a reason.
        ClaimState.Paid => answer == ClaimAnswer.Paid,
        ClaimState.Withdrawn => false,
    };

    /// <summary>A sum over the lines in proportion to what was asked for each, to the cent: what division leaves goes to the largest remainders.</summary>
    private static ClaimedLine[] Divide(IReadOnlyList<ClaimedLine> lines, decimal sum)
    {
        var cents = decimal.ToInt64(sum * 100);
        var all = lines.Sum(line => line.Amount.Cents);
        var parts = lines.Select((line, index) =>
        {
            var exact = (Int128)cents * line.Amount.Cents;
            return (Index: index, Whole: (long)(exact / all), Over: (long)(exact % all));
        }).ToArray();
        var left = cents - parts.Sum(part => part.Whole);
        var more = parts.OrderByDescending(part => part.Over).ThenBy(part => part.Index).Take((int)left).Select(part => part.Index).ToHashSet();
        return [.. lines.Zip(parts, (line, part) => line with { Amount = Money.Dollars((part.Whole + (more.Contains(part.Index) ? 1 : 0)) / 100m) })];
    }

    private static Decision<PickupEvent> Refuse(Refusal refusal) => Decision<PickupEvent>.Refuse(refusal);
}

/// <summary>Of one line, how many units were recorded damaged, missing or not taken, and of how many a claim stands.</summary>
public sealed record LineHarm(string Reference, int Harmed, int Claimed)
{
    /// <summary>Units that may still be claimed; below nought when the delivery was recorded anew after a claim.</summary>
    public int Left => Harmed - Claimed;
}

public sealed record NoSuchClaim : Refusal
{
    public override string Code => "no-such-claim";

    public override Phrase Message => Phrase.Of($"There is no such claim.");
}

/// <summary>The record of delivery is not the one that the person saw.</summary>
/// <param name="By">Who recorded the one that stands; null when none does.</param>
public sealed record DeliveryChanged(Actor? By) : Refusal
{
    public override string Code => "delivery-changed";

    public override Phrase Message => By is null
        ? Phrase.Of($"Nobody has recorded how this freight was delivered. A claim rests on that record: ask the carrier to make it.")
        : Phrase.Of($"{By.Name} has recorded the delivery anew meanwhile. Read it, then file the claim on it.");
}

public sealed record TooManyClaims : Refusal
{
    public override string Code => "too-many-claims";

    public override Phrase Message => Phrase.Of($"A pickup has at most {Claim.Most} claims. Take the rest up with the carrier by letter.");
}

public sealed record TooManyClaimAnswers : Refusal
{
    public override string Code => "too-many-claim-answers";

    public override Phrase Message => Phrase.Of($"A claim has at most {Claim.MostAnswers} answers. Go on with it by letter.");
}

public sealed record NothingClaimed : Refusal
{
    public override string Code => "nothing-claimed";

    public override Phrase Message => Phrase.Of($"Say for at least one line how many units and what sum the claim is for.");
}

public sealed record MoreThanHarmed(string Reference, int Harmed, int Claimed, int Asked) : Refusal
{
    public override string Code => "more-than-harmed";

    public override Phrase Message => Claimed == 0
        ? Phrase.Of($"Of {Reference}, {Harmed} units were recorded damaged, missing or not taken, and the claim is for {Asked}.")
        : Phrase.Of($"Of {Reference}, {Harmed} units were recorded damaged, missing or not taken; {Claimed} are claimed already, and this claim is for {Asked}.");
}

/// <summary>Somebody did something about the claim that this person had not seen.</summary>
public sealed record ClaimMovedOn(Actor By) : Refusal
{
    public override string Code => "claim-moved-on";

    public override Phrase Message => Phrase.Of($"{By.Name} has done something about this claim meanwhile. Read it, then decide.");
}

/// <summary>What was wanted does not follow upon what stands.</summary>
public sealed record ClaimStandsSo(ClaimState State) : Refusal
{
    public override string Code => "claim-stands-so";

    public override Phrase Message => State switch
    {
        ClaimState.Filed => Phrase.Of($"The carrier has made no offer on this claim yet."),
        ClaimState.Acknowledged => Phrase.Of($"The claim is acknowledged, and no offer is made on it yet."),
        ClaimState.Offered => Phrase.Of($"An offer stands on this claim."),
        ClaimState.Agreed => Phrase.Of($"The shipper has taken the offer. It is now to be paid."),
        ClaimState.Disallowed => Phrase.Of($"The claim is disallowed. An offer or a payment may still follow."),
        ClaimState.Paid => Phrase.Of($"The claim is paid, which ended it."),
        ClaimState.Withdrawn => Phrase.Of($"The shipper has withdrawn the claim."),
    };
}

public sealed record ImpossibleAnswerDay : Refusal
{
    public override string Code => "impossible-answer-day";

    public override Phrase Message => Phrase.Of($"The day of the answer lies between the day of the claim and today.");
}

public sealed record ImpossibleSum(Money Claimed) : Refusal
{
    public override string Code => "impossible-sum";

    public override Phrase Message => Phrase.Of($"A sum above nothing, up to the {Claimed.ToString()} that are claimed.");
}

public sealed record AnswerWithoutReason : Refusal
{
    public override string Code => "answer-without-reason";

    public override Phrase Message => Phrase.Of($"Say why: a claims handler on the other side reads it.");
}
