using Microsoft.AspNetCore.Identity;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Jobs.Accounts;

/// <summary>Finds an account by the address its person signs in with.</summary>
[WithoutPermit("A command of the operator at the machine.")]
public sealed class FindAccount(UserManager<Account> accounts)
{
    /// <summary>The account, or null.</summary>
    public async Task<Guid?> RunAsync(string email) => (await accounts.FindByEmailAsync(email.Trim()))?.Id;
}
