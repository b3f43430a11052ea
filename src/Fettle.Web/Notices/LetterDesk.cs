using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
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
        return notice.Kind switch
        {
            NoticeKind.PickupForTerminal => await AboutPickupAsync(notice, session, PickupLetter.ForTerminal, cancel),
            NoticeKind.PickupForShipper => await AboutPickupAsync(notice, session, PickupLetter.ForShipper, cancel),
            NoticeKind.HoldDecidedForShipper => await AboutDecisionAsync(notice, session, cancel),
        };
    }

    private async Task<Letter> AboutPickupAsync(Notice notice, IQuerySession session, Func<Pickup, PickupNames, Uri, int, Letter> write, CancellationToken cancel)
    {
        var pickup = await session.LoadAsync<Pickup>(notice.PickupId, cancel)
            ?? throw new InvalidOperationException($"There is a notice about pickup {notice.PickupId}, but no such pickup.");
        return write(pickup, await NamesAsync(session, pickup.Header, cancel), Link($"/pickups/{pickup.Id}"), 0);
    }

    private async Task<Letter> AboutDecisionAsync(Notice notice, IQuerySession session, CancellationToken cancel)
    {
        var hold = await session.LoadAsync<Hold>(notice.HoldId!.Value, cancel)
            ?? throw new InvalidOperationException($"There is a notice about hold {notice.HoldId}, but no such hold.");
        return HoldLetter.Decided(hold, await NamesAsync(session, hold.Placed.Pickup, cancel), Link($"/holds/{hold.Id}"));
    }

    private static async Task<PickupNames> NamesAsync(IQuerySession session, PickupHeader header, CancellationToken cancel)
    {
        var parties = await PickupParties.LoadAsync(session, header, cancel);
        return new(parties.Shipper.Name, parties.Site.Name, parties.Site.Address, parties.Carrier.Name, parties.Terminal.Name);
    }

    private Uri Link(string path) => new(new Uri(settings.PublicUrl), path);
}
