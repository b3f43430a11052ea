using System.Globalization;
using System.Text;

namespace Fettle.Engineering.Identification;

/// <summary>An application identifier and its data, checked: what one line under a bar code says.</summary>
public sealed record ElementString
{
    /// <summary>
    /// The character that stands for FNC1 inside the data of a symbol, as scanners send it: ASCII group separator (29).
    /// </summary>
    public const char Separator = '\u001D';

    // GS1 character set 82, from memory: letters, digits and twenty signs; no space.
    private const string Signs = "!\"%&'()*+,-./:;<=>?_";

    /// <summary>Checks and holds the data.</summary>
    /// <param name="identifier">What the data are.</param>
    /// <param name="data">The data, without the identifier.</param>
    /// <exception cref="ArgumentException">The data do not fit the identifier.</exception>
    public ElementString(ApplicationIdentifier identifier, string data)
    {
        if (Problem(identifier, data) is { } problem)
            throw new ArgumentException($"({identifier.Code}) {problem}", nameof(data));
        (Identifier, Data) = (identifier, data);
    }

    /// <summary>What the data are.</summary>
    public ApplicationIdentifier Identifier { get; }

    /// <summary>The data, without the identifier.</summary>
    public string Data { get; }

    /// <summary>What is wrong with data for an identifier, in words; null when nothing is.</summary>
    public static string? Problem(ApplicationIdentifier identifier, string data)
    {
        if (data.Length < identifier.LeastCharacters || data.Length > identifier.MostCharacters)
            return identifier.LeastCharacters == identifier.MostCharacters
                ? $"has {identifier.MostCharacters} characters."
                : $"has {identifier.LeastCharacters} to {identifier.MostCharacters} characters.";
        if (identifier.Numeric && !Digits.Only(data))
            return "has digits only.";
        if (!data.All(c => char.IsAsciiLetterOrDigit(c) || Signs.Contains(c, StringComparison.Ordinal)))
            return "has a character that GS1 bar codes do not carry.";
        return identifier.CheckDigit && !CheckDigit.Matches(data) ? "has a wrong check digit." : null;
    }

    /// <summary>The SSCC of a handling unit, (00).</summary>
    public static ElementString Of(Sscc code) => new(ApplicationIdentifier.Sscc, code.Value);

    /// <summary>
    /// A gross weight in kilograms, (330n), with as many decimals as its six digits leave room for, at most
    /// <paramref name="decimals"/>: 12.5 kg with two is (3302)001250.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The mass is negative or has more than six digits before the point.</exception>
    public static ElementString GrossKilograms(Units.Mass mass, int decimals = 2) =>
        Weight(mass.Kilograms, decimals, ApplicationIdentifier.GrossKilograms);

    /// <summary>A gross weight in pounds, (340n), as <see cref="GrossKilograms"/>: 1200.5 lb with one decimal is (3401)012005.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The mass is negative or has more than six digits before the point.</exception>
    public static ElementString GrossPounds(Units.Mass mass, int decimals = 2) =>
        Weight(mass.Pounds, decimals, ApplicationIdentifier.GrossPounds);

    /// <summary>For people, as printed under the bars: <c>(00)012345678901234567</c>.</summary>
    public static string Readable(IEnumerable<ElementString> elements) => string.Concat(elements);

    /// <summary>
    /// For the symbol: identifiers and data run together, a <see cref="Separator"/> after each that has no predefined
    /// length unless it is the last. Those of predefined length should come first, which saves separators; the order given
    /// is kept.
    /// </summary>
    public static string Join(IReadOnlyList<ElementString> elements)
    {
        var joined = new StringBuilder();
        for (var i = 0; i < elements.Count; i++)
        {
            joined.Append(elements[i].Identifier.Code).Append(elements[i].Data);
            if (!elements[i].Identifier.Predefined && i < elements.Count - 1)
                joined.Append(Separator);
        }

        return joined.ToString();
    }

    /// <inheritdoc cref="Readable"/>
    public override string ToString() => $"({Identifier.Code}){Data}";

    private static ElementString Weight(double amount, int decimals, Func<int, ApplicationIdentifier> identifier)
    {
        if (Require.NotNegative(amount) >= 999_999.5)
            throw new ArgumentOutOfRangeException(nameof(amount), amount, "A label has six digits for a weight.");
        for (var places = decimals; ; places--)
        {
            var scaled = Math.Round((decimal)amount * (decimal)Math.Pow(10, places), MidpointRounding.AwayFromZero);
            if (scaled <= 999_999)
                return new ElementString(identifier(places), scaled.ToString("000000", CultureInfo.InvariantCulture));
        }
    }
}
