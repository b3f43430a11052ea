using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.DockVisits;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Catalogue;
using Fettle.Web.Claims;
using Fettle.Web.Declarations;
using Fettle.Web.DockVisits;
using Fettle.Web.Holds;
using Fettle.Web.Inspections;
using Fettle.Web.Notices;
using Fettle.Web.Outcomes;
using Fettle.Web.Parties;
using Fettle.Web.Pickups;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Demo;

/// <summary>
/// Hands a year of pickups in and decides about what was held, by the same steps as people and with the times of then. Cut
/// off at any point, it goes on where it was: each pickup is one transaction under an id of its own.
/// </summary>
public sealed class HistoryLoader(Scenario scenario, IDocumentStore store, Submission submission, HoldDesk desk, OutcomeDesk outcomes, ClaimDesk claims, InspectionDesk inspections, DockVisitDesk visits, TimeProvider clock, ILogger<HistoryLoader> log)
{
    /// <summary>Any number that nobody else in this database locks.</summary>
    private const long LockKey = 0x46_65_74_74_6C_65_02;

    /// <summary>Enough to keep the database busy, and to leave room for whoever looks at the portal meanwhile.</summary>
    private const int AtOnce = 3;

    private static readonly TimeSpan BetweenReports = TimeSpan.FromSeconds(3);

    private readonly IReadOnlyList<Carrier> carriers = [.. scenario.Carriers.Select(carrier => carrier.Party())];

    /// <summary>Loads what is not there yet, one node after the other.</summary>
    public async Task RunAsync(CancellationToken cancel)
    {
        await using var alone = await NodeLock.TakeAsync(store, LockKey, cancel);
        var (load, done) = await StandingAsync(cancel);
        if (load is not { FinishedAt: null })
            return;
        var history = History.Of(scenario, load.StartedAt);
        foreach (var draft in history.Drafts)
            await BeginAsync(draft, cancel);
        await HandInAsync(history.Pickups, done, cancel);
        foreach (var shipper in scenario.Shippers.Where(shipper => shipper.KeepsCatalogue))
            await VisitAsync(shipper, load.StartedAt, cancel);
        await using var session = store.LightweightSession();
        session.Store(load with { FinishedAt = clock.GetUtcNow() });
        await session.SaveChangesAsync(cancel);
        log.LogInformation("Demo history: all {Count} pickups are there", history.Pickups.Count);
    }

    /// <summary>How far an earlier load came.</summary>
    private async Task<(DemoLoad? Load, HashSet<Guid> Done)> StandingAsync(CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var load = await session.LoadAsync<DemoLoad>(DemoLoad.OnlyId, cancel);
        var pickups = await session.Query<Pickup>().Where(pickup => pickup.Outcome != null).Select(pickup => pickup.Id).ToListAsync(cancel);
        var undecided = await session.Query<Hold>().Where(hold => hold.IsOpen).Select(hold => hold.Placed.PickupId).ToListAsync(cancel);
        // What nobody has said how it arrived may not have arrived yet, or the load was cut off before it said so.
        return (load, [.. pickups.Except(undecided)]);
    }

    private async Task HandInAsync(IReadOnlyList<PlannedPickup> pickups, HashSet<Guid> done, CancellationToken cancel)
    {
        var count = 0;
        var reported = clock.GetTimestamp();
        await Parallel.ForEachAsync(pickups, new ParallelOptions { MaxDegreeOfParallelism = AtOnce, CancellationToken = cancel }, async (planned, cancel) =>
        {
            if (!done.Contains(planned.Id))
                await HandInAsync(planned, cancel);
            if (planned.Fate == PickupFate.Decided)
                await ClaimAsync(planned, cancel);
            var now = Interlocked.Increment(ref count);
            var last = Interlocked.Read(ref reported);
            if (clock.GetElapsedTime(last) >= BetweenReports && Interlocked.CompareExchange(ref reported, clock.GetTimestamp(), last) == last)
                log.LogInformation("Demo history: {Count} of {All} pickups", now, pickups.Count);
        });
    }

