using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;

namespace Fettle.Readiness.Alternatives;

/// <summary>
/// What is wrong with a line, or with several that take its place: of each code the gravities of its findings, gravest
/// first. Where several lines have the same wrong it counts once, at its worst.
/// </summary>
internal sealed class Wrongs
{
    private readonly List<(string Code, int Rank, Severity Severity)> wrongs = [];

    private Wrongs(int score) => Score = score;

    /// <summary>All gravities in one figure, so that two builds can be compared: a stop weighs more than any cautions, a caution more than any tips.</summary>
    public int Score { get; private set; }

    public static Wrongs Of(IReadOnlyList<UnitResult> lines)
    {
        var all = new Wrongs(0);
        foreach (var line in lines)
        {
            for (var i = 0; i < line.Findings.Count; i++)
            {
                // Findings come gravest first, so the rank among those of one code is by gravity.
                var rank = 0;
                for (var j = 0; j < i; j++)
                {
                    if (line.Findings[j].Code == line.Findings[i].Code)
                        rank++;
                }

                all.Add(line.Findings[i].Code, rank, line.Findings[i].Severity);
            }
        }

        foreach (var wrong in all.wrongs)
            all.Score += wrong.Severity switch { Severity.Stop => 10_000, Severity.Caution => 100, Severity.Tip => 1 };
        return all;
    }

    public bool Has(string code) => wrongs.Exists(wrong => wrong.Code == code);

    /// <summary>Nothing graver than before, no stop or caution that was not there, and less in all.</summary>
    public bool IsLessThan(Wrongs before) => Score < before.Score && !Added(before).Any();

    /// <summary>Codes of stops and cautions that the other has not, or not as grave.</summary>
    public IEnumerable<string> Added(Wrongs before) =>
        from wrong in wrongs
        let had = before.wrongs.FirstOrDefault(had => had.Code == wrong.Code && had.Rank == wrong.Rank)
        where had.Code is null ? wrong.Severity > Severity.Tip : wrong.Severity > had.Severity
        select wrong.Code;

    private void Add(string code, int rank, Severity severity)
    {
        var at = wrongs.FindIndex(wrong => wrong.Code == code && wrong.Rank == rank);
        if (at < 0)
            wrongs.Add((code, rank, severity));
        else if (severity > wrongs[at].Severity)
            wrongs[at] = (code, rank, severity);
    }
}
