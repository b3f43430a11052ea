using System.Globalization;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Drawings;

namespace Fettle.Web.Scorecards;

/// <summary>Charts as SVG. What a colour tells, a hatching and a word tell too, and a table with the same figures stands by.</summary>
public static class ScoreChart
{
    private static readonly Look Ready = new("sc-ready", "fill=\"#3f7f72\" stroke=\"#1f4a42\" stroke-width=\"0.8\"");
    private static readonly Look Held = new("sc-held", "fill=\"#ffffff\" stroke=\"#7a2e12\" stroke-width=\"1\"");
    private static readonly Look HeldLines = new("sc-held-lines", "fill=\"none\" stroke=\"#7a2e12\" stroke-width=\"1.1\"");
    private static readonly Look Axis = new("sc-axis", "fill=\"none\" stroke=\"INK\" stroke-width=\"0.8\" stroke-opacity=\"0.5\"");
    private static readonly Look Words = new("sc-words", "fill=\"INK\" font-size=\"13\"");
    private static readonly Look Curve = new("sc-curve", "fill=\"none\" stroke=\"INK\" stroke-width=\"1.6\" stroke-linejoin=\"round\"");
    private static readonly Look Dot = new("sc-dot", "fill=\"INK\" stroke=\"none\"");

    /// <summary>A bar a week: below what nothing stopped, above it, hatched, what was held.</summary>
    public static string Weeks(IReadOnlyList<WeekScore> weeks)
    {
        const double Width = 960, Height = 230, Left = 48, Bottom = 34, Top = 34;
        var canvas = new Canvas(DrawingOptions.ForPage);
        var most = Math.Max(1, weeks.Count == 0 ? 1 : weeks.Max(week => week.Tally[Tallied.Lines]));
        var (room, step) = (Height - Bottom - Top, (Width - Left) / Math.Max(1, weeks.Count));
        double Y(double lines) => Height - Bottom - (room * lines / most);
        Legend(canvas, Left);
        foreach (var mark in (long[])[0, most])
        {
            canvas.Line(Axis, new(Left, Y(mark)), new(Width, Y(mark)));
            canvas.Text(Words, new(Left - 6, Y(mark) + 4), mark.ToString("#,0", CultureInfo.InvariantCulture), Canvas.Anchor.End);
        }

        for (var i = 0; i < weeks.Count; i++)
        {
            var (week, x) = (weeks[i], Left + (i * step));
            var (ready, lines) = (week.Tally[Tallied.Ready], week.Tally[Tallied.Lines]);
            var bar = Math.Max(2, step - 3);
            if (ready > 0)
                canvas.Rect(Ready, new(x, Y(ready), bar, Y(0) - Y(ready)));
            if (lines > ready)
                Hatched(canvas, new(x, Y(lines), bar, Y(ready) - Y(lines)));
            if (week.Monday.Day <= 7)
                canvas.Text(Words, new(x, Height - 12), week.Monday.ToString("MMM", Language.Current.Calendar));
        }

        return canvas.Finish(Width, Height, T("Lines by week"), T("One bar a week, from {0} on: solid for lines that nothing stopped, hatched for held lines. The table below has the same figures.", weeks.Count == 0 ? "" : weeks[0].Monday.ToString("d MMM yyyy", Language.Current.Calendar)));
    }

    /// <summary>How the share that nothing stopped ran, from none at the foot to all at the top; weeks without freight are left out.</summary>
    public static string Run(IReadOnlyList<(DateOnly Since, long Lines, long Ready)> run)
    {
        const double Width = 132, Height = 30, Edge = 4;
        var canvas = new Canvas(DrawingOptions.ForPage);
        canvas.Line(Axis, new(Edge, Height - Edge), new(Width - Edge, Height - Edge));
        canvas.Line(Axis, new(Edge, Edge), new(Width - Edge, Edge));
        if (run.Count == 0)
            return canvas.Finish(Width, Height, T("No freight"), T("No freight"));
        var (first, days) = (run[0].Since.DayNumber, Math.Max(1, run[^1].Since.DayNumber - run[0].Since.DayNumber));
        Spot[] spots =
        [
            .. run.Where(week => week.Lines > 0).Select(week => new Spot(
                Edge + ((Width - (2 * Edge)) * (week.Since.DayNumber - first) / days),
                Height - Edge - ((Height - (2 * Edge)) * week.Ready / week.Lines))),
        ];
        if (spots.Length > 1)
            canvas.Line(Curve, spots);
        if (spots.Length > 0)
            canvas.Rect(Dot, new(Math.Min(Width - 6, spots[^1].X - 3), Math.Clamp(spots[^1].Y - 3, 0, Height - 6), 6, 6), 3);
        var (last, least) = (run[^1], run.Where(week => week.Lines > 0).Select(week => week.Ready / (double)week.Lines).DefaultIfEmpty().Min());
        return canvas.Finish(Width, Height, T("Share that nothing stopped, over time"), T("At the end {0} of {1} lines; at its lowest {2:0 %}.", last.Ready, last.Lines, least));
    }

    private static void Legend(Canvas canvas, double x)
    {
        canvas.Rect(Ready, new(x, 6, 14, 14));
        canvas.Text(Words, new(x + 20, 18), T("nothing stopped it"));
        Hatched(canvas, new(x + 190, 6, 14, 14));
        canvas.Text(Words, new(x + 210, 18), T("held"));
    }

    private static void Hatched(Canvas canvas, Box box)
    {
        canvas.Rect(Held, box);
        canvas.Path(HeldLines, Hatch.Lines(new(box.X, box.Bottom), new(box.Width, 0), new(0, -box.Height), 4), closed: false);
    }
}
