namespace Fettle.Engineering.Identification;

/// <summary>A two- to four-digit prefix that says what the data after it are, after GS1's published syntax dictionary.</summary>
/// <param name="Code">The digits, as in "00" or "3401".</param>
/// <param name="Title">What the label calls it.</param>
/// <param name="LeastCharacters">Fewest characters of data.</param>
/// <param name="MostCharacters">Most characters of data.</param>
/// <param name="Numeric">Digits only; otherwise letters, digits and the signs of GS1 character set 82.</param>
/// <param name="Predefined">
/// On the list of predefined lengths, so that no separator follows. A fixed length alone is not enough: 402 has seventeen
/// digits and still needs one.
/// </param>
/// <param name="CheckDigit">The last digit of the data is a check digit.</param>
public sealed record ApplicationIdentifier(
    string Code,
    string Title,
    int LeastCharacters,
    int MostCharacters,
    bool Numeric,
    bool Predefined,
    bool CheckDigit = false)
{
    /// <summary>00: serial shipping container code.</summary>
    public static readonly ApplicationIdentifier Sscc = new("00", "SSCC", 18, 18, Numeric: true, Predefined: true, CheckDigit: true);

    /// <summary>02: trade item number of what is contained; goes with 37 and 00.</summary>
    public static readonly ApplicationIdentifier Content = new("02", "CONTENT", 14, 14, Numeric: true, Predefined: true, CheckDigit: true);

    /// <summary>37: count of what is contained.</summary>
    public static readonly ApplicationIdentifier Count = new("37", "COUNT", 1, 8, Numeric: true, Predefined: false);

    /// <summary>400: the customer's order number.</summary>
    public static readonly ApplicationIdentifier Order = new("400", "ORDER NUMBER", 1, 30, Numeric: false, Predefined: false);

    /// <summary>401: consignment number; no check digit.</summary>
    public static readonly ApplicationIdentifier Consignment = new("401", "GINC", 1, 30, Numeric: false, Predefined: false);

    /// <summary>402: shipment number, with check digit.</summary>
    public static readonly ApplicationIdentifier Shipment = new("402", "GSIN", 17, 17, Numeric: true, Predefined: false, CheckDigit: true);

    /// <summary>403: routing code.</summary>
    public static readonly ApplicationIdentifier Route = new("403", "ROUTE", 1, 30, Numeric: false, Predefined: false);

    /// <summary>410: ship to, location number.</summary>
    public static readonly ApplicationIdentifier ShipTo = new("410", "SHIP TO LOC", 13, 13, Numeric: true, Predefined: true, CheckDigit: true);

    /// <summary>413: ship for, location number.</summary>
    public static readonly ApplicationIdentifier ShipFor = new("413", "SHIP FOR LOC", 13, 13, Numeric: true, Predefined: true, CheckDigit: true);

    /// <summary>420: ship-to postal code, within one country.</summary>
    public static readonly ApplicationIdentifier ShipToPost = new("420", "SHIP TO POST", 1, 20, Numeric: false, Predefined: false);

    /// <summary>4321: dangerous goods flag, 0 or 1.</summary>
    public static readonly ApplicationIdentifier DangerousGoods = new("4321", "DANGEROUS GOODS", 1, 1, Numeric: true, Predefined: false);

    /// <summary>330n: gross weight in kilograms with n decimals (0 to 5).</summary>
    public static ApplicationIdentifier GrossKilograms(int decimals) => Measure("330", "GROSS WEIGHT (kg)", decimals);

    /// <summary>340n: gross weight in pounds with n decimals (0 to 5).</summary>
    public static ApplicationIdentifier GrossPounds(int decimals) => Measure("340", "GROSS WEIGHT (lb)", decimals);

    private static ApplicationIdentifier Measure(string code, string title, int decimals) => decimals is >= 0 and <= 5
        ? new(code + (char)('0' + decimals), title, 6, 6, Numeric: true, Predefined: true)
        : throw new ArgumentOutOfRangeException(nameof(decimals), decimals, "A measure has 0 to 5 decimals.");
}
