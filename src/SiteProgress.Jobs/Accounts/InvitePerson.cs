using Microsoft.Extensions.DependencyInjection;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Jobs.Accounts;

/// <summary>
/// Brings a person without an account to a site: makes the account, grants the role and makes the link by which they set a
/// password. An account that exists is only ever granted a role; its password is its person's and the operator's affair,
/// since it may open other sites too.
/// </summary>
public sealed class InvitePerson(IServiceScopeFactory scopes, GrantRole grant)
{
    /// <summary>Invites a person.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="name">Name shown beside what the person does.</param>
    /// <param name="email">Address the person will sign in with.</param>
    /// <param name="role">Role on this site.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The secret of a one-use link, or why nobody was invited.</returns>
    [Needs(Right.ManagePeople)]
    public async Task<Invitation> RunAsync(Permit permit, string name, string email, Role role, CancellationToken cancellation)
    {
        permit.Demand(Right.ManagePeople);
        if (!Enum.IsDefined(role)) return new Invitation(null, "Choose one of the four roles.");
        // A page lives for hours; the account must be made from the store as it is now, not as it was when the page was opened.
        await using AsyncServiceScope work = scopes.CreateAsyncScope();
        AccountAnswer made = await work.ServiceProvider.GetRequiredService<CreateAccount>().RunAsync(name, email, password: null);
        if (made.Account is not { } account) return new Invitation(null, made.Problem);
        if (await grant.RunAsync(permit, account, role, cancellation) is { } problem) return new Invitation(null, problem);
        return new Invitation(await work.ServiceProvider.GetRequiredService<PasswordLinks>().MakeAsync(email), null);
    }
}

/// <summary>What became of an invitation.</summary>
/// <param name="Secret">Secret of the link by which the person sets a password once; shown once, kept nowhere.</param>
/// <param name="Problem">Why nobody was invited, as a sentence.</param>
public sealed record Invitation(string? Secret, string? Problem);
