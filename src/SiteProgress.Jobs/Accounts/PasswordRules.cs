using Microsoft.AspNetCore.Identity;

namespace SiteProgress.Jobs.Accounts;

/// <summary>The password rules in words.</summary>
public static class PasswordRules
{
    /// <summary>What a person is told before choosing one.</summary>
    public static string Advice
        => $"At least {AccountServices.LeastPasswordLength} characters. A few words that do not belong together are good; no special characters are demanded.";

    /// <summary>Why a password or account was refused, as one sentence.</summary>
    internal static string Sentence(IdentityResult refused)
        => refused.Errors.Any(error => error.Code == nameof(IdentityErrorDescriber.PasswordTooShort))
            ? $"The password is too short: it needs at least {AccountServices.LeastPasswordLength} characters."
            : refused.Errors.Any(error => error.Code == nameof(IdentityErrorDescriber.PasswordMismatch))
                ? "The present password is not right."
                : "The account could not be changed; somebody may have changed it at the same moment. Try again.";
}
