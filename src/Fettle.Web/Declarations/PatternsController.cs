using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Web.Api;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Declarations;

[Route("api/v1/patterns")]
public sealed class PatternsController : ApiController
{
    /// <summary>The most identical cartons in one layer on a deck, turned by 90° where it helps, nothing past the edge.</summary>
    [HttpPost]
    [ProducesResponseType<PatternAnswer>(StatusCodes.Status200OK, AsJson)]
    public IActionResult Find(PatternJson request)
    {
        var units = request.Units == "metric" ? UnitSystem.Metric : UnitSystem.Imperial;
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        if (request.Units is not (null or "imperial" or "metric"))
            errors["units"] = "Choose one of: imperial, metric.";
        var deckLength = Side(request.Deck?.Length, "deck.length", UnitFormValidator.LongestSide);
        var deckWidth = Side(request.Deck?.Width, "deck.width", UnitFormValidator.LongestSide);
        var cartonLength = Side(request.Carton?.Length, "carton.length", UnitFormValidator.LongestSide);
        var cartonWidth = Side(request.Carton?.Width, "carton.width", UnitFormValidator.LongestSide);
        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        if (deckLength / cartonLength * (deckWidth / cartonWidth) > UnitFormValidator.MostCartons)
            return Answers.Unreadable([new("carton", T("More than {0} such cartons fit: check the sizes.", UnitFormValidator.MostCartons))]);
        var pattern = PatternFinder.Best(deckLength, deckWidth, cartonLength, cartonWidth);
        return Ok(new PatternAnswer(
            pattern.Count,
            pattern.UpperBound,
            pattern.IsOptimal,
            [.. pattern.Placements.Select(p => new PlacementAnswer(Shown(p.X), Shown(p.Y), Shown(p.Length), Shown(p.Width)))]));

        Length Side(double? value, string field, Length most)
        {
            if (value is > 0 and < 1e6 && Length.From(value.Value, units) is var length && length > Length.Zero && length <= most)
                return length;
            errors[field] = $"Give a length, more than nothing and at most {((Quantity)most).Show(units)}.";
            return Length.FromInches(1);
        }

        double Shown(Length length) => Math.Round(length.In(units), 6);
    }
}

/// <param name="Units">"imperial" (inches) or "metric" (centimetres); imperial when left out.</param>
public sealed record PatternJson(string? Units, RectangleJson? Deck, RectangleJson? Carton);

public sealed record RectangleJson(double? Length, double? Width);

/// <param name="UpperBound">No layer can hold more.</param>
/// <param name="Optimal">The count is proved to be the most.</param>
public sealed record PatternAnswer(int Count, int UpperBound, bool Optimal, IReadOnlyList<PlacementAnswer> Placements);

/// <summary>From one corner of the deck: x along its length, y along its width.</summary>
public sealed record PlacementAnswer(double X, double Y, double Length, double Width);
