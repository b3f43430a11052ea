using Fettle.Web.Identity;
using FluentValidation;

namespace Fettle.Web.Areas.Admin.Shared;

/// <summary>A role, and for each role where it counts. Only what belongs to the chosen role is read.</summary>
/// <param name="Dock">A shipper's id, or shipper/site.</param>
/// <param name="Terminal">A carrier's id, or carrier/terminal.</param>
/// <param name="Scope">A carrier's id, or <see cref="PartyBook.WholePortal"/>.</param>
public sealed record RightsForm(
    Role? Role = null,
    string? Dock = null,
    string? Terminal = null,
    Guid? AccountCarrier = null,
    IReadOnlyList<Guid>? AccountShippers = null,
    string? Scope = null)
{
    public sealed class Rules : AbstractValidator<RightsForm>
    {
        public Rules(PartyBook book)
        {
            RuleFor(form => form.Role).Cascade(CascadeMode.Stop)
                .NotNull().WithMessage("Choose what they do.")
                .Must(role => book.Roles.Contains(role!.Value)).WithMessage("You cannot hand out this role.");
            WhenRole(Identity.Role.ShipperClerk, () => RuleFor(form => form.Dock)
                .Must(Chosen).WithMessage("Choose the dock they work at."));
            WhenRole(Identity.Role.TerminalReviewer, () => RuleFor(form => form.Terminal)
                .Must(Chosen).WithMessage("Choose the terminal they work at."));
            WhenRole(Identity.Role.AccountManager, () =>
            {
                RuleFor(form => form.AccountCarrier)
                    .Must(id => book.OwnCarriers.Any(carrier => carrier.Id == id)).WithMessage("Choose the carrier they speak for.");
                RuleFor(form => form.AccountShippers).Cascade(CascadeMode.Stop)
                    .NotEmpty().WithMessage("Choose at least one shipper.")
                    .Must(ids => ids!.All(book.KnowsShipper)).WithMessage("One of these shippers is not known here.");
            });
            WhenRole(Identity.Role.Administrator, () => RuleFor(form => form.Scope)
                .Must(Chosen).WithMessage("Choose what they administer."));

            void WhenRole(Role role, Action rules) => When(form => form.Role == role, rules);
            bool Chosen(RightsForm form, string? choice) => book.Choose(form) is not null;
        }
    }
}
