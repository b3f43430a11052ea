using System.Globalization;

namespace Fettle.Engineering.Units;

/// <summary>
/// Reads a length or a mass as people on a dock write it: <c>48</c>, <c>48.5</c>, <c>48 1/2</c>, <c>48-1/2</c>, <c>48½</c>,
/// <c>4'2"</c>, <c>4 ft 2 in</c>, <c>1.2 m</c>, <c>1219mm</c>, <c>940 lb</c>, <c>12 lb 4 oz</c>, <c>1,250</c>, <c>48,5</c>.
/// The culture of the machine plays no part.
/// </summary>
/// <remarks>
/// <para>A comma followed by exactly three digits groups thousands (<c>48,500</c> is forty-eight thousand five hundred),
/// unless the group before it is a lone zero (<c>0,125</c> is an eighth, since no thousands begin with zero); any other
/// single comma is a decimal comma.</para>
/// <para>A fraction is a proper one (<c>481/2</c> is refused: it is a slip for <c>48 1/2</c> more often than 240.5), and
/// inches after feet stay below 12, ounces after pounds below 16.</para>
/// <para>The reading is exact to the nanometre and the nanogram, the units in which <see cref="Length"/> and
/// <see cref="Mass"/> are kept. A sign is read; whether a negative length makes sense is the caller's question.
/// Never throws; text longer than <see cref="MaxCharacters"/>, exponents, and anything too large to hold are refused.</para>
/// </remarks>
public static class MeasureText
{
    /// <summary>Longer text is refused unread.</summary>
    public const int MaxCharacters = 40;

    // With at most twelve digits before and after the point no product below leaves the range of decimal.
    private const int MaxDigits = 12;
    private const int MaxFractionDigits = 6;

    private static readonly MeasureUnit[] Lengths =
    [
        new(["in", "inch", "inches", "ins", "\""], Length.NanometresPerInch),
        new(["ft", "foot", "feet", "'"], Length.NanometresPerInch * 12m, "in", 12),
        new(["mm", "millimetre", "millimetres", "millimeter", "millimeters"], 1_000_000m),
        new(["cm", "centimetre", "centimetres", "centimeter", "centimeters"], 10_000_000m),
        new(["m", "metre", "metres", "meter", "meters"], 1_000_000_000m, "cm", 100),
    ];

    // "Ton" is absent on purpose: short, long and metric tons differ, and nobody says which is meant.
    private static readonly MeasureUnit[] Masses =
    [
        new(["lb", "lbs", "pound", "pounds", "#"], Mass.NanogramsPerPound, "oz", 16),
        new(["oz", "ounce", "ounces"], Mass.NanogramsPerPound / 16m),
        new(["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"], 1_000_000_000_000m),
        new(["g", "gram", "grams", "gramme", "grammes"], 1_000_000_000m),
        new(["tonne", "tonnes"], 1_000_000_000_000_000m),
    ];

    /// <summary>Reads a length; a bare number is in inches (imperial) or centimetres (metric).</summary>
    public static bool TryLength(string? text, UnitSystem defaultUnits, out Length value)
    {
        var read = TryRead(text, Lengths, defaultUnits == UnitSystem.Metric ? Lengths[3] : Lengths[0], out var nanometres);
        value = read ? Length.FromNanometres(nanometres) : default;
        return read;
    }

    /// <summary>Reads a mass; a bare number is in pounds (imperial) or kilograms (metric).</summary>
    public static bool TryMass(string? text, UnitSystem defaultUnits, out Mass value)
    {
        var read = TryRead(text, Masses, defaultUnits == UnitSystem.Metric ? Masses[2] : Masses[0], out var nanograms);
        value = read ? Mass.FromNanograms(nanograms) : default;
        return read;
    }

    /// <summary>
    /// Reads a number that has no unit, or whose unit the field names: <c>1,250</c>, <c>1250.5</c> and <c>2,5</c> as in a
    /// measure, exactly, and no fractions.
    /// </summary>
    public static bool TryNumber(string? text, out decimal value)
    {
        value = 0;
        if (!TryBegin(text, out var reader, out var negative))
            return false;
        if (reader.Decimal(out _) is not { } number || !reader.AtEnd)
            return false;
        value = negative ? -number : number;
        return true;
    }

    /// <summary>Past the sign, if there is one; false for what is not read at all.</summary>
    private static bool TryBegin(string? text, out Reader reader, out bool negative)
    {
        negative = false;
        if (text is null || text.Length > MaxCharacters)
        {
            reader = default;
            return false;
        }

        reader = new Reader(Plain(text));
        negative = reader.Take('-');
        if (!negative)
            reader.Take('+');
        reader.Spaces();
        return true;
    }

    private static bool TryRead(string? text, MeasureUnit[] units, MeasureUnit bare, out long whole)
    {
        whole = 0;
        if (!TryBegin(text, out var reader, out var negative))
            return false;
        if (reader.Number() is not { } first)
            return false;

        reader.Spaces();
        decimal total;
        if (reader.AtEnd)
        {
            total = first.Times(bare.Scale);
        }
        else
        {
            if (reader.Word(units) is not { } unit)
                return false;
            total = first.Times(unit.Scale);
            reader.Spaces();
            if (!reader.AtEnd)
            {
                // The small unit of "4 ft 2 in", with the architect's dash of 4'-2" allowed and its mark left out as in 4'2.
                if (unit.Minor is not { } minorWord || !first.IsWhole)
                    return false;
                if (reader.Take('-'))
                    reader.Spaces();
                if (reader.Number() is not { } second)
                    return false;
                reader.Spaces();
                var minor = Array.Find(units, u => u.Words[0] == minorWord)!;
                if (!reader.AtEnd && reader.Word([minor]) is null)
                    return false;
                if (!reader.AtEnd || second.Times(1) >= unit.MinorPerMajor)
                    return false;
                total += second.Times(minor.Scale);
            }
        }

        total = Math.Round(negative ? -total : total, MidpointRounding.AwayFromZero);
        if (total is < long.MinValue or > long.MaxValue)
            return false;
        whole = (long)total;
        return true;
    }