    private async Task HandInAsync(PlannedPickup planned, CancellationToken cancel)
    {
        var shipper = planned.Shipper.Party();
        var reading = Reading.Of(planned.Form);
        var errors = reading.Errors.ToDictionary(StringComparer.Ordinal);
        var header = Heading.Of(planned.Form, planned.Number, shipper, [.. shipper.Sites.Select(site => site.Id)], carriers, errors);
        if (header is null || errors.Count > 0)
            throw new InvalidOperationException($"The demo's data of {shipper.Name} cannot be handed in: {string.Join("; ", errors.Select(error => $"{error.Key}: {error.Value}"))}");
        var parties = PickupParties.Of(shipper, carriers.Single(carrier => carrier.Id == header.CarrierId), header);
        var draft = new Draft
        {
            Id = planned.Id,
            Number = planned.Number,
            ShipperId = header.ShipperId,
            SiteId = header.SiteId,
            Form = planned.Form,
            ChangedBy = planned.Clerk.Actor,
            ChangedAt = planned.SubmittedAt,
        };
        if (planned.Fate == PickupFate.New)
            await submission.SubmitAsync(draft, header, reading.Readable!, planned.ExceptionRequest, planned.Clerk.Actor, planned.SubmittedAt, null, cancel);
        else
            await submission.RecordAsync(draft, header, reading.Readable!, planned.ExceptionRequest, planned.Clerk.Actor, planned.SubmittedAt, AndFollowUp, cancel);
        // Refused is what an earlier load has handed in already; what it left undecided is decided here.
        if (planned.Fate == PickupFate.Decided && planned.ExceptionRequest is not null)
            await DecideAsync(planned, cancel);
        if (planned.Fate == PickupFate.Decided)
            await DeliverAsync(planned, cancel);

        void AndFollowUp(IDocumentSession session, Pickup pickup)
        {
            session.Insert(new FollowUp { Id = pickup.Id, DueAt = planned.SubmittedAt, DoneAt = planned.SubmittedAt });
            FollowUpJob.Write(session, pickup, parties, RuleSet.BuiltIn.Hold, planned.SubmittedAt, NoticeState.NotSent);
        }
    }

    private async Task DecideAsync(PlannedPickup planned, CancellationToken cancel)
    {
        Pickup pickup;
        IReadOnlyList<Hold> holds;
        await using (var session = store.QuerySession())
        {
            pickup = (await session.LoadAsync<Pickup>(planned.Id, cancel))!;
            holds = await session.Query<Hold>().Where(hold => hold.Placed.PickupId == planned.Id).ToListAsync(cancel);
        }

        foreach (var hold in holds)
        {
            var dice = new Dice("decision", hold.Placed.Number);
            var reviewer = dice.One(scenario.ReviewersAt(hold.Placed.Pickup.TerminalId));
            var choice = dice.OneByWeight(ChoicesFor(hold), choice => choice.Weight);
            var at = planned.SubmittedAt.AddMinutes(dice.Between(History.ShortestReview, History.LongestReview));
            var command = new DecideHold(
                StableId.From("demo", "decision", hold.Id),
                choice.Decision,
                choice.Reason,
                reviewer.Actor,
                at,
                null,
                choice.Decision == HoldDecision.ReleaseAsException ? Terms(hold) : null);
            // Where an earlier load got so far it is refused, and goes on below.
            await desk.DecideAsync(hold, state => Hold.Decide(state, command), null, NoticeState.NotSent, cancel);
            if (choice.Decision == HoldDecision.Rework)
                await ReworkAsync(pickup, hold, command, dice, cancel);
        }
    }

    /// <summary>Freight is rebuilt, looked at again and released, all in a few hours.</summary>
    private async Task ReworkAsync(Pickup pickup, Hold hold, DecideHold rework, Dice dice, CancellationToken cancel)
    {
        var seen = rework.At.AddMinutes(dice.Between(40, 200));
        if (seen > clock.GetUtcNow())
            return;
        var read = new ReadInspection(
            StableId.From("demo", "inspection", hold.Id), hold.Placed.HandlingUnit.Reference, null, null, new(), [], StackTest.NotTried, hold.Placed.HandlingUnit.Quantity, "Rebuilt; looked at on all four sides.", seen);
        await inspections.RecordAsync(pickup, read, [], rework.By, seen, null, cancel);
        var release = new DecideHold(StableId.From("demo", "release", hold.Id), HoldDecision.Release, "Rebuilt here, and found in order.", rework.By, seen.AddMinutes(5), rework.DecisionId);
        await desk.DecideAsync(hold, state => Hold.Decide(state, release), null, NoticeState.NotSent, cancel);
    }

