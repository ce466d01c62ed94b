using Microsoft.AspNetCore.Identity;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Jobs.Accounts;

/// <summary>A person changes their own password. Their other sessions end.</summary>
[WithoutPermit("A password belongs to the person, not to a site.")]
public sealed class ChangePassword(UserManager<Account> accounts)
{
    /// <summary>Changes the password.</summary>
    /// <param name="account">The person who is signed in.</param>
    /// <param name="present">The password until now; wrong ones count towards the lock-out.</param>
    /// <param name="next">The new one.</param>
    public async Task<AccountAnswer> RunAsync(Guid account, string present, string next)
    {
        if (await accounts.FindByIdAsync(account.ToString()) is not { Closed: null } person || await accounts.IsLockedOutAsync(person))
            return AccountAnswer.Refused("The password cannot be changed now; try again later.");
        IdentityResult changed = await accounts.ChangePasswordAsync(person, present, next);
        if (changed.Succeeded) return AccountAnswer.Done(account);
        if (changed.Errors.Any(error => error.Code == nameof(IdentityErrorDescriber.PasswordMismatch)))
            await accounts.AccessFailedAsync(person);
        return AccountAnswer.Refused(PasswordRules.Sentence(changed));
    }
}
