using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Holds;

/// <summary>The terminal would put it right at a cost.</summary>
/// <param name="Work">What would be done, in the terminal's words.</param>
/// <param name="Replaces">The offer that stood until then.</param>
public sealed record ReworkOffered(Guid HoldId, Guid OfferId, string Work, Money Cost, DateTimeOffset ValidUntil, Guid? Replaces, Actor By, DateTimeOffset At) : HoldEvent;

public sealed record ReworkOfferWithdrawn(Guid HoldId, Guid OfferId, string Reason, Actor By, DateTimeOffset At) : HoldEvent;

/// <summary>The shipper pays for it.</summary>
/// <param name="Cost">That of the offer, written again so that it stands beside the name of whoever agreed to it.</param>
public sealed record ReworkAuthorised(Guid HoldId, Guid AuthorisationId, Guid OfferId, Money Cost, Actor By, DateTimeOffset At) : HoldEvent;

public sealed record OfferRework(Guid OfferId, string Work, Money Cost, DateTimeOffset ValidUntil, Actor By, DateTimeOffset At);

public sealed record WithdrawReworkOffer(Guid OfferId, string Reason, Actor By, DateTimeOffset At);

/// <param name="OfferId">The offer that the shipper read.</param>
public sealed record AuthoriseRework(Guid AuthorisationId, Guid OfferId, Actor By, DateTimeOffset At);

public sealed partial record Hold
{
    /// <summary>The offer that nobody has answered, withdrawn or replaced; it may have run out.</summary>
    public ReworkOffered? StandingOffer() =>
        Offers.Count > 0 && Offers[^1] is var last && Withdrawn.All(withdrawn => withdrawn.OfferId != last.OfferId) && Authorised?.OfferId != last.OfferId ? last : null;

    public static Decision<HoldEvent> Decide(Hold? state, OfferRework command)
    {
        if (OnlyWhileOpen(state) is { } closed)
            return Decision<HoldEvent>.Refuse(closed);
        if (state!.Offers.Any(offer => offer.OfferId == command.OfferId))
            return Decision<HoldEvent>.Accept();
        if (state.Offers.Count >= MostOffers)
            return Decision<HoldEvent>.Refuse(new TooManyOffers());
        return Decision<HoldEvent>.Accept(new ReworkOffered(state.Id, command.OfferId, command.Work, command.Cost, command.ValidUntil, state.StandingOffer()?.OfferId, command.By, command.At));
    }

    public static Decision<HoldEvent> Decide(Hold? state, WithdrawReworkOffer command)
    {
        if (state is null)
            return Decision<HoldEvent>.Refuse(new NoSuchHold());
        if (state.Withdrawn.Any(withdrawn => withdrawn.OfferId == command.OfferId))
            return Decision<HoldEvent>.Accept();
        if (WhyNotStanding(state, command.OfferId, null) is { } refusal)
            return Decision<HoldEvent>.Refuse(refusal);
        return Decision<HoldEvent>.Accept(new ReworkOfferWithdrawn(state.Id, command.OfferId, command.Reason, command.By, command.At));
    }

    public static Decision<HoldEvent> Decide(Hold? state, AuthoriseRework command)
    {
        if (state?.Authorised?.AuthorisationId == command.AuthorisationId)
            return Decision<HoldEvent>.Accept();
        if (OnlyWhileOpen(state) is { } closed)
            return Decision<HoldEvent>.Refuse(closed);
        if (WhyNotStanding(state!, command.OfferId, command.At) is { } refusal)
            return Decision<HoldEvent>.Refuse(refusal);
        return Decision<HoldEvent>.Accept(new ReworkAuthorised(state!.Id, command.AuthorisationId, command.OfferId, state.StandingOffer()!.Cost, command.By, command.At));
    }

    private static Refusal? WhyNotStanding(Hold state, Guid offerId, DateTimeOffset? at)
    {
        if (state.Offers.All(offer => offer.OfferId != offerId))
            return new NoSuchOffer();
        if (state.Authorised is { } authorised && authorised.OfferId == offerId)
            return new OfferAuthorised(authorised.By);
        if (state.Withdrawn.FirstOrDefault(withdrawn => withdrawn.OfferId == offerId) is { } gone)
            return new OfferWithdrawn(gone.By, gone.Reason);
        if (state.Offers[^1] is var last && last.OfferId != offerId)
            return new OfferReplaced(last.By, last.Cost);
        return at > last.ValidUntil ? new OfferRanOut() : null;
    }
}

public sealed record NoSuchOffer : Refusal
{
    public override string Code => "no-such-offer";

    public override Phrase Message => Phrase.Of($"There is no such offer of rework.");
}

public sealed record OfferAuthorised(Actor By) : Refusal
{
    public override string Code => "offer-authorised";

    public override Phrase Message => Phrase.Of($"{By.Name} has already authorised this rework.");
}

public sealed record OfferWithdrawn(Actor By, string Reason) : Refusal
{
    public override string Code => "offer-withdrawn";

    public override Phrase Message => Phrase.Of($"{By.Name} has withdrawn this offer meanwhile: {Reason}");
}

/// <param name="Now">What the offer that stands costs.</param>
public sealed record OfferReplaced(Actor By, Money Now) : Refusal
{
    public override string Code => "offer-replaced";

    public override Phrase Message => Phrase.Of($"{By.Name} has made another offer meanwhile, at {Now.ToString()}. Read that one, then answer it.");
}

public sealed record OfferRanOut : Refusal
{
    public override string Code => "offer-ran-out";

    public override Phrase Message => Phrase.Of($"The time of this offer has run out. Ask the terminal to make it again.");
}

public sealed record TooManyOffers : Refusal
{
    public override string Code => "too-many-offers";

    public override Phrase Message => Phrase.Of($"This hold has as many offers as it can keep. Decide it.");
}
