using CsCheck;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

/// <summary>Lines of an account, and short ways to say what became of them.</summary>
internal static class Line
{
    public static readonly Guid Carrier = new("00000000-0000-7000-8000-000000000003");
    public static readonly Guid Shipper = new("00000000-0000-7000-8000-000000000001");
    public static readonly Guid Site = new("00000000-0000-7000-8000-000000000011");
    public static readonly Guid Terminal = new("00000000-0000-7000-8000-000000000031");
    public static readonly DateTimeOffset At = new(2026, 11, 18, 20, 0, 0, TimeSpan.Zero);
    public static readonly Period Year = Period.Last(12, DateOnly.FromDateTime(At.UtcDateTime));

    private static int made;

    /// <summary>A line that nothing stops, of four units declared stackable that carry their like.</summary>
    public static LineDeclared Declared(params string[] stops) => new(
        new(Id(), "A1"),
        "P-AAAAAA",
        Carrier,
        Shipper,
        Site,
        Lane.Of(Terminal, "Quillfeather Paper, Saltgrass", 300),
        new("cartons 4064 3048 3048"),
        new("cartons"),
        "Robin",
        4,
        stops.Length > 0 ? Verdict.Hold : Verdict.Ready,
        Stackable: true,
        CarriesLikeUnit: true,
        stops,
        stops,
        At);

    public static ScoredLine Of(LineDeclared declared, params IReadOnlyList<Func<LineKey, LineFact>> facts) =>
        facts.Aggregate(ScoredLine.Evolve(null, declared)!, (line, fact) => ScoredLine.Evolve(line, fact(declared.Line))!);

    public static Func<LineKey, LineFact> Arrived(OutcomeKind kind, bool? carried = null, int count = 4) =>
        line => new LineDelivered(line, [new(count, kind, carried)], At.AddDays(3));

    public static Func<LineKey, LineFact> Tested(bool held) => line => new LineStackTested(line, held, At.AddHours(4));

    /// <summary>Held when handed in, and decided so many minutes later.</summary>
    public static IReadOnlyList<Func<LineKey, LineFact>> Decided(HoldDecision decision, int minutes)
    {
        var hold = Id();
        return [line => new LineHeld(line, hold, At), line => new LineDecided(line, hold, decision, At.AddMinutes(minutes))];
    }

    public static IReadOnlyList<AccountCell> Cells(params IEnumerable<ScoredLine> lines) =>
        [.. CellSheet.Of(lines).Cells.Select(cell => new AccountCell(cell.Key.SiteId, cell.Key.Facet, cell.Key.Since, cell.Key.Key, cell.Value))];

    public static IEnumerable<ScoredLine> Times(int count, Func<ScoredLine> line) => Enumerable.Range(0, count).Select(_ => line());

    private static Guid Id() => new($"00000000-0000-7000-8000-{Interlocked.Increment(ref made):000000000000}");

    /// <summary>A few lines and what may become of them, in an order in which it may come.</summary>
    public static readonly Gen<LineFact[]> History =
        from lines in AnyDeclared.Array[0, 12]
        let numbered = lines.Select((line, index) => line with { Line = new(new Guid(index + 1, 0, 0, new byte[8]), "A1") }).ToArray()
        from later in (numbered.Length == 0 ? Gen.Const(Array.Empty<LineFact>()) : AnyFact(numbered).Array[0, 30])
        select (LineFact[])[.. numbered, .. later];

    private static Gen<LineDeclared> AnyDeclared =>
        from carrier in Gen.Int[1, 2]
        from shipper in Gen.Int[1, 3]
        from site in Gen.Int[1, 2]
        from place in Gen.OneOf("Saltgrass", "Copper Fork")
        from miles in Gen.Int[1, 1500]
        from kind in Gen.OneOf("bags", "drums-steel", "cartons 4064 3048 3048")
        from builder in Gen.OneOf("", "Robin", "Sam")
        from quantity in Gen.Int[1, 20]
        from stops in Gen.Int[0, 15]
        from more in Gen.Int[0, 7]
        from stackable in Gen.Bool
        from carries in Gen.Bool
        from days in Gen.Int[0, 500]
        let codes = Codes(stops, "height", "overhang", "top-load", "wrap-turns")
        select new LineDeclared(
            default, "P-AAAAAA", Number(carrier), Number(shipper), Number(site), Lane.Of(Terminal, place, miles), new(kind), new(kind.Split(' ')[0]), builder, quantity,
            codes.Length > 0 ? Verdict.Hold : Verdict.Ready, stackable, carries, codes,
            [.. codes.Concat(Codes(more, "clearance", "sliding", "tipping")).Order(StringComparer.Ordinal)], At.AddDays(-days));

    private static Gen<LineFact> AnyFact(LineDeclared[] lines) =>
        from line in Gen.OneOf(lines)
        from hold in Gen.Int[1, 3]
        from minutes in Gen.Int[0, 5000]
        from decision in Gen.Enum<HoldDecision>()
        from held in Gen.Bool
        from parts in Gen.Select(Gen.Int[1, 9], Gen.Enum<OutcomeKind>(), Gen.Int[0, 2], (count, kind, carried) => new DeliveredPart(count, kind, carried == 2 ? null : carried == 1)).Array[0, 3]
        from fact in Gen.OneOf<LineFact>(
            new LineHeld(line.Line, new Guid(line.Line.GetHashCode(), (short)hold, 0, new byte[8]), At),
            new LineDecided(line.Line, new Guid(line.Line.GetHashCode(), (short)hold, 0, new byte[8]), decision, At.AddMinutes(minutes)),
            new LineStackTested(line.Line, held, At.AddMinutes(minutes)),
            new LineDelivered(line.Line, parts, At.AddMinutes(minutes)),
            new LineClaimed(line.Line, new Guid(line.Line.GetHashCode(), (short)hold, 1, new byte[8]), minutes + 1, At),
            new LineClaimAnswered(line.Line, new Guid(line.Line.GetHashCode(), (short)hold, 1, new byte[8]), (ClaimAnswer)((int)decision % 4), minutes, At.AddMinutes(minutes)),
            new LineClaimWithdrawn(line.Line, new Guid(line.Line.GetHashCode(), (short)hold, 1, new byte[8]), At.AddMinutes(minutes)))
        select fact;

    private static Guid Number(int number) => new(number, 0, 0, new byte[8]);

    private static string[] Codes(int bits, params string[] codes) => [.. codes.Where((_, index) => (bits & (1 << index)) != 0)];
}
