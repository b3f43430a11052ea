using Fettle.Engineering.Units;
using Fettle.Readiness.Catalogue;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Web.Notices.Letters;

/// <summary>What a shipper is told when rules have changed and standard builds no longer pass them.</summary>
public static class CatalogueLetter
{
    /// <param name="carrier">Whose rules changed; null for the common ones.</param>
    /// <param name="builds">Name and build; those that the rules would hold.</param>
    /// <param name="link">The catalogue in the portal.</param>
    public static Letter BuildsNoLongerPass(string shipper, string site, string? carrier, RuleSetVersion rules, IReadOnlyList<(string Name, BuildJudgement Judged)> builds, UnitSystem units, Uri link)
    {
        if (builds.Count == 0)
            return PassAgain(shipper, site, link);
        var count = builds.Count == 1 ? "1 standard build" : $"{builds.Count} standard builds";
        var subject = Plain.Line($"{count} would be held{(carrier is null ? "" : $" by {carrier}")} under changed rules");
        var sheet = new Sheet();
        sheet.Title($"{count} no longer {(builds.Count == 1 ? "passes" : "pass")}");
        sheet.Banner(Tone.Stop, "Built as before, this freight would be held. Put it right before the next pickup.");
        sheet.Facts(("Shipper", $"{shipper}, {site}"), ("Carrier", carrier ?? ""), ("Rules", rules.ToString()));
        sheet.Link("Open the catalogue", FreightPages.Web(link));
        foreach (var (name, judged) in builds.Take(FreightPages.MostLines))
        {
            sheet.Heading(name, Tone.Stop, "Would be held");
            FreightPages.Findings(sheet, judged.Findings, units, Severity.Stop);
        }

        if (builds.Count > FreightPages.MostLines)
            sheet.Paragraph($"And {builds.Count - FreightPages.MostLines} more: the catalogue has them all.");
        sheet.Heading("What to do next");
        sheet.Paragraph("Declare one of these builds, change it until it passes, and save it under a name of its own; then retire the old one. Freight already submitted is judged by the rules of its day.");
        sheet.Small(FreightPages.NoPromise);
        return new(subject, sheet.Text, sheet.Html(subject, string.Join(", ", builds.Select(build => build.Name))), [], null);
    }

    /// <summary>The rules changed once more before the letter was written.</summary>
    private static Letter PassAgain(string shipper, string site, Uri link)
    {
        const string Subject = "Standard builds pass again";
        var sheet = new Sheet();
        sheet.Title(Subject);
        sheet.Banner(Tone.Good, "Rules had changed so that some would be held. They have changed again, and all pass.");
        sheet.Facts(("Shipper", $"{shipper}, {site}"));
        sheet.Link("Open the catalogue", FreightPages.Web(link));
        sheet.Small(FreightPages.NoPromise);
        return new(Subject, sheet.Text, sheet.Html(Subject, "Nothing to do."), [], null);
    }
}
