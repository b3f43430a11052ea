using Fettle.Readiness;
using Fettle.Testing;
using Fettle.Web.Declarations;
using Fettle.Web.DockVisits;
using Marten;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Web.Tests.Declarations;

/// <summary>A new number that somebody has already, as happens once in some hundreds of times when there are a million.</summary>
public sealed class NumberTakenTests(SharedPortal shared)
{
    private static readonly Actor Tester = new(Guid.CreateVersion7(), "Test");

    [Fact]
    public async Task Who_meets_a_number_that_is_taken_gets_another()
    {
        var (taken, free) = (Draft.NewNumber(), Draft.NewNumber());
        await InsertAsync(taken);
        var given = new Queue<string>([taken, taken, free]);

        Assert.Equal(free, await NumberTaken.RetryAsync('P', InsertAsync, _ => given.Dequeue()));

        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Equal(1, await session.Query<Draft>().CountAsync(draft => draft.Number == free));
    }

    [Fact]
    public async Task After_five_the_failure_is_told()
    {
        var taken = Draft.NewNumber();
        await InsertAsync(taken);
        var tries = 0;

        await Assert.ThrowsAnyAsync<Exception>(() => NumberTaken.RetryAsync('P', InsertAsync, _ =>
        {
            tries++;
            return taken;
        }));
        Assert.Equal(5, tries);
    }

    [Fact]
    public async Task What_fails_for_another_reason_is_not_tried_again()
    {
        var tries = 0;
        await Assert.ThrowsAsync<InvalidOperationException>(() => NumberTaken.RetryAsync<string>('P', _ =>
        {
            tries++;
            throw new InvalidOperationException("Something else.");
        }));
        Assert.Equal(1, tries);
    }

    [Fact]
    public async Task Two_dock_visits_never_have_one_number()
    {
        var portal = await shared.PortalAsync();
        var desk = portal.Services.GetRequiredService<DockVisitDesk>();
        var (taken, free) = (Draft.NewNumber('V'), Draft.NewNumber('V'));
        await AskAsync(Guid.CreateVersion7(), taken);
        var (id, given) = (Guid.CreateVersion7(), new Queue<string>([taken, free]));

        Assert.Null((await NumberTaken.RetryAsync('V', number => AskAsync(id, number), _ => given.Dequeue())).Refusal);

        await using var session = portal.Store.QuerySession();
        Assert.Equal(free, (await session.LoadAsync<Fettle.Readiness.DockVisits.DockVisit>(id))!.Asked.Number);

        Task<Decision<Fettle.Readiness.DockVisits.DockVisitEvent>> AskAsync(Guid visit, string number)
        {
            var parties = portal.Parties;
            return desk.AskAsync(
                new(visit, number, parties.Shipper.Id, parties.Shipper.Sites[0].Id, parties.Carrier.Id, parties.Carrier.Terminals[0].Id, "Does it travel?", [], null, Tester, DateTimeOffset.UtcNow), CancellationToken.None);
        }
    }

    private async Task<string> InsertAsync(string number)
    {
        var portal = await shared.PortalAsync();
        await using var session = portal.Store.LightweightSession();
        session.Insert(new Draft
        {
            Id = Guid.CreateVersion7(),
            Number = number,
            // Nobody's: it is in no list.
            ShipperId = Guid.CreateVersion7(),
            SiteId = Guid.CreateVersion7(),
            Form = new(),
            ChangedBy = Tester,
            ChangedAt = DateTimeOffset.UtcNow,
        });
        await session.SaveChangesAsync();
        return number;
    }
}
