using Fettle.Engineering.Statistics;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

public class AccountEvidenceTests
{
    [Fact]
    public void Three_lucky_lines_do_not_lead()
    {
        // A book in which about two in three carry their like; three of three is then less sure than ninety of a hundred.
        var lucky = Of(Line.Times(3, () => Line.Of(Line.Declared())));
        var steady = Of([.. Line.Times(90, () => Line.Of(Line.Declared())), .. Line.Times(10, Weak)]);
        var others = Line.Times(60, () => Line.Of(Line.Declared())).Concat(Line.Times(40, Weak));
        var book = AccountBook.Of([lucky, steady, Of(others), Of([.. Line.Times(20, () => Line.Of(Line.Declared())), .. Line.Times(30, Weak)])]);
        var (few, many) = (StackEvidence.Of(lucky, book), StackEvidence.Of(steady, book));
        Assert.True(few.Carries.Estimate < 1);
        Assert.True(few.Carries.Estimate < many.Carries.Estimate);
        Assert.True(few.Rank.CompareTo(many.Rank) < 0);
        Assert.False(few.IsEnough);
        Assert.Equal(3, few.Carries.Whole);
    }

    [Fact]
    public void The_usual_rate_counts_for_a_hundred_lines_at_most()
    {
        // Accounts that differ no more than chance: fitted without a bound the usual rate would drown every account.
        var book = AccountBook.Of([Carrying(9, 10), Carrying(90, 100), Carrying(45, 50)]);
        Assert.Equal(AccountBook.MostLines, book.Carries.Alpha + book.Carries.Beta, 1e-6);
        Assert.Equal(.9, book.Carries.Mean, 2);
        Assert.Equal(3, book.Accounts);
    }

    [Fact]
    public void With_nobody_to_compare_with_an_account_speaks_for_itself()
    {
        var book = AccountBook.Of([Carrying(18, 20)]);
        Assert.Equal(BetaRate.Jeffreys, book.Carries);
        Assert.Equal(18.5 / 21, Share.Of(18, 20, book.Carries).Estimate, 12);
    }

    [Fact]
    public void Freight_is_ranked_by_the_lower_end_and_too_few_come_last()
    {
        var sure = Line.Times(40, () => Line.Of(Line.Declared() with { Product = new("bags") }));
        var unsure = Line.Times(12, () => Line.Of(Line.Declared() with { Product = new("crate") }));
        var few = Line.Times(9, () => Line.Of(Line.Declared() with { Product = new("rolls") }));
        var poor = Line.Times(20, () => Weak("piece"));
        var evidence = AccountEvidence.Of(Line.Year, Line.Cells([.. few, .. poor, .. unsure, .. sure]), AccountBook.None);
        Assert.Equal(["bags", "crate", "piece", "rolls"], evidence.Freight.Select(row => row.Product.Key));
        Assert.Equal([true, true, true, false], evidence.Freight.Select(row => row.Evidence.IsEnough));
        Assert.Equal(evidence.Tally[Tallied.Lines], evidence.Freight.Sum(row => row.Tally[Tallied.Lines]));
    }

    [Fact]
    public void Freight_that_is_equally_sure_is_in_one_order_however_its_cells_come()
    {
        var alike = Enumerable.Range(1, 6).SelectMany(number => Line.Times(12, () => Line.Of(Line.Declared() with { Lane = new(new Guid(number % 3, 0, 0, new byte[8]), "Oakmere", (MileBand)(number % 2)) })));
        var cells = Line.Cells([.. alike]);
        Assert.Equal(
            AccountEvidence.Of(Line.Year, cells, AccountBook.None).Freight.Select(row => row.Lane),
            AccountEvidence.Of(Line.Year, [.. cells.Reverse()], AccountBook.None).Freight.Select(row => row.Lane));
    }

