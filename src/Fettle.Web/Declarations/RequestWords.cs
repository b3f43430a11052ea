using Fettle.Readiness.Declarations;

namespace Fettle.Web.Declarations;

/// <summary>What is asked of the carrier, as the words of the API and the forms.</summary>
public static class RequestWords
{
    public static readonly IReadOnlyList<string> All = ["decking", "airbags", "no-top-load", "strap", "bulkhead"];

    public static IEnumerable<string> Words(this Requests requests)
    {
        if (requests.Decking)
            yield return "decking";
        if (requests.Airbags)
            yield return "airbags";
        if (requests.NoTopLoad)
            yield return "no-top-load";
        if (requests.Strap)
            yield return "strap";
        if (requests.Bulkhead)
            yield return "bulkhead";
    }

    /// <summary>Null when a word is none of <see cref="All"/>.</summary>
    public static Requests? Parse(IReadOnlyList<string?> words) => words.All(word => word is not null && All.Contains(word))
        ? new(words.Contains("decking"), words.Contains("airbags"), words.Contains("no-top-load"), words.Contains("strap"), words.Contains("bulkhead"))
        : null;
}
