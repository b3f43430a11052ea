using FluentValidation.Results;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace Fettle.Web.Areas.Shared;

/// <summary>
/// Brings what is wrong with a form to its fields. Pages hold their form in a property named Form, and actions take it as a
/// parameter named form, so that what was typed and what is wrong with it meet under the same names.
/// </summary>
public static class FormErrors
{
    /// <param name="prefix">The property that holds the form; empty when the page's model is the form itself.</param>
    /// <returns>Whether the form is right.</returns>
    public static bool Accept(this ModelStateDictionary fields, ValidationResult result, string prefix = "Form")
    {
        foreach (var error in result.Errors)
        {
            var key = prefix.Length == 0 ? error.PropertyName : $"{prefix}.{error.PropertyName}";
            // What could not even be read is told once, not again as missing.
            if (fields.GetFieldValidationState(key) != ModelValidationState.Invalid)
                fields.AddModelError(key, error.ErrorMessage);
        }

        return fields.IsValid;
    }

    /// <summary>Tells what Identity refused, at the field that it concerns.</summary>
    /// <param name="name">The field of the sign-in name.</param>
    /// <param name="password">The field of the new password.</param>
    /// <param name="oldPassword">The field of the present password, where one is asked for.</param>
    public static bool Accept(this ModelStateDictionary fields, IdentityResult result, string name, string password, string? oldPassword = null)
    {
        foreach (var error in result.Errors)
        {
            var (field, message) = error.Code switch
            {
                nameof(IdentityErrorDescriber.DuplicateUserName) => (name, T("Someone already signs in with this address.")),
                nameof(IdentityErrorDescriber.InvalidUserName) => (name, T("Use only letters, digits and . - _ @ + in the address.")),
                nameof(IdentityErrorDescriber.PasswordMismatch) => (oldPassword ?? password, T("This is not the present password.")),
                nameof(IdentityErrorDescriber.ConcurrencyFailure) => ("", T("Someone else changed this at the same moment. Look at it again, then repeat your change.")),
                var code when code.StartsWith("Password", StringComparison.Ordinal) => (password, error.Description),
                _ => ("", error.Description),
            };
            fields.AddModelError(field, message);
        }

        return result.Succeeded;
    }
}
