namespace Fettle.Engineering.Identification;

/// <summary>
/// The check digit of every GS1 number key: from the right, digits weigh 3, 1, 3, 1, …, and the check digit brings the sum
/// up to a full ten (GS1 General Specifications; weights as in GS1's published syntax dictionary).
/// </summary>
public static class CheckDigit
{
    /// <summary>The check digit for a body of digits that has none yet.</summary>
    /// <exception cref="ArgumentException">The body is empty or holds something other than the digits 0 to 9.</exception>
    public static int Of(ReadOnlySpan<char> body)
    {
        if (!Digits.Only(body))
            throw new ArgumentException("A check digit is reckoned from the digits 0 to 9.", nameof(body));
        var sum = 0;
        for (var i = 0; i < body.Length; i++)
            sum += (body[^(i + 1)] - '0') * (i % 2 == 0 ? 3 : 1);
        return (10 - (sum % 10)) % 10;
    }

    /// <summary>Whether the last digit is the check digit of those before it. False for anything that is not digits.</summary>
    public static bool Matches(ReadOnlySpan<char> whole) =>
        whole.Length > 1 && Digits.Only(whole) && whole[^1] - '0' == Of(whole[..^1]);
}

internal static class Digits
{
    public static bool Only(ReadOnlySpan<char> text)
    {
        foreach (var c in text)
        {
            if (!char.IsAsciiDigit(c))
                return false;
        }

        return text.Length > 0;
    }
}
