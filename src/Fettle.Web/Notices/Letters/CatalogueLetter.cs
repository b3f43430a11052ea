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
        var count = builds.Count == 1 ? T("1 standard build") : T("{0} standard builds", builds.Count);
        var subject = Plain.Line(T("{0} would be held{1} under changed rules", count, carrier is null ? "" : T(" by {0}", carrier)));
        var sheet = new Sheet();
        sheet.Title(T(builds.Count == 1 ? "{0} no longer passes" : "{0} no longer pass", count));
        sheet.Banner(Tone.Stop, T("Built as before, this freight would be held. Put it right before the next pickup."));
        sheet.Facts((T("Shipper"), $"{shipper}, {site}"), (T("Carrier"), carrier ?? ""), (T("Rules"), rules.Say()));
        sheet.Link(T("Open the catalogue"), FreightPages.Web(link));
        foreach (var (name, judged) in builds.Take(FreightPages.MostLines))
        {
            sheet.Heading(name, Tone.Stop, T("Would be held"));
            FreightPages.Findings(sheet, judged.Findings, units, Severity.Stop);
        }

        if (builds.Count > FreightPages.MostLines)
            sheet.Paragraph(T("And {0} more: the catalogue has them all.", builds.Count - FreightPages.MostLines));
        sheet.Heading(T("What to do next"));
        sheet.Paragraph(T("Declare one of these builds, change it until it passes, and save it under a name of its own; then retire the old one. Freight already submitted is judged by the rules of its day."));
        sheet.Small(FreightPages.NoPromise);
        return new(subject, sheet.Text, sheet.Html(subject, string.Join(", ", builds.Select(build => build.Name))), [], null);
    }

    /// <summary>The rules changed once more before the letter was written.</summary>
    private static Letter PassAgain(string shipper, string site, Uri link)
    {
        var subject = T("Standard builds pass again");
        var sheet = new Sheet();
        sheet.Title(subject);
        sheet.Banner(Tone.Good, T("Rules had changed so that some would be held. They have changed again, and all pass."));
        sheet.Facts((T("Shipper"), $"{shipper}, {site}"));
        sheet.Link(T("Open the catalogue"), FreightPages.Web(link));
        sheet.Small(FreightPages.NoPromise);
        return new(subject, sheet.Text, sheet.Html(subject, T("Nothing to do.")), [], null);
    }
}
