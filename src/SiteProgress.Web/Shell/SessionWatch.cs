using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Operation;

namespace SiteProgress.Web.Shell;

/// <summary>Looks every few seconds whether the person of an open page is still let in; if not, the page is signed out.</summary>
internal sealed class SessionWatch(ILoggerFactory loggers, IServiceScopeFactory scopes, IOptions<IdentityOptions> identity)
    : RevalidatingServerAuthenticationStateProvider(loggers)
{
    /// <summary>How often sessions are looked at, on open pages and on requests: below the five seconds promised.</summary>
    public static readonly TimeSpan Interval = TimeSpan.FromSeconds(4);

    /// <inheritdoc />
    protected override TimeSpan RevalidationInterval => Interval;

    /// <inheritdoc />
    protected override async Task<bool> ValidateAuthenticationStateAsync(
        AuthenticationState authenticationState, CancellationToken cancellationToken)
    {
        ClaimsPrincipal person = authenticationState.User;
        if (person.AccountId() is not { } account) return false;
        await using AsyncServiceScope scope = scopes.CreateAsyncScope();
        try
        {
            return await scope.ServiceProvider.GetRequiredService<Sessions>()
                .HoldsAsync(account, person.FindFirstValue(identity.Value.ClaimsIdentity.SecurityStampClaimType), cancellationToken);
        }
        catch (Exception failure) when (StoreFailure.Of(failure) is not null)
        {
            // A store that is away shows nothing to anybody; signing people out would only lose what they typed. The next look asks again.
            return true;
        }
    }
}
