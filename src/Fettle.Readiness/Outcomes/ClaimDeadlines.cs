using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Outcomes;

/// <summary>
/// Until when something has to be done about damage or loss. They only remind: the carrier's tariff and the bill of lading
/// have the last word, and a claims handler or lawyer reads those.
/// </summary>
/// <param name="ConcealedDamageBy">Last day to report damage that was not seen at delivery.</param>
/// <param name="ClaimBy">Last day to file a claim for damage.</param>
public sealed record ClaimDeadlines(DateOnly ConcealedDamageBy, DateOnly ClaimBy)
{
    /// <param name="deliveredOn">The day itself is not counted.</param>
    /// <param name="holidays">Days besides Saturdays and Sundays that are no business days.</param>
    public static ClaimDeadlines Of(DateOnly deliveredOn, ClaimTerms terms, IReadOnlyCollection<DateOnly> holidays) => new(
        AfterBusinessDays(deliveredOn, terms.ConcealedDamageDays, holidays),
        deliveredOn.AddMonths(terms.ClaimMonths));

    /// <summary>
    /// Last day for a suit, counted from the carrier's written disallowance; a day that the year does not have becomes the
    /// month's last.
    /// </summary>
    public static DateOnly SuitBy(DateOnly disallowedOn, ClaimTerms terms) => disallowedOn.AddYears(terms.SuitYears);

    private static DateOnly AfterBusinessDays(DateOnly from, int days, IReadOnlyCollection<DateOnly> holidays)
    {
        var day = from;
        for (var counted = 0; counted < days;)
        {
            day = day.AddDays(1);
            if (day.DayOfWeek is not (DayOfWeek.Saturday or DayOfWeek.Sunday) && !holidays.Contains(day))
                counted++;
        }

        return day;
    }
}
