using System.Globalization;
using Fettle.Readiness.Scorecards;

namespace Fettle.Web.Scorecards;

/// <summary>Which accounts the list shows, and in which order.</summary>
/// <param name="Name">Part of the shipper's name; empty for all.</param>
/// <param name="Lane">Part of a terminal's name or a destination: only freight on such lanes then counts; empty for all.</param>
/// <param name="Least">At least so many lines.</param>
/// <param name="Months">One of <see cref="Period.Choices"/>.</param>
/// <param name="Sort">Key of a column.</param>
public sealed record AccountFilter(string Name, string Lane, int Least, int Months, string Sort, bool Up)
{
    public const int LongestText = 80;

    public static readonly AccountFilter Everything = new("", "", 0, Period.Usual, AccountColumn.Usual, false);

    /// <summary>What a query string asks for; what cannot be, is as usual.</summary>
    public static AccountFilter Of(string? name, string? lane, int? least, int? months, string? sort, bool up) => new(
        Text(name),
        Text(lane),
        Math.Clamp(least ?? 0, 0, 1_000_000),
        MonthsOf(months),
        AccountColumn.Find(sort).Key,
        up);

    /// <summary>One of <see cref="Period.Choices"/>; the usual one for anything else.</summary>
    public static int MonthsOf(int? months) => months is { } wanted && Period.Choices.Contains(wanted) ? wanted : Period.Usual;

    /// <summary>The same as a query string, "?name=…"; empty when nothing is unusual.</summary>
    public string Query(string? sort = null, bool? up = null)
    {
        var parts = new List<string>();
        Add("name", Name, "");
        Add("lane", Lane, "");
        Add("least", Least.ToString(CultureInfo.InvariantCulture), "0");
        Add("months", Months.ToString(CultureInfo.InvariantCulture), Period.Usual.ToString(CultureInfo.InvariantCulture));
        Add("sort", sort ?? Sort, AccountColumn.Usual);
        Add("up", (up ?? Up) ? "true" : "false", "false");
        return parts.Count == 0 ? "" : "?" + string.Join('&', parts);

        void Add(string key, string value, string usual)
        {
            if (value != usual)
                parts.Add($"{key}={Uri.EscapeDataString(value)}");
        }
    }

    private static string Text(string? text)
    {
        var trimmed = new string([.. (text ?? "").Where(c => !char.IsControl(c))]).Trim();
        return trimmed.Length > LongestText ? trimmed[..LongestText] : trimmed;
    }
}
