using System.Security.Cryptography;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Digests;
using Fettle.Web.FloorUse;

namespace Fettle.Web.Notices.Letters;

/// <summary>The week that was, for an account manager and for a shipper.</summary>
public static class DigestLetter
{
    private const int PictureWidth = 520;

    /// <summary>More accounts than this are told in the portal.</summary>
    private const int MostAccounts = 12;

    /// <summary>What went well among the accounts, and what to change.</summary>
    /// <param name="link">The accounts desk.</param>
    public static Letter ForManager(WeekDigest digest, Uri link)
    {
        var subject = Plain.Line(digest.Held == 0
            ? T("Week of {0}: nothing was held", Day(digest))
            : T("Week of {0}: {1} of {2} lines held", Day(digest), digest.Held, digest.Lines));
        var sheet = new Sheet();
        sheet.Title(subject);
        var banner = T("{0} of {1} lines had nothing to stop them.", digest.Ready, digest.Lines);
        sheet.Banner(digest.Held == 0 ? Tone.Good : Tone.Calm, banner);
        var picture = Draw(sheet, digest);
        sheet.Heading(T("What went well"));
        foreach (var words in Well(digest))
            sheet.Paragraph(words);
        sheet.Heading(T("What to change"));
        var troubled = digest.Accounts.Where(account => account.Habits.Best.Count > 0).Take(MostAccounts).ToArray();
        if (troubled.Length == 0)
            sheet.Paragraph(T("Nothing was held: there is nothing to change."));
        foreach (var account in troubled)
            sheet.Paragraph(T("{0}: {1} With that put right, {2} of {3} held lines would have passed.", account.Name, Habit(account.Habits), account.Habits.Best[0].AloneFrees, account.Now.Held));
        sheet.Heading(T("Account by account"));
        sheet.Table(
            [T("Shipper"), T("Lines"), T("Held"), T("Beside the 12 weeks before")],
            [.. digest.Accounts.Take(MostAccounts).Select(account => ((IReadOnlyList<string>)[account.Name, Count(account.Now.Lines), Count(account.Now.Held)], ToneOf(account.Trend), Say(account.Trend)))]);
        if (digest.Accounts.Count > MostAccounts)
            sheet.Paragraph(T("And {0} more: the accounts desk has them all.", digest.Accounts.Count - MostAccounts));
        sheet.Link(T("Open the accounts desk"), FreightPages.Web(link));
        sheet.Small(T("A line of identical units counts once. A week is called better or worse only when chance alone would seldom make it so."));
        return new(subject, sheet.Text, sheet.Html(subject, banner), [picture], null);
    }

    /// <summary>A shipper's own week, and the one habit that would help most.</summary>
    /// <param name="digest">Of one account.</param>
    /// <param name="link">The shipper's own score.</param>
    public static Letter ForShipper(WeekDigest digest, Uri link)
    {
        var account = digest.Accounts[0];
        var subject = Plain.Line(T("Your freight, week of {0}: {1} of {2} lines ready to go", Day(digest), digest.Ready, digest.Lines));
        var sheet = new Sheet();
        sheet.Title(subject);
        var banner = digest.Held == 0
            ? T("Every line was ready to go. Thank you.")
            : T("{0} of {1} lines were ready to go at once.", digest.Ready, digest.Lines);
        sheet.Banner(digest.Held == 0 ? Tone.Good : Tone.Calm, banner);
        if (account.Trend == WeekTrend.Better)
            sheet.Paragraph(T("That is better than in the weeks before."));
        if (digest.FeetSaved > 0)
            sheet.Paragraph(T("Built as it was, it leaves {0} of trailer free when it is stacked.", WorthWords.Feet(digest.FeetSaved)));
        var picture = Draw(sheet, digest);
        if (account.Habits.Best is [var best, ..])
        {
            sheet.Heading(T("One habit that would help most"));
            sheet.Paragraph(T("{0} It concerned {1} of the {2} lines that waited; each pickup shows what cures it before the truck comes.", Habit(account.Habits), best.Stopped, digest.Held));
        }

        sheet.Link(T("See your own figures"), FreightPages.Web(link));
        sheet.Small(T("These are your own figures; nobody else's are in them. A line of identical units counts once."));
        return new(subject, sheet.Text, sheet.Html(subject, banner), [picture], null);
    }

    private static IEnumerable<string> Well(WeekDigest digest)
    {
        var said = false;
        foreach (var account in digest.Accounts.Where(account => account.Now.Held == 0 || account.Trend == WeekTrend.Better).Take(MostAccounts))
        {
            said = true;
            yield return account.Now.Held == 0
                ? T(account.Now.Lines == 1 ? "{0}: its line passed." : "{0}: all {1} lines passed.", account.Name, account.Now.Lines)
                : T("{0}: {1} of {2} lines passed, better than in the weeks before.", account.Name, account.Now.Ready, account.Now.Lines);
        }

        if (digest.FeetSaved > 0)
        {
            said = true;
            yield return T("Freight that can be stacked left {0} of trailer free.", WorthWords.Feet(digest.FeetSaved));
        }

        if (!said)
            yield return T("No account passed without a hold this week.");
    }

    /// <summary>"Gross weight."</summary>
    private static string Habit(Habits habits) => $"{T(FindingCodes.Title(habits.Best[0].Code))}.";

    private static LetterPicture Draw(Sheet sheet, WeekDigest digest)
    {
        var png = Drawings.Picture.Png(DigestChart.Svg(digest.Weeks), PictureWidth * 2);
        var id = Convert.ToHexStringLower(SHA256.HashData(png).AsSpan(0, 8));
        var picture = new LetterPicture($"chart-{id}@fettle", $"chart-{id}.png", png, DigestChart.Describe(digest.Weeks), PictureWidth);
        sheet.Picture(picture);
        return picture;
    }

    private static string Say(WeekTrend trend) => trend switch
    {
        WeekTrend.TooFew => T("Too few to say"),
        WeekTrend.Better => T("Better"),
        WeekTrend.AsUsual => T("As usual"),
        WeekTrend.Worse => T("Worse"),
    };

    private static Tone ToneOf(WeekTrend trend) => trend switch
    {
        WeekTrend.TooFew or WeekTrend.AsUsual => Tone.Calm,
        WeekTrend.Better => Tone.Good,
        WeekTrend.Worse => Tone.Caution,
    };

    private static string Day(WeekDigest digest) => digest.Monday.ToString(T("d MMMM yyyy"), Language.Current.Calendar);

    private static string Count(long count) => count.ToString("#,0", System.Globalization.CultureInfo.InvariantCulture);
}
