using System.Globalization;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Drawings;

namespace Fettle.Web.Digests;

/// <summary>The one picture of a digest: lines by week, for mail. What the colour tells, the hatching tells too.</summary>
public static class DigestChart
{
    private static readonly Look Ready = new("dc-ready", "fill=\"#3f7f72\" stroke=\"#1f4a42\" stroke-width=\"0.8\"");
    private static readonly Look Held = new("dc-held", "fill=\"#ffffff\" stroke=\"#7a2e12\" stroke-width=\"1\"");
    private static readonly Look HeldLines = new("dc-held-lines", "fill=\"none\" stroke=\"#7a2e12\" stroke-width=\"1.1\"");
    private static readonly Look Axis = new("dc-axis", "fill=\"none\" stroke=\"INK\" stroke-width=\"0.8\" stroke-opacity=\"0.5\"");
    private static readonly Look Text = new("dc-text", "fill=\"INK\" font-size=\"13\"");

    public static string Svg(IReadOnlyList<WeekCount> weeks)
    {
        const double Width = 520, Height = 180, Left = 40, Bottom = 26, Top = 30;
        var canvas = new Canvas(DrawingOptions.ForMail);
        var most = Math.Max(1, weeks.Max(week => week.Lines));
        var step = (Width - Left) / weeks.Count;
        double Y(double lines) => Height - Bottom - ((Height - Bottom - Top) * lines / most);
        canvas.Rect(Ready, new(Left, 6, 14, 14));
        canvas.Text(Text, new(Left + 20, 18), T("nothing stopped it"));
        Hatched(canvas, new(Left + 190, 6, 14, 14));
        canvas.Text(Text, new(Left + 210, 18), T("held"));
        foreach (var mark in (long[])[0, most])
        {
            canvas.Line(Axis, new(Left, Y(mark)), new(Width, Y(mark)));
            canvas.Text(Text, new(Left - 6, Y(mark) + 4), mark.ToString("#,0", CultureInfo.InvariantCulture), Canvas.Anchor.End);
        }

        for (var i = 0; i < weeks.Count; i++)
        {
            var (week, x) = (weeks[i], Left + (i * step));
            if (week.Ready > 0)
                canvas.Rect(Ready, new(x + 2, Y(week.Ready), step - 6, Y(0) - Y(week.Ready)));
            if (week.Held > 0)
                Hatched(canvas, new(x + 2, Y(week.Lines), step - 6, Y(week.Ready) - Y(week.Lines)));
            if (week.Monday.Day <= 7)
                canvas.Text(Text, new(x + 2, Height - 8), week.Monday.ToString("MMM", Language.Current.Calendar));
        }

        return canvas.Finish(Width, Height, T("Lines by week"), Describe(weeks));
    }

    /// <summary>All that the picture shows, in words.</summary>
    public static string Describe(IReadOnlyList<WeekCount> weeks) => T(
        "Lines without anything to stop them, of all, week by week: {0}.",
        string.Join(", ", weeks.Where(week => week.Lines > 0).Select(week => T("{0} {1} of {2}", week.Monday.ToString("d MMM", Language.Current.Calendar), week.Ready, week.Lines))));

    private static void Hatched(Canvas canvas, Box box)
    {
        canvas.Rect(Held, box);
        canvas.Path(HeldLines, Hatch.Lines(new(box.X, box.Bottom), new(box.Width, 0), new(0, -box.Height), 4), closed: false);
    }
}
