using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Holds;

/// <summary>One side wrote to the other about held freight.</summary>
public sealed record HoldMessageSent(Guid HoldId, Guid MessageId, HoldSide From, string Text, Actor By, DateTimeOffset At) : HoldEvent;

/// <param name="MessageId">Chosen by whoever writes, so that a message sent twice is kept once.</param>
/// <param name="Text">Never empty.</param>
public sealed record SendHoldMessage(Guid MessageId, HoldSide From, string Text, Actor By, DateTimeOffset At);

public sealed partial record Hold
{
    /// <summary>People may go on talking after a decision, which then changes nothing about who must act.</summary>
    public static Decision<HoldEvent> Decide(Hold? state, SendHoldMessage command)
    {
        if (state is null)
            return Decision<HoldEvent>.Refuse(new NoSuchHold());
        if (state.Messages.Any(message => message.MessageId == command.MessageId))
            return Decision<HoldEvent>.Accept();
        if (state.Messages.Count >= MostMessages)
            return Decision<HoldEvent>.Refuse(new TooManyMessages());
        return Decision<HoldEvent>.Accept(new HoldMessageSent(state.Id, command.MessageId, command.From, command.Text, command.By, command.At));
    }
}

public sealed record TooManyMessages : Refusal
{
    public override string Code => "too-many-messages";

    public override Phrase Message => Phrase.Of($"This hold has as many messages as it can keep. Telephone the other side.");
}
