using Fettle.Readiness.Scorecards;
using Fettle.Web.Drawings;

namespace Fettle.Web.FloorUse;

/// <summary>Feet of trailer week by week; a table with the same figures stands by.</summary>
public static class WorthChart
{
    private static readonly Look Taken = new("wc-taken", "fill=\"#a9cfc4\" stroke=\"#1f4a42\" stroke-width=\"0.8\"");
    private static readonly Look Saved = new("wc-saved", "fill=\"none\" stroke=\"#1f4a42\" stroke-width=\"0.8\" stroke-dasharray=\"3 2\"");
    private static readonly Look Axis = new("wc-axis", "fill=\"none\" stroke=\"INK\" stroke-width=\"0.8\" stroke-opacity=\"0.5\"");
    private static readonly Look Text = new("wc-text", "fill=\"INK\" font-size=\"13\"");

    /// <summary>A bar a week: below what stacked freight takes, above it, outlined, what stacking saves.</summary>
    public static string Weeks(IReadOnlyList<WeekWorth> weeks, DrawingOptions options)
    {
        const double Width = 960, Height = 200, Left = 62, Bottom = 30, Top = 32;
        var canvas = new Canvas(options);
        var most = weeks.Select(week => week.Flat).DefaultIfEmpty().Max();
        var top = most > 0 ? most : 1;
        var step = (Width - Left) / Math.Max(1, weeks.Count);
        double Y(double feet) => Height - Bottom - ((Height - Bottom - Top) * feet / top);
        canvas.Rect(Taken, new(Left, 6, 14, 14));
        canvas.Text(Text, new(Left + 20, 18), T("feet taken when stacked"));
        canvas.Rect(Saved, new(Left + 230, 6, 14, 14));
        canvas.Text(Text, new(Left + 250, 18), T("feet saved by stacking"));
        foreach (var mark in (double[])[0, top])
        {
            canvas.Line(Axis, new(Left, Y(mark)), new(Width, Y(mark)));
            canvas.Text(Text, new(Left - 6, Y(mark) + 4), WorthWords.Feet(mark), Canvas.Anchor.End);
        }

        for (var i = 0; i < weeks.Count; i++)
        {
            var (week, x, bar) = (weeks[i], Left + (i * step), Math.Clamp(step - 3, 2, 60));
            if (week.Stacked > 0)
                canvas.Rect(Taken, new(x, Y(week.Stacked), bar, Y(0) - Y(week.Stacked)));
            if (week.Saved > 0)
                canvas.Rect(Saved, new(x, Y(week.Flat), bar, Y(week.Stacked) - Y(week.Flat)));
            if (week.Monday.Day <= 7)
                canvas.Text(Text, new(x, Height - 10), week.Monday.ToString("MMM", Language.Current.Calendar));
        }

        return canvas.Finish(Width, Height, T("Feet of trailer by week"), T("One bar a week: filled for the feet that stacked freight takes, outlined for what stacking saves."));
    }
}
