using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Pickups;
using FluentValidation;

namespace Fettle.Web.Declarations;

/// <summary>Whether the head of a pickup can be read. Whether its site and terminal exist is asked of the parties.</summary>
public sealed class PickupFormValidator : AbstractValidator<PickupForm>
{
    /// <summary>More lines than a trailer has places for, identical units being one line.</summary>
    public const int MostLines = 100;

    public static readonly PickupFormValidator Instance = new();

    private PickupFormValidator()
    {
        RuleFor(x => x.Units).Must(units => units is "imperial" or "metric").WithMessage(_ => T("Choose one of: imperial, metric."));
        RuleFor(x => x.Destination)
            .NotEmpty().WithMessage(_ => T("Who receives it, and where?"))
            .MaximumLength(200).WithMessage(_ => T("At most 200 characters."))
            .Must(UnitFormValidator.ReadableText).WithMessage(_ => T("Letters, digits and ordinary signs only."));
        RuleFor(x => x.ConsigneeAddress)
            .MaximumLength(200).WithMessage(_ => T("At most 200 characters."))
            .Must(UnitFormValidator.ReadableText).WithMessage(_ => T("Letters, digits and ordinary signs only."));
        RuleFor(x => x.Equipment).MustBeOneOf<PickupForm, Equipment>();
        RuleFor(x => x.Lane.Miles)
            .Must(text => Miles(text) is >= 0 and <= 10_000).WithMessage(_ => T("Miles on the road, 0 to 10,000."));
        RuleFor(x => x.Lane.Transfers).MustBeWhole(0, 20);
        RuleFor(x => x.HandlingUnits.Count)
            .LessThanOrEqualTo(MostLines).WithMessage(_ => T("At most {0} lines in one pickup.", MostLines))
            .OverridePropertyName("HandlingUnits");
        RuleFor(x => x.Window.Date).Must(text => Date(text) is not null).WithMessage(_ => T("The day of the pickup."));
        RuleFor(x => x.Window.From).Must(text => Time(text) is not null).WithMessage(_ => T("A time such as 14:00."));
        RuleFor(x => x.Window.To)
            .Must(text => Time(text) is not null).WithMessage(_ => T("A time such as 16:00."))
            .Must((x, text) => Time(text) is not { } to || Time(x.Window.From) is not { } from || to > from).WithMessage(_ => T("The window closes after it opens."));
    }

    internal static double? Miles(string? text) =>
        MeasureText.TryNumber(text, out var miles) ? (double)miles : null;

    internal static DateOnly? Date(string? text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.AllowWhiteSpaces, out var date) ? date : null;

    internal static TimeOnly? Time(string? text) =>
        TimeOnly.TryParseExact(text, ["HH:mm", "H:mm", "HH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.AllowWhiteSpaces, out var time) ? time : null;
}