    [Fact]
    public void Beside_others_an_account_has_the_figures_of_its_own_page_from_fewer_cells()
    {
        ScoredLine[] lines = [.. Line.Times(30, () => Line.Of(Line.Declared(), Line.Arrived(OutcomeKind.Clean))), .. Line.Times(6, () => Line.Of(Line.Declared("gross-weight"))), .. Line.Times(3, () => Weak("bags"))];
        var (cells, book) = (Line.Cells(lines), AccountBook.Of([Carrying(9, 10), Carrying(60, 100)]));
        AccountFigures page = AccountEvidence.Of(Line.Year, cells, book);
        var beside = AccountFigures.Of(Line.Year, [.. cells.Where(cell => AccountFigures.Facets.Contains(cell.Facet))], book);
        Assert.Equal(39, beside.Tally[Tallied.Lines]);
        Assert.Equal(
            (page.Tally, page.Trouble, page.Ready, page.Clean, page.Damaged, page.Stacking, page.Habits.Held),
            (beside.Tally, beside.Trouble, beside.Ready, beside.Clean, beside.Damaged, beside.Stacking, beside.Habits.Held));
        Assert.Equal(page.Habits.Best, beside.Habits.Best);
        Assert.Equal(page.Weeks, beside.Weeks);
    }

    [Fact]
    public void A_share_is_its_counts_and_the_belief_that_they_leave()
    {
        var share = Share.Of(18, 20, BetaRate.Uniform);
        Assert.Equal(new Share(18, 20, new BetaRate(19, 3)), share);
        Assert.NotEqual(Share.Of(18, 20, BetaRate.Jeffreys), share);
        Assert.Equal((19.0 / 22, new BetaRate(19, 3).Credible()), (share.Estimate, share.Interval));
        Assert.Equal((.9, Wilson.Interval(18, 20)), (Share.Plain(18, 20).Estimate, Share.Plain(18, 20).Interval));
        Assert.Equal((0, Interval.Anything), (Share.Plain(0, 0).Estimate, Share.Plain(0, 0).Interval));
        Assert.All([share, Share.Plain(18, 20), Share.Plain(0, 0)], each => Assert.Equal(each.Interval.Low, each.Low));
    }

    [Fact]
    public void Evidence_goes_from_word_to_deed()
    {
        var proven = Line.Times(15, () => Line.Of(Line.Declared(), Line.Tested(true), Line.Arrived(OutcomeKind.Clean, carried: true)));
        var broken = Line.Times(5, () => Line.Of(Line.Declared(), Line.Tested(false), Line.Arrived(OutcomeKind.Damaged, carried: true)));
        var stacking = AccountEvidence.Of(Line.Year, Line.Cells([.. proven, .. broken]), AccountBook.None).Stacking;
        Assert.Equal((20, 20, 20, 20), (stacking.Declared.Part, stacking.Carries.Part, stacking.Tested.Whole, stacking.ArrivedClean.Whole));
        Assert.Equal((15, 15), (stacking.Tested.Part, stacking.ArrivedClean.Part));
        Assert.Equal(80, stacking.Units);
        Assert.InRange(stacking.Tested.Estimate, stacking.Tested.Interval.Low, stacking.Tested.Interval.High);
    }

    [Fact]
    public void The_page_begins_with_the_finding_whose_cure_frees_most()
    {
        var evidence = AccountEvidence.Of(Line.Year, Line.Cells([.. Line.Times(30, () => Line.Of(Line.Declared())), .. Line.Times(6, () => Line.Of(Line.Declared("gross-weight"))), Line.Of(Line.Declared("overhang"))]), AccountBook.None);
        Assert.Equal(new Trouble(TroubleKind.Stopped, "gross-weight", 6, 7), evidence.Trouble);
        Assert.Equal(["gross-weight", "overhang"], evidence.Findings.Select(finding => finding.Code));
        Assert.Equal([6, 1], evidence.Findings.Select(finding => finding.Stopped));
    }

    [Fact]
    public void Damage_that_is_plainly_more_than_usual_comes_before_what_is_stopped()
    {
        var others = Enumerable.Range(0, 5).Select(_ => Of(Line.Times(100, () => Line.Of(Line.Declared(), Line.Arrived(OutcomeKind.Clean)))));
        ScoredLine[] own = [.. Line.Times(30, () => Line.Of(Line.Declared("overhang"), Line.Arrived(OutcomeKind.Damaged))), .. Line.Times(60, () => Line.Of(Line.Declared(), Line.Arrived(OutcomeKind.Clean)))];
        var evidence = AccountEvidence.Of(Line.Year, Line.Cells(own), AccountBook.Of([.. others, Of(own)]));
        Assert.Equal(new Trouble(TroubleKind.Damaged, null, 30, 90), evidence.Trouble);
    }

