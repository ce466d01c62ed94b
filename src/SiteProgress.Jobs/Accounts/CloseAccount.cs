using Microsoft.AspNetCore.Identity;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Jobs.Accounts;

/// <summary>Closes an account: it can no longer sign in, and its open sessions and tokens stop.</summary>
[WithoutPermit("An account belongs to no site; the operator at the machine closes it.")]
public sealed class CloseAccount(UserManager<Account> accounts, TimeProvider time)
{
    /// <summary>Closes the account with this address.</summary>
    /// <returns>False when there is none.</returns>
    public async Task<bool> RunAsync(string email)
    {
        if (await accounts.FindByEmailAsync(email.Trim()) is not { } account) return false;
        account.Closed = time.GetUtcNow();
        await accounts.UpdateSecurityStampAsync(account);
        return true;
    }
}
