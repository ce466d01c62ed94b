using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Web.SignIn;

/// <summary>What a session carries of the person: the account and the name shown. Roles are not among it; the gate reads them.</summary>
internal sealed class PersonIdentity(UserManager<Account> accounts, IOptions<IdentityOptions> options)
    : UserClaimsPrincipalFactory<Account>(accounts, options)
{
    /// <inheritdoc />
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Account user)
    {
        ClaimsIdentity identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(new Claim("display_name", user.DisplayName));
        return identity;
    }
}
