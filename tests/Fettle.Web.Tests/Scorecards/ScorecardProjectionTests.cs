using System.Globalization;
using System.Text;
using System.Text.Json;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Scorecards;
using Fettle.Testing;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Negotiations;
using Fettle.Web.Scorecards;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using JasperFx;
using Marten;
using Npgsql;

namespace Fettle.Web.Tests.Scorecards;

/// <summary>Lines and cells kept from event to event are those that all events give at once.</summary>
public sealed class ScorecardProjectionTests(ScorecardProjectionTests.Year year) : IClassFixture<ScorecardProjectionTests.Year>
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Cells_are_those_that_counting_all_lines_at_once_gives()
    {
        var expected = CellSheet.Of(Lines).Cells.Select(cell => $"{cell.Key} {cell.Value}").Order(StringComparer.Ordinal).ToArray();
        Assert.NotEmpty(expected);

        Assert.Equal(expected, await CellsAsync(year.Database));
    }

    [Fact]
    public async Task Rebuilt_from_the_events_everything_is_the_same_byte_for_byte()
    {
        var before = await CanonicalAsync(year.Database);
        Assert.True(before.Length > 10_000);
        Assert.True(await ScorecardRebuild.RunAsync(year.Store, Cancel) >= year.Told.Sum(told => told.Events));
        Assert.Equal(before, await CanonicalAsync(year.Database));

        // And once more, over what a rebuild has written.
        await ScorecardRebuild.RunAsync(year.Store, Cancel);
        Assert.Equal(before, await CanonicalAsync(year.Database));
    }

    [Fact]
    public async Task Every_figure_adds_up_to_the_lines_behind_it()
    {
        foreach (var shipper in year.Shippers.Take(2))
        {
            var scope = new Scope(year.Carriers[0], [shipper], null, Period.Last(12, Year.Today));
            var evidence = AccountEvidence.Of(scope.Period, await year.Store.CellsAsync(scope, Cancel), AccountBook.None);
            Assert.True(evidence.Tally[Tallied.Lines] > 20);
            foreach (var what in Tally.All)
                await AssertAsync(scope, evidence.Tally[what], new(what));
            foreach (var site in evidence.Sites)
                await AssertAsync(scope, site.Tally[Tallied.Held], new(Tallied.Held, Site: site.Group));
            foreach (var builder in evidence.Builders)
                await AssertAsync(scope, builder.Tally[Tallied.Lines], new(Tallied.Lines, Builder: builder.Group));
            foreach (var row in evidence.Freight)
                await AssertAsync(scope, row.Tally[Tallied.Carries], new(Tallied.Carries, Freight: CellKeys.Freight(row.Lane, row.Product)));
            foreach (var finding in evidence.Findings)
            {
                await AssertAsync(scope, finding.Tally[Tallied.TravelledDamaged], new(Tallied.TravelledDamaged, Finding: finding.Code));
                await AssertAsync(scope, finding.Stopped, new(Tallied.Held, Stop: finding.Code));
            }

            foreach (var months in (int[])[3, 12])
            {
                // Three months begin and end within weeks: the days beyond are neither counted nor listed.
                var span = scope with { Period = Period.Last(months, Year.Today) };
                var (lines, weeks) = ((await year.Store.AccountsAsync(span, Cancel))[shipper][Tallied.Lines], AccountEvidence.Of(span.Period, await year.Store.CellsAsync(span, Cancel), AccountBook.None).Weeks);
                Assert.Equal(lines, weeks.Sum(week => week.Tally[Tallied.Lines]));
                foreach (var week in weeks.Take(3).Concat(weeks.TakeLast(3)))
                    await AssertAsync(span, week.Tally[Tallied.Ready], new(Tallied.Ready, Week: week.Monday));
            }
        }
    }

    [Fact]
    public async Task Pages_of_a_list_have_every_line_once()
    {
        var scope = new Scope(year.Carriers[0], year.Shippers, null, Period.Last(24, Year.Today));
        var first = await LineList.OfAsync(year.Store, scope, new(Tallied.Lines), 1, Cancel);
        Assert.True(first.Pages > 2);
        var seen = new List<Guid>();
        for (var page = 1; page <= first.Pages; page++)
            seen.AddRange((await LineList.OfAsync(year.Store, scope, new(Tallied.Lines), page, Cancel)).Lines.Select(line => line.Id));
        Assert.Equal(first.Count, seen.Count);
        Assert.Equal(seen.Count, seen.Distinct().Count());
        Assert.Equal(first.Pages, (await LineList.OfAsync(year.Store, scope, new(Tallied.Lines), 100_000, Cancel)).Page);
        Assert.Equal(1, (await LineList.OfAsync(year.Store, scope, new(Tallied.Lines), -4, Cancel)).Page);
    }

    [Fact]
    public async Task A_scope_is_kept_to()
    {
        var period = Period.Last(12, Year.Today);
        var all = (await year.Store.AccountsAsync(new(null, year.Shippers, null, period), Cancel))[year.Shippers[0]][Tallied.Lines];
        var one = (await year.Store.AccountsAsync(new(year.Carriers[0], [year.Shippers[0]], null, period), Cancel))[year.Shippers[0]][Tallied.Lines];
        var other = (await year.Store.AccountsAsync(new(year.Carriers[1], [year.Shippers[0]], null, period), Cancel))[year.Shippers[0]][Tallied.Lines];
        Assert.Equal(all, one + other);
        Assert.InRange(one, 1, all - 1);

        // Shipper 1 has two sites; nobody's site is nobody's freight.
        var sites = new List<long>();
        foreach (var number in (int[])[0, 1])
            sites.Add(Sum(await year.Store.AccountsAsync(new(null, [year.Shippers[1]], [AccountHistory.SiteOf(year.Shippers[1], number)], period), Cancel)));
        Assert.All(sites, lines => Assert.True(lines > 0));
        Assert.Equal(Sum(await year.Store.AccountsAsync(new(null, [year.Shippers[1]], null, period), Cancel)), sites.Sum());
        Assert.Empty(await year.Store.AccountsAsync(new(null, [year.Shippers[1]], [Guid.Empty], period), Cancel));

        static long Sum(IReadOnlyDictionary<Guid, Tally> accounts) => accounts.Values.Sum(tally => tally[Tallied.Lines]);
    }

    [Fact]
    public async Task Freight_on_some_lanes_adds_up_to_the_cells_of_those_lanes()
    {
        var scope = new Scope(year.Carriers[0], year.Shippers, null, Period.Last(12, Year.Today));
        var freight = Counted(scope, Facet.Freight).Select(cell => (Shipper: cell.Key.ShipperId, CellKeys.ReadFreight(cell.Key.Key).Lane, Tally: cell.Value)).ToArray();
        var destinations = await year.Store.DestinationsAsync(scope, Cancel);
        Assert.Equal(freight.Select(cell => cell.Lane.Destination).Distinct().Order(StringComparer.Ordinal), destinations.Order(StringComparer.Ordinal));

        var (terminal, destination) = (freight[0].Lane.TerminalId, freight[^1].Lane.Destination);
        foreach (var (terminals, ends) in new (Guid[], string[])[] { ([terminal], []), ([], [destination]), ([terminal], [destination]), ([], []) })
        {
            var months = await year.Store.OnLanesAsync(scope, terminals, ends, Cancel);
            foreach (var shipper in year.Shippers)
            {
                var own = freight.Where(cell => cell.Shipper == shipper && (terminals.Contains(cell.Lane.TerminalId) || ends.Contains(cell.Lane.Destination))).ToArray();
                Assert.Equal(Tally.Sum(own.Select(cell => cell.Tally)), Tally.Sum(months[shipper].Select(month => month.Tally)));
                Assert.Equal(months[shipper].Select(month => month.Month).Distinct().Order(), months[shipper].Select(month => month.Month));
            }
        }
    }

    [Fact]
    public async Task Of_an_account_as_many_counts_are_read_as_anything_is_told_of()
    {
        foreach (var shipper in year.Shippers)
        {
            var scope = new Scope(year.Carriers[0], [shipper], null, Period.Last(12, Year.Today));
            var all = Counted(scope, Enum.GetValues<Facet>()).Select(cell => new AccountCell(cell.Key.SiteId, cell.Key.Facet, cell.Key.Since, cell.Key.Key, cell.Value)).ToArray();
            var read = await year.Store.CellsAsync(scope, Cancel);
            Assert.Contains(all, cell => cell.Facet == Facet.Freight && cell.Tally[Tallied.Delivered] > 0);
            Assert.DoesNotContain(read, cell => cell.Facet == Facet.Freight && cell.Tally[Tallied.Delivered] > 0);
            Assert.Equal(Told(all), Told(read));
            Assert.All(
                all.Where(cell => cell.Facet == Facet.Freight).Select(cell => CellKeys.ReadFreight(cell.Key).Lane).Distinct(),
                lane => Assert.Equal(Sheet(all, lane), Sheet(read, lane)));

            string Told(IReadOnlyCollection<AccountCell> cells) =>
                JsonSerializer.Serialize(AccountAnswer.Of(new(new() { Id = shipper, Name = "", Email = "", Sites = [] }, AccountEvidence.Of(scope.Period, cells, AccountBook.None), new(new Dictionary<Guid, string>()))));

            SheetEvidence Sheet(IReadOnlyCollection<AccountCell> cells, Lane lane) => SheetEvidence.Of(AccountEvidence.Of(scope.Period, cells, AccountBook.None), lane);
        }
    }

    [Fact]
    public async Task Hours_and_dollars_behind_a_figure_add_up_to_what_the_page_says_of_them()
    {
        var scope = new Scope(year.Carriers[0], year.Shippers, null, Period.Last(24, Year.Today));
        var tally = Tally.Sum((await year.Store.AccountsAsync(scope, Cancel)).Values);
        foreach (var (what, words, least) in new[] { (Tallied.HeldMinutes, $"Together they were held for {tally.Hours()} hours.", .05), (Tallied.ClaimedCents, $"Together: {ScoreWords.Dollars(tally[Tallied.ClaimedCents])}.", .5) })
        {
            var list = await LineList.OfAsync(year.Store, scope, new(what), 1, Cancel);
            var shown = new List<double>();
            for (var page = 1; page <= list.Pages; page++)
                shown.AddRange((await LineList.OfAsync(year.Store, scope, new(what), page, Cancel)).Lines.Select(line => double.Parse(what.Part(line.Line)!.Value.Value, NumberStyles.Currency, CultureInfo.GetCultureInfo("en-US"))));

            Assert.True(list.Count > 3, $"{list.Count} lines of {what}");
            Assert.Equal(words, what.Total(list));
            // Each is rounded where it is shown.
            Assert.InRange(shown.Sum() - (tally[what] / (what == Tallied.HeldMinutes ? 60d : 100)), -least * list.Count, least * list.Count);
        }

        Assert.Null(Tallied.Held.Part((await LineList.OfAsync(year.Store, scope, new(Tallied.Held), 1, Cancel)).Lines[0].Line));
    }

    [Fact]
    public async Task Over_time_an_account_has_as_many_lines_by_week_and_by_month()
    {
        // Ten years, so that no week reaches over an end.
        var scope = new Scope(year.Carriers[0], year.Shippers, null, Period.Last(120, Year.Today));
        foreach (var facet in (Facet[])[Facet.Week, Facet.All])
        {
            var run = await year.Store.RunAsync(scope, facet, Cancel);
            foreach (var shipper in year.Shippers)
            {
                var cells = Counted(scope with { ShipperIds = [shipper] }, facet).GroupBy(cell => facet == Facet.Week ? Weeks.Of(cell.Key.Since) : cell.Key.Since, cell => cell.Value).OrderBy(span => span.Key);
                Assert.Equal(cells.Select(span => (span.Key, span.Sum(tally => tally[Tallied.Lines]), span.Sum(tally => tally[Tallied.Ready]))), run[shipper]);
            }
        }
    }

    [Fact]
    public async Task Cells_of_several_accounts_are_those_of_each()
    {
        var scope = new Scope(year.Carriers[0], year.Shippers, null, Period.Last(12, Year.Today));
        var together = await year.Store.CellsAsync(scope, AccountFigures.Facets, Cancel);
        foreach (var shipper in year.Shippers)
        {
            var alone = await year.Store.CellsAsync(scope with { ShipperIds = [shipper] }, Cancel);
            Assert.Equal(Told(alone.Where(cell => AccountFigures.Facets.Contains(cell.Facet))), Told(together[shipper]));
            // Sites are told apart where figures are told by site, and added up elsewhere.
            Assert.All(alone, cell => Assert.Equal(cell.Facet == Facet.Stops, cell.SiteId != Guid.Empty));
        }

        static IEnumerable<string> Told(IEnumerable<AccountCell> cells) => cells.Select(cell => $"{cell}").Order(StringComparer.Ordinal);
    }

    [Fact]
    public async Task Findings_that_break_things_are_told_from_those_that_do_not()
    {
        var effects = await year.Store.RuleEffectsAsync(new(null, year.Shippers, null, Period.Last(24, Year.Today)), Cancel);
        Assert.Equal(Effect.Predicts, effects.Effects.Single(effect => effect.Code == "overhang").Effect);
        Assert.True(effects.Damaged.Part >= effects.Effects.Max(effect => effect.With.Part));
    }

    [Fact]
    public async Task Facts_about_one_line_that_come_at_once_are_both_counted()
    {
        var told = new AccountHistory(77, [Guid.CreateVersion7()], [Guid.CreateVersion7()], Year.Until).Pickups(4000).First(told => told is { Holds: [{ Decided: not null }, ..], Outcome: not null });
        var decided = told.Holds[0].Decided!;
        await AccountHistory.AppendAsync(year.Store, [told with { Outcome = null, Holds = [.. told.Holds.Select(hold => (hold.Placed, default(HoldDecided)))] }], Cancel);

        // Each is decided as the portal decides: when another was quicker, again.
        await Task.WhenAll(
            year.Store.DecideAsync<Hold, HoldEvent>(decided.HoldId, _ => Readiness.Decision<HoldEvent>.Accept(decided), (_, _) => { }, Cancel),
            year.Store.DecideAsync<Pickup, PickupEvent>(told.Submitted.PickupId, _ => Readiness.Decision<PickupEvent>.Accept(told.Outcome!), (_, _) => { }, Cancel));

        var tally = Assert.Single(await year.Store.AccountsAsync(new(null, [told.Submitted.Header.ShipperId], null, Period.Last(24, Year.Today)), Cancel)).Value;
        Assert.Equal((told.Lines, told.Holds.Count, 1L), (tally[Tallied.Delivered], tally[Tallied.HoldsPlaced], tally[Tallied.HoldsDecided]));
    }

    [Fact]
    public async Task Whoever_hands_in_while_it_is_rebuilt_is_counted_once()
    {
        var (carrier, shipper) = (Guid.CreateVersion7(), Guid.CreateVersion7());
        var told = new AccountHistory(78, [carrier], [shipper], Year.Until).Pickups(1500).ToArray();
        await AccountHistory.AppendAsync(year.Store, told.Take(10), Cancel);
        var rebuilding = ScorecardRebuild.RunAsync(year.Store, Cancel);
        foreach (var one in told.Skip(10))
            await AccountHistory.AppendAsync(year.Store, [one], Cancel);
        await rebuilding;

        var tally = Assert.Single(await year.Store.AccountsAsync(new(carrier, [shipper], null, Period.Last(24, Year.Today)), Cancel)).Value;
        Assert.Equal((told.Sum(one => one.Lines), told.Sum(one => one.Units)), (tally[Tallied.Lines], tally[Tallied.Units]));
    }

    private IEnumerable<ScoredLine> Lines => year.Told.SelectMany(FactsOf).GroupBy(fact => fact.Line).Select(facts => facts.Aggregate(default(ScoredLine), ScoredLine.Evolve)!);

    /// <summary>Cells as counting all lines at once gives them, with every count.</summary>
    private KeyValuePair<Cell, Tally>[] Counted(Scope scope, params IReadOnlyCollection<Facet> facets) =>
    [
        .. CellSheet.Of(Lines).Cells.Where(cell => cell.Key.CarrierId == scope.CarrierId && scope.ShipperIds.Contains(cell.Key.ShipperId) && facets.Contains(cell.Key.Facet)
            && cell.Key.Since >= scope.Period.From && cell.Key.Since < scope.Period.Until),
    ];

    private async Task AssertAsync(Scope scope, long figure, LineQuestion question)
    {
        var list = await LineList.OfAsync(year.Store, scope, question, 1, Cancel);
        Assert.True(figure == list.Total, $"{question}: the figure is {figure}, its lines add up to {list.Total}.");
    }

    private static IEnumerable<LineFact> FactsOf(AccountHistory.Told told) =>
    [
        .. LineFacts.Of(told.Submitted),
        .. told.Holds.SelectMany(hold => (LineFact[])[LineFacts.Of(hold.Placed), .. hold.Decided is null ? [] : (LineFact[])[LineFacts.Of(hold.Decided, LineFacts.LineOf(hold.Placed))]]),
        .. told.Outcome is null ? [] : LineFacts.Of(told.Outcome),
        .. told.Claims.SelectMany(happened => happened switch
        {
            ClaimFiled filed => LineFacts.Of(filed),
            ClaimAnswered answered => LineFacts.Of(answered),
            ClaimWithdrawn withdrawn => LineFacts.Of(withdrawn),
            _ => throw new InvalidOperationException($"{happened.GetType().Name} is no step of a claim."),
        }),
    ];

    private async Task<string[]> CellsAsync(string database)
    {
        await using var connection = new NpgsqlConnection(database);
        await connection.OpenAsync(Cancel);
        await using var command = new NpgsqlCommand($"select carrier_id, shipper_id, site_id, facet, since, key, {CellTable.Sums} from fettle.score_cells where carrier_id = any($1) group by 1, 2, 3, 4, 5, 6", connection);
        command.Parameters.Add(new() { Value = year.Carriers.ToArray() });
        await using var rows = await command.ExecuteReaderAsync(Cancel);
        var cells = new List<string>();
        while (await rows.ReadAsync(Cancel))
            cells.Add($"{new Cell(rows.GetGuid(0), rows.GetGuid(1), rows.GetGuid(2), Enum.Parse<Facet>(rows.GetString(3)), rows.GetFieldValue<DateOnly>(4), rows.GetString(5))} {CellTable.Read(rows, 6)}");
        return [.. cells.Order(StringComparer.Ordinal)];
    }

    /// <summary>All that the projection keeps, in one order, without what the database itself adds.</summary>
    private static async Task<string> CanonicalAsync(string database)
    {
        var text = new StringBuilder();
        await using var connection = new NpgsqlConnection(database);
        await connection.OpenAsync(Cancel);
        foreach (var sql in (string[])[
            "select to_jsonb(c)::text from fettle.score_cells c order by carrier_id, shipper_id, facet, since, site_id, key",
            "select (data - 'version')::text from fettle.mt_doc_linerecord order by id",
            "select data::text from fettle.mt_doc_lineofhold order by id"])
        {
            await using var command = new NpgsqlCommand(sql, connection);
            await using var rows = await command.ExecuteReaderAsync(Cancel);
            while (await rows.ReadAsync(Cancel))
                text.Append(CultureInfo.InvariantCulture, $"{rows.GetString(0)}\n");
        }

        return text.ToString();
    }

    /// <summary>A history in a database of its own, each pickup stored as it happened: handed in, held, decided, delivered.</summary>
    public sealed class Year : IAsyncLifetime
    {
        public static readonly DateTimeOffset Until = new(2026, 11, 28, 12, 0, 0, TimeSpan.Zero);
        public static readonly DateOnly Today = new(2026, 11, 28);

        public string Database { get; private set; } = "";

        public IDocumentStore Store { get; private set; } = null!;

        public IReadOnlyList<Guid> Carriers { get; } = [.. Enumerable.Range(1, 2).Select(number => new Guid(number, 0, 0, new byte[8]))];

        public IReadOnlyList<Guid> Shippers { get; } = [.. Enumerable.Range(1, 3).Select(number => new Guid(number, 1, 0, new byte[8]))];

        public IReadOnlyList<AccountHistory.Told> Told { get; private set; } = [];

        public async ValueTask InitializeAsync()
        {
            Database = await TestPostgres.CreateDatabaseAsync();
            await Migrator.ApplyAsync(Database, Migration.All, CancellationToken.None);
            Store = DocumentStore.For(options =>
            {
                options.Connection(Database);
                StoreSetup.Configure(options);
                options.AutoCreateSchemaObjects = AutoCreate.None;
            });
            Told = [.. new AccountHistory(20261128, Carriers, Shippers, Until).Pickups(15_000)];
            // Some events alone and some together, later ones after others' earlier ones.
            foreach (var some in Told.Chunk(20))
            {
                await AccountHistory.AppendAsync(Store, some.Select(told => new AccountHistory.Told(told.Submitted, [], null)), CancellationToken.None);
                foreach (var told in some)
                {
                    await using var session = Store.LightweightSession();
                    foreach (var (placed, _) in told.Holds)
                        session.Events.StartStream<Hold>(placed.HoldId, placed);
                    await session.SaveChangesAsync();
                    foreach (var (placed, decided) in told.Holds)
                    {
                        if (decided is not null)
                            session.Events.Append(placed.HoldId, decided);
                    }

                    await session.SaveChangesAsync();
                }

                await using var together = Store.LightweightSession();
                foreach (var told in some)
                {
                    if (told.Outcome is not null)
                        together.Events.Append(told.Submitted.PickupId, [told.Outcome, .. told.Claims.Take(1)]);
                }

                await together.SaveChangesAsync();
                await using var later = Store.LightweightSession();
                foreach (var told in some.Where(told => told.Claims.Count > 1))
                    later.Events.Append(told.Submitted.PickupId, told.Claims.Skip(1));
                await later.SaveChangesAsync();
            }
        }

        public async ValueTask DisposeAsync() => await Store.DisposeAsync();
    }
}
