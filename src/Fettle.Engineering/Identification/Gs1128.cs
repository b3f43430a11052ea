namespace Fettle.Engineering.Identification;

/// <summary>
/// GS1-128: Code 128 (ISO/IEC 15417) with FNC1 in first place. Turns element strings into symbol values, their check value,
/// and the widths of bars and spaces; drawing them is somebody else's work.
/// </summary>
public static class Gs1128
{
    /// <summary>Most data characters in one symbol, identifiers and separators counted, FNC1 in first place not (from memory).</summary>
    public const int MostCharacters = 48;

    private const int CodeC = 99;
    private const int CodeB = 100;
    private const int Fnc1 = 102;
    private const int StartB = 104;
    private const int StartC = 105;
    private const int Stop = 106;

    // Widths in modules of bar, space, bar, space, bar, space for each value 0 to 105, then the stop pattern of seven.
    // ISO/IEC 15417, from memory, and found equal to an independent reader's table; the tests check the rules they obey.
    private const string Patterns =
        "212222222122222221121223121322131222122213122312132212221213221312231212112232122132122231113222123122123221" +
        "223211221132221231213212223112312131311222321122321221312212322112322211212123212321232121111323131123131321" +
        "112313132113132311211313231113231311112133112331132131113123113321133121313121211331231131213113213311213131" +
        "311123311321331121312113312311332111314111221411431111111224111422121124121421141122141221112214112412122114" +
        "122411142112142211241211221114413111241112134111111242121142121241114212124112124211411212421112421211212141" +
        "214121412121111143111341131141114113114311411113411311113141114131311141411131211412211214211232";

    private const string StopPattern = "2331112";

    /// <summary>
    /// The symbol values: a start, FNC1, the data, the check value and the stop. Starts in set C (pairs of digits) when the
    /// data begin with four digits, as logistic labels do, and moves to set B and back where that is shorter.
    /// </summary>
    /// <param name="elements">What the symbol says, in order.</param>
    /// <exception cref="ArgumentException">Nothing, or more than <see cref="MostCharacters"/> characters.</exception>
    public static IReadOnlyList<int> Encode(IReadOnlyList<ElementString> elements)
    {
        var data = ElementString.Join(elements);
        if (data.Length is 0 or > MostCharacters)
            throw new ArgumentException($"A symbol holds 1 to {MostCharacters} characters; this has {data.Length}.", nameof(elements));

        return Values(data, gs1: true);
    }

    /// <summary>
    /// Plain Code 128, without FNC1 and so no GS1 symbol: for numbers of one's own, which no scanner may take for an SSCC.
    /// </summary>
    /// <param name="text">1 to <see cref="MostCharacters"/> characters from space to tilde.</param>
    /// <exception cref="ArgumentException">Nothing, too much, or another character.</exception>
    public static IReadOnlyList<int> EncodePlain(string text)
    {
        if (!CanEncodePlain(text))
            throw new ArgumentException($"A plain symbol holds 1 to {MostCharacters} characters from space to tilde.", nameof(text));
        return Values(text, gs1: false);
    }

    public static bool CanEncodePlain(string text) => text.Length is > 0 and <= MostCharacters && text.All(c => c is >= ' ' and <= '~');

    private static List<int> Values(string data, bool gs1)
    {
        var inC = DigitsFrom(data, 0) >= 4;
        List<int> values = [inC ? StartC : StartB];
        if (gs1)
            values.Add(Fnc1);
        for (var at = 0; at < data.Length;)
        {
            if (data[at] == ElementString.Separator)
            {
                values.Add(Fnc1);
                at++;
                continue;
            }

            var run = DigitsFrom(data, at);
            if (inC && run >= 2)
            {
                values.Add(((data[at] - '0') * 10) + (data[at + 1] - '0'));
                at += 2;
            }
            else if (inC)
            {
                values.Add(CodeB);
                inC = false;
            }
            else if (run >= 4 && run % 2 == 0)
            {
                // An odd run gives its first digit to set B, so that the rest goes in pairs.
                values.Add(CodeC);
                inC = true;
            }
            else
            {
                values.Add(data[at] - ' ');
                at++;
            }
        }

        values.Add(CheckValue(values));
        values.Add(Stop);
        return values;
    }

    /// <summary>
    /// The check value: the start's value, plus each following value times its place, modulo 103.
    /// </summary>
    /// <param name="values">Start, FNC1 and data, without check value and stop.</param>
    public static int CheckValue(IReadOnlyList<int> values)
    {
        var sum = values[0];
        for (var i = 1; i < values.Count; i++)
            sum += i * values[i];
        return sum % 103;
    }

    /// <summary>Widths in modules, bar and space in turn beginning with a bar. Leave ten modules of quiet on either side.</summary>
    /// <param name="values">Symbol values as <see cref="Encode"/> gives them, stop included.</param>
    public static IReadOnlyList<int> Widths(IReadOnlyList<int> values) =>
        [.. values.SelectMany(Pattern).Select(c => c - '0')];

    private static IEnumerable<char> Pattern(int value) => value == Stop ? StopPattern : Patterns.Substring(value * 6, 6);

    private static int DigitsFrom(string data, int at)
    {
        var end = at;
        while (end < data.Length && char.IsAsciiDigit(data[end]))
            end++;
        return end - at;
    }
}