    /// <summary>Lower case, one kind of space, dash, quote and slash; written-out vulgar fractions as " n/d".</summary>
    private static string Plain(string text)
    {
        var plain = new System.Text.StringBuilder(text.Length + 8);
        foreach (var c in text)
        {
            _ = c switch
            {
                '−' or '–' => plain.Append('-'),
                '’' or '‘' or '′' => plain.Append('\''),
                '”' or '“' or '″' => plain.Append('"'),
                '⁄' => plain.Append('/'),
                '¼' => plain.Append(" 1/4"),
                '½' => plain.Append(" 1/2"),
                '¾' => plain.Append(" 3/4"),
                '⅓' => plain.Append(" 1/3"),
                '⅔' => plain.Append(" 2/3"),
                '⅛' => plain.Append(" 1/8"),
                '⅜' => plain.Append(" 3/8"),
                '⅝' => plain.Append(" 5/8"),
                '⅞' => plain.Append(" 7/8"),
                _ when char.IsWhiteSpace(c) => plain.Append(' '),
                _ => plain.Append(char.ToLowerInvariant(c)),
            };
        }

        return plain.Replace("''", "\"").ToString().Trim();
    }

    private sealed record MeasureUnit(string[] Words, decimal Scale, string? Minor = null, int MinorPerMajor = 0);

    /// <summary>A decimal number plus a proper fraction.</summary>
    private readonly record struct Written(decimal Value, decimal Numerator, decimal Denominator, bool IsWhole)
    {
        // Scale before dividing, so that halves and sixty-fourths stay exact.
        public decimal Times(decimal scale) => (Value * scale) + (Numerator * scale / Denominator);
    }

    private ref struct Reader(ReadOnlySpan<char> text)
    {
        private readonly ReadOnlySpan<char> text = text;
        private int at;

        public readonly bool AtEnd => at == text.Length;

        public bool Take(char c)
        {
            if (at == text.Length || text[at] != c)
                return false;
            at++;
            return true;
        }

        public void Spaces()
        {
            while (Take(' '))
            {
            }
        }

        public MeasureUnit? Word(MeasureUnit[] units)
        {
            var start = at;
            while (at < text.Length && char.IsAsciiLetter(text[at]))
                at++;
            if (at == start)
                at++;
            var word = text[start..at];
            foreach (var unit in units)
            {
                foreach (var known in unit.Words)
                {
                    if (word.SequenceEqual(known))
                    {
                        if (char.IsAsciiLetter(known[0]))
                            Take('.');
                        return unit;
                    }
                }
            }

            return null;
        }

        /// <summary>"48", "48.5", "1,250", "48,5", "1/2", "48 1/2" or "48-1/2".</summary>
        public Written? Number()
        {
            if (Fraction() is { } alone)
                return alone;
            if (Decimal(out var isWhole) is not { } value)
                return null;
            if (!isWhole)
                return new Written(value, 0, 1, false);

            var afterWhole = at;
            Spaces();
            if (Take('-'))
                Spaces();
            if (Fraction() is { } fraction)
                return fraction with { Value = value };
            at = afterWhole;
            return new Written(value, 0, 1, true);
        }

        /// <summary>A proper fraction, or nothing and no step taken.</summary>
        private Written? Fraction()
        {
            var start = at;
            var numerator = Digits();
            if (numerator.Length is > 0 and <= MaxFractionDigits && Take('/'))
            {
                var denominator = Digits();
                if (denominator.Length is > 0 and <= MaxFractionDigits)
                {
                    var n = Parse(numerator);
                    var d = Parse(denominator);
                    if (n < d)
                        return new Written(0, n, d, false);
                }
            }

            at = start;
            return null;
        }

        public decimal? Decimal(out bool isWhole)
        {
            isWhole = true;
            var head = Digits();
            var whole = head.ToString();
            ReadOnlySpan<char> decimals = default;
            if (head.Length > 0 && at < text.Length && text[at] == ',')
            {
                var groups = 0;
                while (Take(','))
                {
                    var group = Digits();
                    if (group.Length == 3 && head.Length <= 3 && head[0] != '0')
                    {
                        whole += group.ToString();
                        groups++;
                    }
                    else if (groups == 0 && group.Length > 0 && (group.Length != 3 || head is "0"))
                    {
                        decimals = group;
                        isWhole = false;
                        break;
                    }
                    else
                    {
                        return null;
                    }
                }
            }

            if (isWhole && Take('.'))
            {
                decimals = Digits();
                isWhole = false;
                if (decimals.Length == 0)
                    return null;
            }

            if (whole.Length + decimals.Length == 0 || whole.Length > MaxDigits || decimals.Length > MaxDigits)
                return null;
            return Parse($"{whole}.{decimals}0");
        }

        private ReadOnlySpan<char> Digits()
        {
            var start = at;
            while (at < text.Length && char.IsAsciiDigit(text[at]))
                at++;
            return text[start..at];
        }

        private static decimal Parse(ReadOnlySpan<char> digits) =>
            decimal.Parse(digits, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
    }
}
