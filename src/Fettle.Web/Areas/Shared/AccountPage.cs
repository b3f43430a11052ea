using Fettle.Readiness.Scorecards;
using Fettle.Web.Scorecards;

namespace Fettle.Web.Areas.Shared;

/// <summary>One account, as its account manager sees it and as the shipper sees its own.</summary>
/// <param name="Path">Where it is: "/accounts/…" or "/score".</param>
/// <param name="IsOwn">The reader's own freight.</param>
public sealed record AccountPage(Guid ShipperId, string Name, AccountEvidence Evidence, PlaceNames Places, string Path, bool IsOwn)
{
    /// <summary>Products and lanes of which something can be said: so many are shown.</summary>
    private const int MostSure = 25;

    /// <summary>And so many of which there are too few lines; what there is beyond is said.</summary>
    private const int MostUnsure = 8;

    public IReadOnlyList<FreightEvidence> Freight { get; } =
        [.. Evidence.Freight.Where(row => row.Evidence.IsEnough).Take(MostSure), .. Evidence.Freight.Where(row => !row.Evidence.IsEnough).Take(MostUnsure)];

    public int Months => Evidence.Period.Length;

    /// <summary>The list of the lines behind a figure.</summary>
    public string Lines(LineQuestion question) => $"{Path}/lines{question.Query(Months)}";
}

/// <summary>The lines behind a figure.</summary>
public sealed record LinesPage(string Name, string Back, string Path, LineList List, LineQuestion Question, PlaceNames Places, Period Period)
{
    public string At(int page) => $"{Path}/lines{Question.Query(Period.Length, page)}";
}
