using Microsoft.AspNetCore.Identity;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Web.SignIn;

/// <summary>Begins a session. Whatever is wrong, the answer and the work done for it are the same.</summary>
internal sealed class SignInWithPassword(UserManager<Account> accounts, SignInManager<Account> session)
{
    // Checked for an address nobody has, so that the time taken does not tell.
    private static readonly string NobodysHash = new PasswordHasher<Account>().HashPassword(new Account(), Guid.NewGuid().ToString());

    /// <summary>The one sentence for an unknown address, a wrong password, a locked or a closed account.</summary>
    public static string Refused =>
        "The e-mail address or the password is not right, or the account is locked. After "
        + $"{AccountServices.AttemptsBeforeLockOut} wrong passwords an account stays locked for {AccountServices.LockOut.TotalMinutes:0} minutes.";

    /// <summary>Begins a session of this browser.</summary>
    /// <returns>False when the person was not let in.</returns>
    public async Task<bool> RunAsync(string email, string password)
    {
        Account? account = await accounts.FindByEmailAsync(email.Trim());
        if (account is not { PasswordHash: not null, Closed: null } || await accounts.IsLockedOutAsync(account))
        {
            accounts.PasswordHasher.VerifyHashedPassword(new Account(), NobodysHash, password);
            return false;
        }

        SignInResult result = await session.PasswordSignInAsync(account, password, isPersistent: false, lockoutOnFailure: true);
        return result.Succeeded;
    }
}