    /// <summary>A terminal tries now and then whether freight carries what its shipper says, and finds what the numbers say, nearly always.</summary>
    private async Task InspectAsync(Pickup pickup, HandlingUnit unit, UnitJudgement judged, CancellationToken cancel)
    {
        var dice = new Dice("inspected", pickup.Header.Number, unit.Reference);
        var at = pickup.Header.Window.To.AddMinutes(dice.Between(40, 180));
        if (dice.Share() >= (unit.Stackable ? TriedOfStackable : LookedAtOfOthers) || at > clock.GetUtcNow())
            return;
        var asComputed = dice.Share() < AsComputed;
        var test = !unit.Stackable ? StackTest.NotTried : judged.CarriesLikeUnit == asComputed ? StackTest.Held : StackTest.Failed;
        var read = new ReadInspection(
            StableId.From("demo", "inspection", pickup.Id, unit.Reference),
            unit.Reference,
            null,
            null,
            new() { Height = unit.Outer.Height, GrossWeight = unit.GrossWeight },
            [],
            test,
            Math.Min(unit.Quantity, dice.Between(1, 3)),
            null,
            at);
        var (_, refusal) = await inspections.RecordAsync(pickup, read, [], dice.One(scenario.ReviewersAt(pickup.Header.TerminalId)).Actor, at, null, cancel);
        if (refusal is not null)
            throw new InvalidOperationException($"The demo's inspection of {pickup.Header.Number}: {refusal.Message}");
    }

    /// <summary>One visit that has been made, about the shipper's first build, and one that is still to be planned.</summary>
    private async Task VisitAsync(DemoShipper shipper, DateTimeOffset now, CancellationToken cancel)
    {
        IReadOnlyList<CatalogueEntry> builds;
        await using (var session = store.QuerySession())
            builds = [.. (await session.Query<CatalogueEntry>().Where(entry => entry.ShipperId == shipper.Id && entry.Kind == CatalogueKind.Build).ToListAsync(cancel)).OrderBy(entry => entry.Name, StringComparer.Ordinal)];
        if (builds.Count == 0)
            return;
        var lane = shipper.Lanes[0];
        var (carrier, terminal) = scenario.TerminalOf(lane);
        var (clerk, reviewer) = (scenario.ClerkAt(shipper, lane.From).Actor, scenario.ReviewersAt(carrier.TerminalId(terminal.Name))[0].Actor);
        await AskAsync("made", builds[0], "Does this build travel two high to the end of the lane?", now.AddDays(-40));
        var id = StableId.From("demo", "visit", shipper.Name, "made");
        if (await VisitOfAsync(id) is { State: DockVisitState.Asked } asked)
            await visits.PlanAsync(asked, new(asked.Revision, now.AddDays(-37), now.AddDays(-37).AddHours(1), reviewer.Name, null, reviewer, now.AddDays(-39)), cancel, NoticeState.NotSent);
        if (await VisitOfAsync(id) is { State: DockVisitState.Planned } planned)
        {
            await visits.ConcludeAsync(
                planned,
                new(planned.Revision, "Seen, weighed and shaken on the dock: columns straight, film over the pallet, boards down to the wood. It travels two high as it is built now; a sixth layer would not.", [new(builds[0].Id, builds[0].Name, true, "Straight columns, flat top, film over the pallet.")], [], reviewer, now.AddDays(-37).AddHours(2)),
                [],
                cancel,
                NoticeState.NotSent);
        }

        if (builds.Count > 1)
            await AskAsync("wanted", builds[1], "We have new cartons for this one. Can somebody look at the first pallets before we send a trailer of them?", now.AddHours(-5));

        Task AskAsync(string kind, CatalogueEntry build, string question, DateTimeOffset at) => visits.AskAsync(
            new(
                StableId.From("demo", "visit", shipper.Name, kind),
                "V" + History.NumberOf(["visit", shipper.Name, kind])[1..],
                shipper.Id,
                shipper.SiteId(lane.From),
                carrier.Id,
                carrier.TerminalId(terminal.Name),
                question,
                [new(build.Id, build.Name, build.Build!.Unit)],
                "Mornings, before ten",
                clerk,
                at),
            cancel,
            NoticeState.NotSent);

        async Task<DockVisit?> VisitOfAsync(Guid visit)
        {
            await using var session = store.QuerySession();
            return await session.LoadAsync<DockVisit>(visit, cancel);
        }
    }

    /// <summary>Share of sound lines declared stackable that a terminal tries out, …</summary>
    private const double TriedOfStackable = 0.25;

    /// <summary>… of the others that it looks at, …</summary>
    private const double LookedAtOfOthers = 0.04;

    /// <summary>… and of trials that end as the numbers say.</summary>
    private const double AsComputed = 0.97;

