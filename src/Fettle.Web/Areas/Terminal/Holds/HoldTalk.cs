using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Fettle.Web.Photos;
using Fettle.Web.Store;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Areas.Terminal.Holds;

/// <summary>What shipper and terminal say to each other about held freight.</summary>
public sealed partial class HoldsController
{
    /// <summary>With one dispute.</summary>
    private const int MostPhotos = 6;

    [HttpPost("{id:guid}/messages")]
    [Authorize(Roles = Policies.BothSides)]
    public async Task<IActionResult> Write(Guid id, Guid step, string? message, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await PageAsync(session, id, cancel) is not { Side: { } side } page)
            return NotFound();
        if (HoldText.MessageComplaint(message) is { } complaint)
            return Unfinished(With(page, "message", message, complaint));
        var command = new SendHoldMessage(Known(step, page), side, message!.Trim(), Caller.Actor, clock.GetUtcNow());
        return await DoAsync(page, state => Hold.Decide(state, command), page => With(page, "message", message), T("Your message was sent."), cancel);
    }

    [HttpPost("{id:guid}/offers")]
    [Authorize(Policies.TerminalReviewer)]
    public async Task<IActionResult> Offer(Guid id, Guid step, [Bind(Prefix = "")] OfferForm form, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await PageAsync(session, id, cancel) is not { MayDecide: true } page)
            return NotFound();
        var now = clock.GetUtcNow();
        var errors = form.Errors(page.Placed.Pickup.Window, now);
        if (errors.Count > 0)
            return Unfinished(page with { Offer = form, Errors = errors });
        var command = form.Command(Known(step, page), page.Placed.Pickup.Window, Caller.Actor, now);
        return await DoAsync(page, state => Hold.Decide(state, command), page => page with { Offer = form }, T("Your offer was sent."), cancel);
    }

    [HttpPost("{id:guid}/offers/{offer:guid}/withdrawal")]
    [Authorize(Policies.TerminalReviewer)]
    public async Task<IActionResult> Withdraw(Guid id, Guid offer, string? withdrawal, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await PageAsync(session, id, cancel) is not { MayDecide: true } page)
            return NotFound();
        if (HoldText.Complaint(withdrawal, DecisionForm.ShortestReason, HoldText.Longest, T("Say why, in a few words: the shipper reads it.")) is { } complaint)
            return Unfinished(With(page, "withdrawal", withdrawal, complaint));
        var command = new WithdrawReworkOffer(offer, withdrawal!.Trim(), Caller.Actor, clock.GetUtcNow());
        return await DoAsync(page, state => Hold.Decide(state, command), page => With(page, "withdrawal", withdrawal), T("Your offer was withdrawn."), cancel);
    }

    [HttpPost("{id:guid}/authorisation")]
    [Authorize(Policies.ShipperClerk)]
    public async Task<IActionResult> Authorise(Guid id, Guid step, Guid offer, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await PageAsync(session, id, cancel) is not { Side: HoldSide.Shipper } page)
            return NotFound();
        var command = new AuthoriseRework(Known(step, page), offer, Caller.Actor, clock.GetUtcNow());
        return await DoAsync(page, state => Hold.Decide(state, command), page => page, T("You authorised the rework. The terminal was told."), cancel);
    }

    [HttpPost("{id:guid}/exception-request")]
    [Authorize(Policies.ShipperClerk)]
    public async Task<IActionResult> RequestException(Guid id, Guid step, string? exception, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await PageAsync(session, id, cancel) is not { Side: HoldSide.Shipper } page)
            return NotFound();
        if (HoldText.ReasonComplaint(exception) is { } complaint)
            return Unfinished(With(page, "exception", exception, complaint));
        var command = new RequestException(Known(step, page), exception!.Trim(), Caller.Actor, clock.GetUtcNow());
        return await DoAsync(page, state => Hold.Decide(state, command), page => With(page, "exception", exception), T("You asked for an exception. The terminal was told."), cancel);
    }

    [HttpPost("{id:guid}/dispute")]
    [Authorize(Policies.ShipperClerk)]
    [RequestSizeLimit(MostPhotos * (long)PhotoReader.LargestUpload)]
    [RequestFormLimits(MultipartBodyLengthLimit = MostPhotos * (long)PhotoReader.LargestUpload)]
    public async Task<IActionResult> Dispute(Guid id, Guid step, string? dispute, IFormFileCollection? photos, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await PageAsync(session, id, cancel) is not { Side: HoldSide.Shipper } page)
            return NotFound();
        if (HoldText.ReasonComplaint(dispute) is { } complaint)
            return Unfinished(With(page, "dispute", dispute, complaint));
        var (read, broken) = await PhotoUpload.ReadAsync(photos, MostPhotos, cancel);
        if (broken is not null)
            return Unfinished(With(page, "dispute", dispute, broken));
        var (disputeId, now) = (Known(step, page), clock.GetUtcNow());
        var placed = page.Placed;
        // The dispute's id comes from the page, which may use it for another hold.
        var about = StableId.From("dispute", placed.HoldId, disputeId);
        (Photo Photo, ReadPhoto Read)[] kept = [.. read.Select(photo => (Photo.Of(photo, about, placed.PickupId, placed.Pickup, placed.HandlingUnit.Reference, Caller.Actor, now, now), photo)).DistinctBy(pair => pair.Item1.Id)];
        var command = new DisputeHold(disputeId, dispute!.Trim(), [.. kept.Select(pair => pair.Photo.Proof)], Caller.Actor, now);
        return await DoAsync(page, state => Hold.Decide(state, command), page => With(page, "dispute", dispute), T("You disputed the hold. The terminal was told."), cancel, Keep);

        void Keep(IDocumentSession saving, Hold hold)
        {
            foreach (var (photo, picture) in kept)
                saving.Keep(photo, picture.Picture, picture.Thumbnail);
        }
    }

    private async Task<IActionResult> DoAsync(HoldPage page, Func<Hold?, Decision<HoldEvent>> decide, Func<HoldPage, HoldPage> typed, string done, CancellationToken cancel, Action<IDocumentSession, Hold>? alongside = null)
    {
        var result = await desk.DecideAsync(page.Hold, decide, alongside, NoticeState.Due, cancel);
        if (result.Refusal is { } refusal)
            return await RefusedAsync(page.Hold.Id, refusal, typed, cancel);
        this.Say(done);
        return Redirect($"/holds/{page.Hold.Id}");
    }

    /// <summary>The page's own name for what is sent; a new one when none came.</summary>
    private static Guid Known(Guid step, HoldPage page) => step == Guid.Empty ? page.Step : step;

    private static HoldPage With(HoldPage page, string name, string? text, string? complaint = null) => page with
    {
        Typed = new Dictionary<string, string?> { [name] = text },
        Errors = complaint is null ? page.Errors : new Dictionary<string, string> { [name] = complaint },
    };
}
