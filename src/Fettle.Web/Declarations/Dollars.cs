using Fettle.Engineering.Units;

namespace Fettle.Web.Declarations;

/// <summary>US dollars as people type them: "85", "85.50", "85,50", "$1,200".</summary>
public static class Dollars
{
    /// <summary>The amount; null when it is none, below nothing, above the most, or has more than two decimals.</summary>
    public static decimal? Parse(string? text, decimal most) =>
        MeasureText.TryNumber(text?.Trim().TrimStart('$'), out var amount)
        && amount >= 0 && amount <= most && decimal.Round(amount, 2) == amount ? amount : null;
}
