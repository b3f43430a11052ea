using JasperFx;
using Marten.Exceptions;
using Npgsql;

namespace Fettle.Web.Declarations;

/// <summary>A new number that somebody has already: whoever gets one tries again with another.</summary>
public static class NumberTaken
{
    /// <summary>The unique index over the numbers of pickups.</summary>
    public const string OfDraft = "draft_number_is_taken_once";

    /// <summary>The unique index over the numbers of dock visits.</summary>
    public const string OfVisit = "visit_number_is_taken_once";

    /// <summary>Of numbers in a row: with a million in use five are all taken once in 200 million million times.</summary>
    private const int Tries = 5;

    /// <summary>Saves something under a new number.</summary>
    /// <param name="save">Given a number. Called again with another when that one is taken, so it opens a session of its own each time.</param>
    /// <param name="next">Where numbers come from; <see cref="Draft.NewNumber"/> when null.</param>
    public static async Task<T> RetryAsync<T>(char kind, Func<string, Task<T>> save, Func<char, string>? next = null)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await save((next ?? Draft.NewNumber)(kind));
            }
            catch (Exception taken) when (attempt < Tries && Is(taken))
            {
            }
        }
    }

    // For a value that is taken Marten throws one or the other.
    private static bool Is(Exception e) =>
        e is MartenCommandException or DocumentAlreadyExistsException
        && e.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation, ConstraintName: OfDraft or OfVisit };
}
