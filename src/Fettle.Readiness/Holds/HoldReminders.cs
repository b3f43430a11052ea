namespace Fettle.Readiness.Holds;

/// <summary>Whoever must act was told that their time is nearly over.</summary>
/// <param name="By">When it is over.</param>
public sealed record HoldReminded(Guid HoldId, HoldSide Side, DateTimeOffset Since, DateTimeOffset By, DateTimeOffset At) : HoldEvent;

/// <summary>Their time was over, and those who answer for them were told.</summary>
public sealed record HoldEscalated(Guid HoldId, HoldSide Side, DateTimeOffset Since, DateTimeOffset By, DateTimeOffset At) : HoldEvent;

/// <summary>Looks whether a reminder or an escalation is due. May come twice, late, or never at the right moment.</summary>
public sealed record WatchHold(DateTimeOffset At);

public sealed partial record Hold
{
    /// <summary>From the state and the moment alone: once for each time that it became somebody's turn, and nothing once a decision is there.</summary>
    public static Decision<HoldEvent> Decide(Hold? state, WatchHold command)
    {
        if (state?.Turn is not { } turn)
            return Decision<HoldEvent>.Accept();
        if (command.At >= turn.By)
            return turn.EscalatedAt is null ? Decision<HoldEvent>.Accept(new HoldEscalated(state.Id, turn.Side, turn.Since, turn.By, command.At)) : Decision<HoldEvent>.Accept();
        return turn.RemindedAt is null && command.At >= turn.RemindFrom(state.Hours())
            ? Decision<HoldEvent>.Accept(new HoldReminded(state.Id, turn.Side, turn.Since, turn.By, command.At))
            : Decision<HoldEvent>.Accept();
    }
}
