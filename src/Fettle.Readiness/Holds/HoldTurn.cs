namespace Fettle.Readiness.Holds;

/// <summary>Who must act about held freight, and by when. Known from what happened, so that no two places can disagree about it.</summary>
/// <param name="Since">When it became their turn.</param>
/// <param name="By">When their time ends.</param>
public sealed record HoldTurn(HoldSide Side, DateTimeOffset Since, DateTimeOffset By, DateTimeOffset? RemindedAt = null, DateTimeOffset? EscalatedAt = null)
{
    /// <summary>From here on whoever must act is reminded: some hours before the end, or half-way when there are not so many.</summary>
    public DateTimeOffset RemindFrom(HoldHours hours)
    {
        var early = By.AddHours(-hours.Remind);
        var middle = Since + ((By - Since) / 2);
        return early > middle ? early : middle;
    }

    /// <param name="turn">Whose turn it was; null when nobody had to act.</param>
    /// <param name="decideBy">No time ends after this while it is still to come.</param>
    /// <returns>Null when nobody has to act any more.</returns>
    public static HoldTurn? After(HoldTurn? turn, HoldEvent happened, HoldHours hours, DateTimeOffset decideBy)
    {
        return happened switch
        {
            HoldPlaced placed => New(placed.ExceptionRequest is null ? HoldSide.Shipper : HoldSide.Terminal, placed.At),
            HoldMessageSent message => Passed(message.From.Other(), message.At),
            ReworkOffered offered => Passed(HoldSide.Shipper, offered.At),
            ReworkOfferWithdrawn withdrawn => Passed(HoldSide.Terminal, withdrawn.At),
            ReworkAuthorised authorised => Passed(HoldSide.Terminal, authorised.At),
            HoldDeclarationCorrected corrected => Passed(HoldSide.Terminal, corrected.At),
            HoldExceptionRequested requested => Passed(HoldSide.Terminal, requested.At),
            HoldDisputed disputed => Passed(HoldSide.Terminal, disputed.At),
            HoldDecided { Decision: HoldDecision.Rework } rework => new(HoldSide.Terminal, rework.At, rework.At.AddHours(hours.Rework)),
            HoldDecided => null,
            HoldInspected inspected => turn is null ? null : New(HoldSide.Terminal, inspected.At),
            // A reminder that loses a race with a decision is tried on what the winner left, before it is refused.
            HoldReminded reminded => turn is null ? null : turn with { RemindedAt = reminded.At },
            HoldEscalated escalated => turn is null ? null : turn with { EscalatedAt = escalated.At },
            _ => throw new InvalidOperationException($"A turn does not know {happened.GetType().Name}."),
        };

        HoldTurn New(HoldSide side, DateTimeOffset at)
        {
            var end = at.AddHours(hours.For(side));
            return new(side, at, decideBy > at && decideBy < end ? decideBy : end);
        }

        // Who has the turn already does not get new time by being written to once more, unless their time was over.
        HoldTurn? Passed(HoldSide side, DateTimeOffset at) => turn switch
        {
            null => null,
            _ when turn.Side == side && at <= turn.By => turn,
            _ => New(side, at),
        };
    }
}
