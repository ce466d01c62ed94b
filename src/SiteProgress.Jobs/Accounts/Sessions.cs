using Microsoft.EntityFrameworkCore;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage;

namespace SiteProgress.Jobs.Accounts;

/// <summary>Whether somebody who signed in earlier is still let in.</summary>
[WithoutPermit("It asks about the account alone.")]
public sealed class Sessions(IDbContextFactory<SiteProgressDb> store)
{
    /// <summary>
    /// True while the account is open and its security stamp is the one the session began with. A lock-out after wrong
    /// passwords does not end a session, or anybody could throw a person out by guessing.
    /// </summary>
    public async Task<bool> HoldsAsync(Guid account, string? stamp, CancellationToken cancellation)
    {
        await using SiteProgressDb db = await store.CreateDbContextAsync(cancellation);
        return await db.Users.AnyAsync(a => a.Id == account && a.Closed == null && a.SecurityStamp == stamp, cancellation);
    }
}
