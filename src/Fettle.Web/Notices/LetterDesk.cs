using Fettle.Engineering.Units;
using Fettle.Readiness.Claims;
using Fettle.Readiness.DockVisits;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Catalogue;
using Fettle.Web.Claims;
using Fettle.Web.Holds;
using Fettle.Web.Notices.Letters;
using Fettle.Web.Parties;
using Marten;

namespace Fettle.Web.Notices;

/// <summary>
/// Writes the letter that a notice stands for, from what was recorded. Nothing is stored but the facts: the same notice
/// gives the same letter when it is sent, sent again, or read on a page.
/// </summary>
public sealed class LetterDesk(Settings settings)
{
    public async Task<Letter> WriteAsync(Notice notice, IQuerySession session, CancellationToken cancel)
    {
        (Language.Of(notice.Language) ?? Language.English).Speak();
        var letter = await OfKindAsync(notice, session, cancel);
        return notice.Evidence is { } file ? FileFoot.Under(letter, file) : letter;
    }

    private async Task<Letter> OfKindAsync(Notice notice, IQuerySession session, CancellationToken cancel) =>
        notice.Kind switch
        {
            NoticeKind.PickupForTerminal => await AboutPickupAsync(notice, session, PickupLetter.ForTerminal, cancel),
            NoticeKind.PickupForShipper => await AboutPickupAsync(notice, session, PickupLetter.ForShipper, cancel),
            NoticeKind.HoldDecidedForShipper => await AboutDecisionAsync(notice, session, cancel),
            NoticeKind.HoldPlacedForShipper => await AboutHoldAsync(notice, session, (hold, names, link, _) => HoldLetter.Placed(hold.Placed, names, link, HoldReader.Shipper), cancel),
            NoticeKind.HoldNewsForShipper or NoticeKind.HoldReminderForShipper => await AboutHoldAsync(notice, session, Said(HoldReader.Shipper), cancel),
            NoticeKind.HoldNewsForTerminal or NoticeKind.HoldReminderForTerminal or NoticeKind.HoldOverdueForTerminal => await AboutHoldAsync(notice, session, Said(HoldReader.Terminal), cancel),
            NoticeKind.HoldOverdueForAccounts => await AboutHoldAsync(notice, session, Said(HoldReader.Accounts), cancel),
            NoticeKind.BuildsNoLongerPass => await AboutBuildsAsync(notice, session, cancel),
            NoticeKind.OutcomeForShipper => await AboutOutcomeAsync(notice, session, OutcomeLetter.Recorded, cancel),
            NoticeKind.ConcealedDamageDeadline => await AboutOutcomeAsync(notice, session, OutcomeLetter.ReportSoon, cancel),
            NoticeKind.DigestForManager => DigestLetter.ForManager(notice.Digest!, Link("/accounts")),
            NoticeKind.DigestForShipper => DigestLetter.ForShipper(notice.Digest!, Link("/score")),
            NoticeKind.ClaimDeadline => await AboutOutcomeAsync(notice, session, OutcomeLetter.ClaimSoon, cancel),
            NoticeKind.DockVisitAsked or NoticeKind.DockVisitPlanned or NoticeKind.DockVisitCalledOff or NoticeKind.DockVisitConcluded => await AboutVisitAsync(notice, session, cancel),
            NoticeKind.ClaimForTerminal or NoticeKind.ClaimForShipper or NoticeKind.ClaimAcknowledgeDeadline or NoticeKind.ClaimAnswerDeadline or NoticeKind.SuitDeadline => await AboutClaimAsync(notice, session, cancel),
        };

    /// <summary>The visit as it stood then.</summary>
    private async Task<Letter> AboutVisitAsync(Notice notice, IQuerySession session, CancellationToken cancel)
    {
        var events = await session.Events.FetchStreamAsync(notice.VisitId!.Value, token: cancel);
        var visit = events.Take(notice.VisitRevision!.Value).Select(e => e.Data).OfType<DockVisitEvent>().Aggregate(default(DockVisit), DockVisit.Evolve)!;
        var asked = visit.Asked;
        var shipper = await session.LoadAsync<Shipper>(asked.ShipperId, cancel);
        var carrier = await session.LoadAsync<Carrier>(asked.CarrierId, cancel);
        var site = shipper!.Sites.Single(site => site.Id == asked.SiteId);
        var names = new PickupNames(shipper.Name, site.Name, site.Address, carrier!.Name, carrier.Terminals.Single(terminal => terminal.Id == asked.TerminalId).Name);
        return DockVisitLetter.Write(notice.Kind, visit, names, site.TimeZone, Link($"/dock-visits/{visit.Id}"));
    }

    /// <summary>Whether what it is about has been replaced: then it would only mislead.</summary>
    public static async Task<bool> IsOvertakenAsync(Notice notice, IQuerySession session, CancellationToken cancel)
    {
        if (notice is { OutcomeId: null, ClaimId: null })
            return false;
        var pickup = await session.LoadAsync<Pickup>(notice.PickupId, cancel);
        if (notice.ClaimId is { } claimId)
            return pickup?.ClaimOf(claimId) is not { } claim || ClaimNotices.IsOvertaken(notice.Kind, claim);
        // The moment as well: a record may come back under the id of one that had been replaced.
        return (pickup?.Outcome?.OutcomeId, pickup?.Outcome?.At) != (notice.OutcomeId, notice.CreatedAt)
            // Who has filed a claim need not be told until when one can be filed.
            || (notice.Kind == NoticeKind.ClaimDeadline && pickup!.Claims.Any(claim => claim.Withdrawn is null));
    }

