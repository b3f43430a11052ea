using System.Globalization;
using System.Text.RegularExpressions;
using Fettle.Engineering.Identification;

namespace Fettle.Readiness.Scans;

/// <summary>What a scanner, a camera or a hand gave, and what it can mean.</summary>
public abstract partial record Scanned
{
    private const int LongestText = 60;
    private const int SsccDigits = 18;

    /// <summary>
    /// Reads an SSCC with or without "(00)", a scanner's "]C1" or bare 00 before it and other data after it, a pickup's
    /// number, a hold's or unit's number, and else takes it for words to look for.
    /// </summary>
    public static Scanned Read(string? text)
    {
        var read = (text ?? "").Trim().Trim(ElementString.Separator).Trim();
        // A symbology identifier: "]C1" is GS1-128, "]C0" Code 128, "]Q3" and "]d2" the square codes.
        if (Symbology().Match(read) is { Success: true } prefix)
            read = read[prefix.Length..].TrimStart(ElementString.Separator);
        if (read.Length == 0)
            return new NothingScanned();

        var first = read.Split(ElementString.Separator)[0];
        if (first.StartsWith("(00)", StringComparison.Ordinal))
            return Code(Compact(first[4..].Split('(')[0]));
        var digits = Compact(first);
        if (digits.Length > 0 && digits.All(char.IsAsciiDigit))
        {
            if (digits.Length == SsccDigits)
                return Code(digits);
            if (digits.StartsWith("00", StringComparison.Ordinal) && digits.Length >= SsccDigits + 2)
                return Code(digits.Substring(2, SsccDigits));
            // So many digits are meant for a code, and a few short or over.
            if (digits.Length >= SsccDigits - 3)
                return new WrongLength(digits);
        }

        if (PickupNumber().Match(read) is { Success: true } pickup)
            return new ScannedPickup("P-" + pickup.Groups[1].Value.ToUpperInvariant());
        if (UnitNumber().Match(read) is { Success: true } unit)
        {
            var number = "P-" + unit.Groups[1].Value.ToUpperInvariant();
            return new ScannedNumber(number, number + unit.Groups[2].Value + unit.Groups[3].Value);
        }

        return new ScannedWords(read.Length > LongestText ? read[..LongestText] : read);
    }

    private static Scanned Code(string digits)
    {
        if (digits.Length != SsccDigits || !digits.All(char.IsAsciiDigit))
            return new WrongLength(digits);
        return Engineering.Identification.Sscc.TryParse(digits, out var code) ? new ScannedSscc(code) : new WrongCheckDigit(digits, CheckDigit.Of(digits.AsSpan(0, SsccDigits - 1)));
    }

    private static string Compact(string text) => text.Replace(" ", "", StringComparison.Ordinal);

    [GeneratedRegex("^][A-Za-z][0-9A-Za-z]")]
    private static partial Regex Symbology();

    [GeneratedRegex("^P-?([2-9A-HJKMNP-Z]{6})$", RegexOptions.IgnoreCase)]
    private static partial Regex PickupNumber();

    [GeneratedRegex("^P-?([2-9A-HJKMNP-Z]{6})([/#])(.{1,40})$", RegexOptions.IgnoreCase)]
    private static partial Regex UnitNumber();
}

public sealed record NothingScanned : Scanned;

public sealed record ScannedSscc(Sscc Sscc) : Scanned;

/// <summary>Eighteen digits of which the last does not follow from the others: one of them was misread.</summary>
/// <param name="Fits">The check digit that would fit the first seventeen.</param>
public sealed record WrongCheckDigit(string Digits, int Fits) : Scanned
{
    public string Last => Digits[^1].ToString(CultureInfo.InvariantCulture);
}

/// <summary>Meant for an SSCC, and not eighteen digits long.</summary>
public sealed record WrongLength(string Digits) : Scanned;

/// <param name="Number">"P-4K7Q2M".</param>
public sealed record ScannedPickup(string Number) : Scanned;

/// <summary>A pickup's number and something after it: a hold's, "P-4K7Q2M/A1", or a unit's, "P-4K7Q2M/A1-2" or "P-4K7Q2M#12".</summary>
public sealed record ScannedNumber(string Pickup, string Number) : Scanned;

public sealed record ScannedWords(string Words) : Scanned;
