using Fettle.Engineering.Identification;
using Fettle.Web.Declarations;
using Marten;

namespace Fettle.Web.HandlingUnits;

/// <summary>From what is on a label to the unit that carries it.</summary>
public static class UnitLookup
{
    /// <summary>
    /// The units that a scanner or a hand may mean: normally one. Reads an SSCC with or without (00), a scanner's "]C1" or
    /// bare 00 before it, the unit's own number in any case, and the short one.
    /// </summary>
    /// <remarks>Nothing is hidden here: ask the caller's rights of what is found.</remarks>
    public static async Task<IReadOnlyList<NumberedUnit>> FindAsync(IQuerySession session, string? scanned, CancellationToken cancel)
    {
        var text = (scanned ?? "").Trim();
        if (text.Length is 0 or > 60)
            return [];
        if (SsccIn(text) is { } sscc)
            return await session.Query<NumberedUnit>().Where(unit => unit.Sscc == sscc.Value).ToListAsync(cancel);
        // No unit is called so, and the database cannot even be asked.
        if (!UnitFormValidator.ReadableText(text))
            return [];
        // Pickup numbers are capitals; a line's name keeps the case that the shipper gave it.
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        var (exact, shortened) = slash < 0 ? (text, text.ToUpperInvariant()) : (text[..slash].ToUpperInvariant() + text[slash..], text);
        return await session.Query<NumberedUnit>().Where(unit => unit.Number == exact || unit.Short == shortened).ToListAsync(cancel);
    }

    /// <summary>The code in what a scanner sends or a hand types; null when it is none.</summary>
    public static Sscc? SsccIn(string text)
    {
        var digits = text.Trim().TrimStart(ElementString.Separator);
        if (digits.StartsWith("]C1", StringComparison.OrdinalIgnoreCase))
            digits = digits[3..];
        if (Sscc.TryParse(digits, out var code))
            return code;
        return digits.Length >= 20 && digits.StartsWith("00", StringComparison.Ordinal) && Sscc.TryParse(digits[2..], out code) ? code : null;
    }
}
