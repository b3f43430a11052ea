using System.Globalization;
using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Web.Declarations;
using Fettle.Web.Holds;

namespace Fettle.Web.Claims;

/// <summary>A claim as it is typed on the page: of each harmed line how many units, and for what sum.</summary>
public sealed class ClaimForm
{
    public const int LongestText = 2000;

    /// <summary>Of one line; our choice.</summary>
    public const decimal MostDollars = 10_000_000;

    /// <summary>Made with the page, so that a form sent twice files one claim.</summary>
    public Guid ClaimId { get; set; }

    /// <summary>The record of delivery that the page showed.</summary>
    public Guid OutcomeId { get; set; }

    public List<ClaimLineForm> Lines { get; set; } = [];

    public string? Grounds { get; set; }
}

public sealed class ClaimLineForm
{
    public string? Reference { get; set; }

    public string? Count { get; set; }

    /// <summary>US dollars, as <see cref="Dollars.Parse"/> reads them.</summary>
    public string? Sum { get; set; }
}

/// <param name="OutcomeId">Id of the record of delivery that the claim rests on, from the pickup.</param>
/// <param name="Lines">What is asked for, line by line.</param>
/// <param name="Grounds">What happened and how the sums come about, 5 to 2,000 characters.</param>
public sealed record ClaimJson(Guid? OutcomeId, IReadOnlyList<ClaimLineJson?>? Lines, string? Grounds);

/// <param name="Reference">The line of the declaration.</param>
/// <param name="Count">So many of its units, 1 or more.</param>
/// <param name="Amount">US dollars for all of them together, above 0, at most two decimals.</param>
public sealed record ClaimLineJson(string? Reference, int? Count, decimal? Amount);

/// <summary>What can be read of a claim, from the page or the API; errors by field.</summary>
public sealed record ClaimReading(IReadOnlyList<ClaimedLine> Lines, Dictionary<string, string> Errors)
{
    private const int MostLines = 400;

    public static ClaimReading Of(ClaimForm form)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var lines = new List<ClaimedLine>();
        foreach (var (index, line) in form.Lines.Index())
        {
            // A line without a sum is not claimed; what is typed for its count is only what the page proposed.
            if (string.IsNullOrWhiteSpace(line.Sum) || string.IsNullOrEmpty(line.Reference))
                continue;
            var count = int.TryParse(line.Count?.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var units) && units > 0 ? units : (int?)null;
            if (count is null)
                errors[$"Lines[{index}].Count"] = T("A whole number, 1 or more.");
            var sum = Dollars.Parse(line.Sum, ClaimForm.MostDollars) is > 0 and var amount ? amount : (decimal?)null;
            if (sum is null)
                errors[$"Lines[{index}].Sum"] = SumComplaint;
            if (count is not null && sum is not null)
                lines.Add(new(line.Reference, count.Value, Money.Dollars(sum.Value)));
        }

        if (lines.Count == 0 && errors.Count == 0)
            errors[form.Lines.Count == 0 ? "Grounds" : "Lines[0].Sum"] = T("Say for at least one line what sum is claimed.");
        Grounds(form.Grounds, "Grounds", errors);
        return new(lines, errors);
    }

    public static ClaimReading Of(ClaimJson request)
    {
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var lines = new List<ClaimedLine>();
        if (request.OutcomeId is null)
            errors["outcomeId"] = T("Which record of delivery does it rest on?");
        if (request.Lines is not { Count: > 0 and <= MostLines } asked)
        {
            errors["lines"] = T("Name 1 to {0} lines.", MostLines);
            asked = [];
        }

        foreach (var (index, line) in asked.Index())
        {
            if (string.IsNullOrWhiteSpace(line?.Reference))
                errors[$"lines[{index}].reference"] = T("Which line of the declaration?");
            if (line?.Count is not >= 1)
                errors[$"lines[{index}].count"] = T("A whole number, 1 or more.");
            if (line?.Amount is not (> 0 and <= ClaimForm.MostDollars) || decimal.Round(line.Amount.Value, 2) != line.Amount)
                errors[$"lines[{index}].amount"] = SumComplaint;
            if (!errors.Keys.Any(key => key.StartsWith($"lines[{index}]", StringComparison.Ordinal)))
                lines.Add(new(line!.Reference!.Trim(), line.Count!.Value, Money.Dollars(line.Amount!.Value)));
        }

        Grounds(request.Grounds, "grounds", errors);
        return new(lines, errors);
    }

    private static string SumComplaint => T("An amount in US dollars above 0, up to {0:#,0}, like 85.50.", ClaimForm.MostDollars);

    private static void Grounds(string? typed, string field, Dictionary<string, string> errors)
    {
        if (HoldText.Complaint(typed, 5, ClaimForm.LongestText, T("Say what happened and how the sum comes about: the carrier's claims handler reads it.")) is { } complaint)
            errors[field] = complaint;
    }
}

/// <summary>The carrier's answer as it is typed.</summary>
public sealed class ClaimAnswerForm
{
    /// <summary>Made with the page, so that a form sent twice answers once.</summary>
    public Guid AnswerId { get; set; }

    /// <summary>The revision of the claim that the page showed.</summary>
    public int Seen { get; set; }

    /// <summary>"acknowledged", "offered", "disallowed" or "paid".</summary>
    public string? Answer { get; set; }

    public string? AnsweredOn { get; set; }

    /// <summary>US dollars, when something is offered or paid.</summary>
    public string? Sum { get; set; }

    public string? Reason { get; set; }

    /// <summary>The command that it stands for; null when there are errors.</summary>
    /// <param name="errors">By the name of the field.</param>
    public AnswerClaim? Read(Guid claimId, Actor by, DateTimeOffset at, out Dictionary<string, string> errors)
    {
        errors = new(StringComparer.Ordinal);
        var answer = Wording.Parse<ClaimAnswer>(Answer);
        if (answer is null)
            errors["answer"] = T("Choose one of: {0}.", string.Join(", ", Wording.All<ClaimAnswer>()));
        if (!DateOnly.TryParseExact(AnsweredOn?.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
            errors["answeredOn"] = T("The day of the answer, for example 2026-11-26.");
        decimal? sum = null;
        if (answer is ClaimAnswer.Offered or ClaimAnswer.Paid)
        {
            sum = Dollars.Parse(Sum, ClaimForm.MostDollars);
            if (sum is not > 0)
                errors["sum"] = T("An amount in US dollars above 0, up to what is claimed, like 85.50.");
        }

        if (!string.IsNullOrWhiteSpace(Reason) && HoldText.Complaint(Reason, 1, ClaimForm.LongestText, "") is { } complaint)
            errors["reason"] = complaint;
        else if (answer == ClaimAnswer.Disallowed && string.IsNullOrWhiteSpace(Reason))
            errors["reason"] = T("Say why: a claims handler on the other side reads it.");
        return errors.Count > 0 ? null : new(claimId, Seen, AnswerId, answer!.Value, day, sum, Reason, new(), by, at);
    }
}