    /// <summary>The claim as it stood then.</summary>
    private async Task<Letter> AboutClaimAsync(Notice notice, IQuerySession session, CancellationToken cancel)
    {
        var pickup = await session.LoadAsync<Pickup>(notice.PickupId, cancel);
        IReadOnlyList<Claim> claims = [];
        foreach (var happened in (await session.Events.FetchStreamAsync(notice.PickupId, token: cancel)).Select(e => e.Data).OfType<PickupEvent>())
        {
            claims = Claim.Evolve(claims, happened);
            if (claims.Any(claim => claim.Id == notice.ClaimId && claim.Revision == notice.ClaimRevision))
                break;
        }

        return ClaimLetter.Write(notice.Kind, pickup!, claims.Single(claim => claim.Id == notice.ClaimId), await NamesAsync(session, pickup!.Header, cancel), Link($"/pickups/{notice.PickupId}/claims/{notice.ClaimId}"));
    }

    private async Task<Letter> AboutOutcomeAsync(Notice notice, IQuerySession session, Func<Pickup, OutcomeRecorded, PickupNames, Uri, Letter> write, CancellationToken cancel)
    {
        // As it was recorded then: a mail is read again as it was sent.
        var recorded = (await session.Events.FetchStreamAsync(notice.PickupId, token: cancel)).Select(e => e.Data).OfType<OutcomeRecorded>().Last(outcome => outcome.OutcomeId == notice.OutcomeId && outcome.At <= notice.CreatedAt);
        var pickup = await session.LoadAsync<Pickup>(notice.PickupId, cancel);
        return write(pickup!, recorded, await NamesAsync(session, pickup!.Header, cancel), Link($"/pickups/{notice.PickupId}"));
    }

    private async Task<Letter> AboutPickupAsync(Notice notice, IQuerySession session, Func<Pickup, PickupNames, Uri, int, Letter> write, CancellationToken cancel)
    {
        var pickup = await session.LoadAsync<Pickup>(notice.PickupId, cancel)
            ?? throw new InvalidOperationException($"There is a notice about pickup {notice.PickupId}, but no such pickup.");
        return write(pickup, await NamesAsync(session, pickup.Header, cancel), Link($"/pickups/{pickup.Id}"), 0);
    }

    /// <summary>About the decision of then, whatever was decided since.</summary>
    private Task<Letter> AboutDecisionAsync(Notice notice, IQuerySession session, CancellationToken cancel) => AboutHoldAsync(
        notice,
        session,
        (hold, names, link, _) => HoldLetter.Decided(hold with { Decided = hold.Decisions.FirstOrDefault(decision => HoldNotices.StepOf(decision) == notice.StepId) ?? hold.Decided }, names, link),
        cancel);

    private async Task<Letter> AboutHoldAsync(Notice notice, IQuerySession session, Func<Hold, PickupNames, Uri, IReadOnlyList<HoldEvent>, Letter> write, CancellationToken cancel)
    {
        var hold = await session.LoadAsync<Hold>(notice.HoldId!.Value, cancel)
            ?? throw new InvalidOperationException($"There is a notice about hold {notice.HoldId}, but no such hold.");
        HoldEvent[] happened = [.. (await session.Events.FetchStreamAsync(hold.Id, token: cancel)).Select(e => e.Data).OfType<HoldEvent>().Where(e => HoldNotices.StepOf(e) == notice.StepId)];
        return write(hold, await NamesAsync(session, hold.Placed.Pickup, cancel), Link($"/holds/{hold.Id}"), happened);
    }

    private static Func<Hold, PickupNames, Uri, IReadOnlyList<HoldEvent>, Letter> Said(HoldReader reader) =>
        (hold, names, link, happened) => HoldNewsLetter.Of(hold.Placed, happened[0], names, link, reader);

    /// <summary>The builds that these rules stand against, by the names that they have now.</summary>
    private async Task<Letter> AboutBuildsAsync(Notice notice, IQuerySession session, CancellationToken cancel)
    {
        Guid? carrierId = notice.CarrierId == Guid.Empty ? null : notice.CarrierId;
        var shipper = await session.LoadAsync<Shipper>(notice.ShipperId, cancel) ?? throw new InvalidOperationException($"There is no shipper {notice.ShipperId}.");
        var carrier = carrierId is { } id ? await session.LoadAsync<Carrier>(id, cancel) : null;
        var entries = await session.Query<CatalogueEntry>()
            .Where(entry => entry.ShipperId == notice.ShipperId && entry.SiteId == notice.SiteId && entry.Kind == CatalogueKind.Build)
            .ToListAsync(cancel);
        var failing = entries
            .Select(entry => (entry.Name, Judged: entry.Build!.Judgements.FirstOrDefault(judgement => judgement.CarrierId == carrierId && judgement.RuleSet == notice.RuleSet && !judgement.Passes)))
            .Where(build => build.Judged is not null)
            .Select(build => (build.Name, build.Judged!))
            .OrderBy(build => build.Name, StringComparer.Ordinal)
            .ToArray();
        return CatalogueLetter.BuildsNoLongerPass(
            shipper.Name, shipper.Sites.FirstOrDefault(site => site.Id == notice.SiteId)?.Name ?? "", carrier?.Name, notice.RuleSet!, failing, UnitSystem.Imperial, Link("/catalogue"));
    }

    private static async Task<PickupNames> NamesAsync(IQuerySession session, PickupHeader header, CancellationToken cancel)
    {
        var parties = await PickupParties.LoadAsync(session, header, cancel);
        return new(parties.Shipper.Name, parties.Site.Name, parties.Site.Address, parties.Carrier.Name, parties.Terminal.Name);
    }

    private Uri Link(string path) => new(new Uri(settings.PublicUrl), path);
}
