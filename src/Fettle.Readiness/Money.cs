using System.Globalization;
using System.Text.Json.Serialization;

namespace Fettle.Readiness;

/// <param name="Amount">Not below nothing, with at most two decimals.</param>
/// <param name="Currency">ISO 4217; offers and claims are made in US dollars.</param>
public sealed record Money(decimal Amount, string Currency)
{
    /// <summary>Hundredths.</summary>
    [JsonIgnore]
    public long Cents => decimal.ToInt64(Amount * 100);

    public static Money Dollars(decimal amount) => new(amount, "USD");

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Amount:#,0.00} {Currency}");
}
