using Microsoft.EntityFrameworkCore;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.Storage.Accounts;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Accounts;

/// <summary>The way in to a store that has no account yet: one link, used once, from the same machine.</summary>
[WithoutPermit("There is nobody yet who could hold a role.")]
public sealed class FirstAdministrator(
    IDbContextFactory<SiteProgressDb> store, CreateAccount create, GrantRole grant, TimeProvider time)
{
    /// <summary>How long the link works.</summary>
    public static TimeSpan Lasts => TimeSpan.FromHours(1);

    /// <summary>What a person reads when the link does not work or the store has an account by now.</summary>
    public static string NotUsable => "This link cannot be used: it works once, for one hour, from the machine the server runs on, and only while there is no account.";

    /// <summary>The secret of a new link; null when the store has an account. Older links stop working.</summary>
    public async Task<string?> MakeLinkAsync()
    {
        await using SiteProgressDb db = await store.CreateDbContextAsync();
        if (await db.Users.AnyAsync()) return null;
        DateTimeOffset now = time.GetUtcNow();
        await Waiting(db, now).ExecuteUpdateAsync(change => change.SetProperty(link => link.Used, now));
        (string text, byte[] hash) = Secret.Make();
        db.Add(new OneUseLink { Hash = hash, Purpose = LinkPurpose.FirstAdministrator, Expires = now + Lasts });
        await db.SaveChangesAsync();
        return text;
    }

    /// <summary>True when the link would work now.</summary>
    public async Task<bool> WorksAsync(string? secret)
    {
        if (Secret.HashOf(secret) is not { } hash) return false;
        await using SiteProgressDb db = await store.CreateDbContextAsync();
        return !await db.Users.AnyAsync() && await Waiting(db, time.GetUtcNow()).AnyAsync(link => link.Hash == hash);
    }

    /// <summary>
    /// Makes the first account, administrator of every site there is, and uses the link up; a refused name or password
    /// leaves the link waiting.
    /// </summary>
    public async Task<AccountAnswer> UseAsync(string? secret, string name, string email, string password)
    {
        if (Secret.HashOf(secret) is not { } hash || !await WorksAsync(secret)) return AccountAnswer.Refused(NotUsable);
        await using SiteProgressDb db = await store.CreateDbContextAsync();
        DateTimeOffset now = time.GetUtcNow();
        int taken = await Waiting(db, now).Where(link => link.Hash == hash)
            .ExecuteUpdateAsync(change => change.SetProperty(link => link.Used, now));
        if (taken != 1) return AccountAnswer.Refused(NotUsable);
        AccountAnswer made = await create.RunAsync(name, email, password);
        if (made.Account is { } administrator)
        {
            foreach (string site in await db.Set<SiteRow>().Select(site => site.Code).ToListAsync())
                await grant.RunAsOperatorAsync(site, administrator, Role.Administrator, CancellationToken.None);
        }
        else
        {
            await db.OneUseLinks.Where(link => link.Hash == hash)
                .ExecuteUpdateAsync(change => change.SetProperty(link => link.Used, (DateTimeOffset?)null));
        }

        return made;
    }

    private static IQueryable<OneUseLink> Waiting(SiteProgressDb db, DateTimeOffset now)
        => db.OneUseLinks.Where(link => link.Purpose == LinkPurpose.FirstAdministrator && link.Used == null && link.Expires > now);
}
