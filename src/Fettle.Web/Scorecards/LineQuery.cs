using System.Globalization;
using Fettle.Readiness.Scorecards;

namespace Fettle.Web.Scorecards;

/// <summary>A <see cref="LineQuestion"/> as a query string has it.</summary>
public sealed class LineQuery
{
    /// <summary>Name of the figure; all lines when it is left out.</summary>
    public string? What { get; set; }

    public int? Months { get; set; }

    public string? Week { get; set; }

    public Guid? Site { get; set; }

    public string? Builder { get; set; }

    public bool NoBuilder { get; set; }

    public string? Freight { get; set; }

    public string? Finding { get; set; }

    public string? Stop { get; set; }

    public int? Page { get; set; }

    /// <summary>Null when it asks for no figure that there is.</summary>
    public LineQuestion? Question
    {
        get
        {
            if (Tally.All.Where(what => LineRecord.NameOf(what) == (What ?? LineRecord.NameOf(Tallied.Lines))).Select(what => (Tallied?)what).FirstOrDefault() is not { } figure)
                return null;
            DateOnly? week = null;
            if (Week is not null)
            {
                if (!DateOnly.TryParseExact(Week, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) || day.Year is < 2000 or > 3000)
                    return null;
                week = Weeks.Of(day);
            }

            // The database holds no text with a NUL in it.
            return new[] { Builder, Freight, Finding, Stop }.Any(text => text?.Contains('\0', StringComparison.Ordinal) ?? false)
                ? null
                : new(figure, week, Site, NoBuilder ? "" : Builder, Freight, Finding, Stop);
        }
    }
}