    /// <summary>How it arrived, once it has had the time.</summary>
    private async Task DeliverAsync(PlannedPickup planned, CancellationToken cancel)
    {
        Pickup pickup;
        Dictionary<string, HoldDecision> decided;
        await using (var session = store.QuerySession())
        {
            pickup = (await session.LoadAsync<Pickup>(planned.Id, cancel))!;
            decided = planned.ExceptionRequest is null
                ? []
                : (await session.Query<Hold>().Where(hold => hold.Placed.PickupId == planned.Id && !hold.IsOpen).ToListAsync(cancel)).ToDictionary(hold => hold.Placed.HandlingUnit.Reference, hold => hold.Decided!.Decision);
        }

        foreach (var line in pickup.Declaration.HandlingUnits.Zip(pickup.Units).Where(line => line.Second.Verdict != Verdict.Hold))
            await InspectAsync(pickup, line.First, line.Second, cancel);
        var delivery = Delivery.Of(pickup, decided);
        if (delivery.RecordedAt > clock.GetUtcNow())
            return;
        var by = new Dice("told", planned.Number).One(scenario.ReviewersAt(pickup.Header.TerminalId)).Actor;
        var command = new RecordOutcome(StableId.From("demo", "outcome", planned.Id), delivery.On, delivery.Units, new(), [], null, null, by, delivery.RecordedAt);
        var recorded = await outcomes.RecordAsync(pickup, command, NoticeState.NotSent, null, cancel);
        if (recorded.Refusal is { } refusal and not OutcomeStands)
            throw new InvalidOperationException($"The demo's outcome of {planned.Number}: {refusal.Message}");
    }

    /// <summary>What came to harm is mostly claimed, and in time answered. Where an earlier load got so far nothing is done twice.</summary>
    private async Task ClaimAsync(PlannedPickup planned, CancellationToken cancel)
    {
        if (await LoadAsync() is not { Outcome: { IsClean: false } outcome } pickup || DemoClaim.Of(pickup, outcome) is not { } planning)
            return;
        var now = clock.GetUtcNow();
        if (planning.FiledAt > now)
            return;
        var claimId = StableId.From("demo", "claim", planned.Id);
        var by = new Dice("told", planned.Number).One(scenario.ReviewersAt(pickup.Header.TerminalId)).Actor;
        Expect(await claims.FileAsync(
            pickup,
            new(claimId, "C" + History.NumberOf(["claim", planned.Number])[1..], outcome.OutcomeId, default, planning.Lines, planning.Grounds, new(), planned.Clerk.Actor, planning.FiledAt),
            null,
            cancel,
            NoticeState.NotSent));
        foreach (var (number, step) in planning.Steps.Where(step => step.At <= now).Index())
        {
            if ((await LoadAsync())!.ClaimOf(claimId) is not { } claim)
                return;
            var answerId = StableId.From("demo", "claim answered", planned.Id, number);
            // One step more than was filed: whatever an earlier load did is not done again.
            if (claim.Revision > number + 1)
                continue;
            Expect(step.Answer is { } answer
                ? await claims.AnswerAsync(pickup, new(claimId, claim.Revision, answerId, answer, DateOnly.FromDateTime(step.At.UtcDateTime), step.Sum, step.Reason, new(), by, step.At), null, cancel, NoticeState.NotSent)
                : await claims.AcceptAsync(pickup, new(claimId, claim.Revision, planned.Clerk.Actor, step.At), null, cancel, NoticeState.NotSent));
        }

        void Expect(Decision<PickupEvent> decision)
        {
            if (decision.Refusal is { } refusal)
                throw new InvalidOperationException($"The demo's claim for {planned.Number}: {refusal.Message}");
        }

        async Task<Pickup?> LoadAsync()
        {
            await using var session = store.QuerySession();
            return await session.LoadAsync<Pickup>(planned.Id, cancel);
        }
    }

    /// <summary>The decisions that fit what stopped it first, or else those that fit anything.</summary>
    private DemoDecision[] ChoicesFor(Hold hold)
    {
        var stops = hold.Placed.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Code);
        return stops
            .Select(stop => scenario.Decisions.Where(decision => decision.Stop == stop).ToArray())
            .Append([.. scenario.Decisions.Where(decision => decision.Stop is null)])
            .First(choices => choices.Length > 0);
    }

    private ExceptionTerms Terms(Hold hold) => new(
        "",
        carriers.Single(carrier => carrier.Id == hold.Placed.Pickup.CarrierId).Name,
        "Damage that follows from what stopped it.",
        hold.Placed.Pickup.Window.To.AddDays(7),
        "Nothing on top, and shown to the next terminal.");

    private async Task BeginAsync(PlannedDraft planned, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<Draft>(planned.Id, cancel) is not null)
            return;
        session.Insert(new Draft
        {
            Id = planned.Id,
            Number = planned.Number,
            ShipperId = planned.Shipper.Id,
            SiteId = Guid.Parse(planned.Form.Site!),
            Form = planned.Form,
            ChangedBy = planned.Clerk.Actor,
            ChangedAt = planned.ChangedAt,
        });
        await session.SaveChangesAsync(cancel);
    }
}
