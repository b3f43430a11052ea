using Fettle.Readiness.Alternatives;
using FluentValidation;
using MimeKit;

namespace Fettle.Web;

/// <summary>Whether the portal can work as it was configured. Each message names the setting and what it may be.</summary>
public sealed class SettingsValidator : AbstractValidator<Settings>
{
    public static readonly SettingsValidator Instance = new();

    private static readonly string[] Roles = ["web", "worker", "both"];
    private static readonly string[] Securities = ["auto", "none", "starttls", "tls"];

    private static IEnumerable<double> Amounts(UnitCosts costs) => typeof(UnitCosts).GetProperties()
        .Where(property => property.PropertyType == typeof(decimal) || property.PropertyType == typeof(double))
        .Select(property => Convert.ToDouble(property.GetValue(costs), System.Globalization.CultureInfo.InvariantCulture));

    private SettingsValidator()
    {
        RuleFor(x => x.Role).Must(role => Roles.Contains(role, StringComparer.OrdinalIgnoreCase)).WithMessage("Fettle:Role (or --role) is web, worker or both.");
        RuleFor(x => x.PublicUrl)
            .Must(url => Uri.TryCreate(url, UriKind.Absolute, out var uri) && (uri.Scheme == Uri.UriSchemeHttp || uri.Scheme == Uri.UriSchemeHttps))
            .WithMessage("Fettle:PublicUrl is an address such as https://freight.example.");
        RuleFor(x => x.Smtp.Port).InclusiveBetween(1, 65_535).WithMessage("Fettle:Smtp:Port is 1 to 65535.");
        RuleFor(x => x.Smtp.Security).Must(security => Securities.Contains(security, StringComparer.OrdinalIgnoreCase)).WithMessage("Fettle:Smtp:Security is auto, none, starttls or tls.");
        RuleFor(x => x.Smtp.From).Must(from => MailboxAddress.TryParse(from, out _)).WithMessage("Fettle:Smtp:From is an address such as Fettle <fettle@freight.example>.");
        RuleFor(x => x.Smtp.PatienceSeconds).InclusiveBetween(1, 600).WithMessage("Fettle:Smtp:PatienceSeconds is 1 to 600.");
        RuleFor(x => x.Jobs.SweepSeconds).InclusiveBetween(1, 59).WithMessage("Fettle:Jobs:SweepSeconds is 1 to 59.");
        RuleFor(x => x.Jobs.WritingSeconds).InclusiveBetween(1, 600).WithMessage("Fettle:Jobs:WritingSeconds is 1 to 600.");
        RuleFor(x => x.Retention.Years).InclusiveBetween(1, 100).WithMessage("Fettle:Retention:Years is 1 to 100, or left out: then nothing is ever removed.");
        RuleFor(x => x.SignIn.TriesForOneAddress).InclusiveBetween(1, 1_000_000).WithMessage("Fettle:SignIn:TriesForOneAddress is 1 to 1000000.");
        RuleFor(x => x.Worth.CostPerTrailerMile).InclusiveBetween(0, 1000).WithMessage("Fettle:Worth:CostPerTrailerMile is 0 to 1000 US dollars.");
        RuleFor(x => x.Worth.ShareOffered).InclusiveBetween(0, 1).WithMessage("Fettle:Worth:ShareOffered is 0 to 1.");
        RuleFor(x => x.Digest.TimeZone).Must(zone => TimeZoneInfo.TryFindSystemTimeZoneById(zone, out _)).WithMessage("Fettle:Digest:TimeZone is a name such as America/Chicago.");
        RuleFor(x => x.Costs)
            .Must(costs => Amounts(costs).All(amount => amount is >= 0 and <= 10_000)).WithMessage("Fettle:Costs are amounts and minutes from 0 to 10,000.")
            .Must(costs => costs.Platforms.Select(choice => choice.Key).Distinct(StringComparer.Ordinal).Count() == costs.Platforms.Count)
            .WithMessage("Fettle:Costs:Platforms have keys that differ.");
    }
}
