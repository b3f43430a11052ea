namespace Fettle.Engineering.Identification;

/// <summary>Global trade item numbers: eight, twelve, thirteen or fourteen digits, the last a check digit.</summary>
public static class Gtin
{
    /// <summary>Whether the text is such a number with the right check digit.</summary>
    public static bool IsValid(ReadOnlySpan<char> text) => text.Length is 8 or 12 or 13 or 14 && CheckDigit.Matches(text);

    /// <summary>The same number in fourteen digits, the form in which trade messages and bar codes carry it.</summary>
    /// <exception cref="ArgumentException">It is not a valid number.</exception>
    public static string ToFourteen(string gtin) =>
        IsValid(gtin) ? gtin.PadLeft(14, '0') : throw new ArgumentException("Not a trade item number with its check digit.", nameof(gtin));
}
