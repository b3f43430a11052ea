using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Fettle.Engineering.Identification;

/// <summary>
/// Serial shipping container code: the number on a handling unit, eighteen digits made of an extension digit, the GS1
/// company prefix, a serial reference and a check digit. A serial must not come back within twelve months.
/// </summary>
/// <remarks>Nobody without a company prefix may make one: a shipper who has none keeps numbers of their own.</remarks>
[JsonConverter(typeof(SsccJsonConverter))]
public sealed record Sscc
{
    /// <summary>Digits in the whole code.</summary>
    public const int Length = 18;

    private const int LeastPrefixDigits = 4;
    private const int MostPrefixDigits = 12;
    private const string UrnStart = "urn:epc:id:sscc:";

    private Sscc(string digits) => Value = digits;

    /// <summary>The eighteen digits.</summary>
    public string Value { get; }

    /// <summary>Makes a code.</summary>
    /// <param name="extension">Extension digit, 0 to 9, free to use.</param>
    /// <param name="companyPrefix">GS1 company prefix, four to twelve digits.</param>
    /// <param name="serial">Serial reference, as many digits as the prefix leaves of sixteen.</param>
    /// <exception cref="ArgumentException">A part is out of its range.</exception>
    public static Sscc Create(int extension, string companyPrefix, long serial)
    {
        if (extension is < 0 or > 9)
            throw new ArgumentOutOfRangeException(nameof(extension), extension, "The extension digit is 0 to 9.");
        if (!IsCompanyPrefix(companyPrefix))
            throw new ArgumentException("A company prefix has four to twelve digits.", nameof(companyPrefix));
        var room = SerialDigits(companyPrefix.Length);
        var written = serial.ToString(CultureInfo.InvariantCulture).PadLeft(room, '0');
        if (serial < 0 || written.Length > room)
            throw new ArgumentOutOfRangeException(nameof(serial), serial, $"This prefix leaves {room} digits for the serial.");
        var body = extension.ToString(CultureInfo.InvariantCulture) + companyPrefix + written;
        return new Sscc(body + CheckDigit.Of(body).ToString(CultureInfo.InvariantCulture));
    }

    /// <summary>
    /// The code that a running number stands for: the serial as far as the prefix leaves digits, what goes beyond it in the
    /// extension digit. Different numbers give different codes.
    /// </summary>
    /// <param name="companyPrefix">GS1 company prefix, four to twelve digits.</param>
    /// <param name="number">0 or more.</param>
    /// <returns>Null when the prefix has no such many codes: ten to the power of (17 less its length).</returns>
    /// <exception cref="ArgumentException">A part is out of its range.</exception>
    public static Sscc? OfNumber(string companyPrefix, long number)
    {
        if (!IsCompanyPrefix(companyPrefix))
            throw new ArgumentException("A company prefix has four to twelve digits.", nameof(companyPrefix));
        ArgumentOutOfRangeException.ThrowIfNegative(number);
        var serials = 1L;
        for (var i = SerialDigits(companyPrefix.Length); i > 0; i--)
            serials *= 10;
        return number / serials > 9 ? null : Create((int)(number / serials), companyPrefix, number % serials);
    }

    /// <summary>Four to twelve digits. Whether GS1 has given it to somebody cannot be told from the digits.</summary>
    public static bool IsCompanyPrefix(string text) => Digits.Only(text) && text.Length is >= LeastPrefixDigits and <= MostPrefixDigits;

    /// <summary>Reads eighteen digits, spaces between them and a leading "(00)" allowed; the check digit must be right.</summary>
    public static bool TryParse(string? text, [NotNullWhen(true)] out Sscc? code)
    {
        code = null;
        if (text is null || text.Length > 60)
            return false;
        var digits = text.Replace(" ", "", StringComparison.Ordinal);
        if (digits.StartsWith("(00)", StringComparison.Ordinal))
            digits = digits[4..];
        if (digits.Length != Length || !CheckDigit.Matches(digits))
            return false;
        code = new Sscc(digits);
        return true;
    }

    /// <summary>
    /// As an electronic product code: <c>urn:epc:id:sscc:0614141.1234567890</c>, extension digit before the serial, check
    /// digit left out.
    /// </summary>
    /// <param name="prefixDigits">Length of the company prefix, which the eighteen digits alone do not tell.</param>
    /// <exception cref="ArgumentOutOfRangeException">A prefix has four to twelve digits.</exception>
    public string ToUrn(int prefixDigits)
    {
        if (prefixDigits is < LeastPrefixDigits or > MostPrefixDigits)
            throw new ArgumentOutOfRangeException(nameof(prefixDigits), prefixDigits, "A company prefix has four to twelve digits.");
        return UrnStart + Value[1..(1 + prefixDigits)] + "." + Value[0] + Value[(1 + prefixDigits)..^1];
    }

    /// <summary>Reads an electronic product code of this kind and puts the check digit back.</summary>
    public static bool TryParseUrn(string? urn, [NotNullWhen(true)] out Sscc? code)
    {
        code = null;
        if (urn is null || !urn.StartsWith(UrnStart, StringComparison.Ordinal))
            return false;
        var parts = urn[UrnStart.Length..].Split('.');
        if (parts is not [{ Length: >= LeastPrefixDigits and <= MostPrefixDigits } prefix, { Length: > 1 } rest]
            || prefix.Length + rest.Length != Length - 1 || !Digits.Only(prefix) || !Digits.Only(rest))
            return false;
        var body = rest[0] + prefix + rest[1..];
        code = new Sscc(body + CheckDigit.Of(body).ToString(CultureInfo.InvariantCulture));
        return true;
    }

    /// <inheritdoc cref="Value"/>
    public override string ToString() => Value;

    private static int SerialDigits(int prefixDigits) => Length - 2 - prefixDigits;
}

internal sealed class SsccJsonConverter : JsonConverter<Sscc>
{
    public override Sscc Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TokenType == JsonTokenType.String && Sscc.TryParse(reader.GetString(), out var code)
            ? code
            : throw new JsonException("An SSCC is eighteen digits, the last of them its check digit.");

    public override void Write(Utf8JsonWriter writer, Sscc value, JsonSerializerOptions options) => writer.WriteStringValue(value.Value);
}