    [Fact]
    public void Too_few_lines_are_no_trouble_and_no_praise() =>
        Assert.Equal(TroubleKind.TooFew, AccountEvidence.Of(Line.Year, Line.Cells(Line.Times(9, () => Line.Of(Line.Declared("overhang")))), AccountBook.None).Trouble.Kind);

    [Fact]
    public void Where_hardly_anything_is_stopped_nothing_is_made_of_it() =>
        Assert.Equal(new Trouble(TroubleKind.None, null, 1, 60), AccountEvidence.Of(Line.Year, Line.Cells([.. Line.Times(59, () => Line.Of(Line.Declared())), Line.Of(Line.Declared("overhang"))]), AccountBook.None).Trouble);

    [Fact]
    public void Sites_and_builders_each_have_the_habit_that_helps_there()
    {
        var robin = Line.Times(4, () => Line.Of(Line.Declared("wrap-turns")));
        var sam = Line.Times(3, () => Line.Of(Line.Declared("overhang") with { Builder = "Sam", SiteId = Line.Terminal }));
        var nobody = Line.Times(2, () => Line.Of(Line.Declared() with { Builder = "" }));
        var evidence = AccountEvidence.Of(Line.Year, Line.Cells([.. robin, .. sam, .. nobody]), AccountBook.None);
        Assert.Equal(["Robin", "Sam", ""], evidence.Builders.Select(group => group.Group));
        Assert.Equal(["wrap-turns", "overhang", null], evidence.Builders.Select(group => group.Habits.Best is [var first, ..] ? first.Code : null));
        Assert.Equal([(Line.Site, 6L), (Line.Terminal, 3L)], evidence.Sites.Select(group => (group.Group, group.Tally[Tallied.Lines])));
        Assert.All(evidence.Builders, group => Assert.False(group.Ready.IsEnough));
    }

    [Fact]
    public void Weeks_without_freight_are_there_and_empty()
    {
        var evidence = AccountEvidence.Of(Line.Year, Line.Cells(Line.Of(Line.Declared()), Line.Of(Line.Declared("overhang"))), AccountBook.None);
        Assert.Equal(Line.Year.WeeksTouched(), evidence.Weeks.Select(week => week.Monday));
        var week = Assert.Single(evidence.Weeks, week => week.Ready is not null);
        Assert.Equal((new DateOnly(2026, 11, 16), .5), (week.Monday, week.Ready!.Value));
    }

    [Fact]
    public void Without_freight_there_is_a_page_all_the_same()
    {
        var evidence = AccountEvidence.Of(Line.Year, [], AccountBook.Of([]));
        Assert.Equal(TroubleKind.TooFew, evidence.Trouble.Kind);
        Assert.Null(evidence.Ready.Seen);
        Assert.Empty(evidence.Freight);
    }

    [Fact]
    public void Hours_and_decisions_of_holds_are_added_up()
    {
        var tally = Of([Line.Of(Line.Declared("height"), Line.Decided(HoldDecision.Rework, 60)), Line.Of(Line.Declared("height"), Line.Decided(HoldDecision.Release, 30))]);
        Assert.Equal((90, 1, 1), (tally[Tallied.HeldMinutes], tally[Tallied.Reworked], tally[Tallied.Released]));
    }

    private static ScoredLine Weak() => Weak("bags");

    private static ScoredLine Weak(string product) => Line.Of(Line.Declared() with { CarriesLikeUnit = false, Product = new(product) });

    private static Tally Of(IEnumerable<ScoredLine> lines) => Tally.Sum(lines.Select(Tally.Of));

    private static Tally Carrying(int carries, int stackable) => Of([.. Line.Times(carries, () => Line.Of(Line.Declared())), .. Line.Times(stackable - carries, Weak)]);
}
