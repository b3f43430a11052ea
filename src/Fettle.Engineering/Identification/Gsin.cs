using System.Globalization;

namespace Fettle.Engineering.Identification;

/// <summary>
/// Global shipment identification number (application identifier 402): seventeen digits, the last a check digit. It groups
/// the handling units of one bill of lading. The consignment number 401 has no check digit.
/// </summary>
public static class Gsin
{
    /// <summary>Whether the text is such a number with the right check digit.</summary>
    public static bool IsValid(ReadOnlySpan<char> text) => text.Length == 17 && CheckDigit.Matches(text);

    /// <summary>Makes a number from a company prefix (four to twelve digits) and a reference of as many digits as are left of sixteen.</summary>
    /// <exception cref="ArgumentException">A part is out of its range.</exception>
    public static string Create(string companyPrefix, long reference)
    {
        if (!Digits.Only(companyPrefix) || companyPrefix.Length is < 4 or > 12)
            throw new ArgumentException("A company prefix has four to twelve digits.", nameof(companyPrefix));
        var written = reference.ToString(CultureInfo.InvariantCulture).PadLeft(16 - companyPrefix.Length, '0');
        if (reference < 0 || companyPrefix.Length + written.Length > 16)
            throw new ArgumentOutOfRangeException(nameof(reference), reference, "This prefix leaves fewer digits.");
        var body = companyPrefix + written;
        return body + CheckDigit.Of(body).ToString(CultureInfo.InvariantCulture);
    }
}
