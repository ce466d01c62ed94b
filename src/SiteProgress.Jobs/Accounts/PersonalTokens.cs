using Microsoft.EntityFrameworkCore;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Jobs.Accounts;

/// <summary>The tokens of a person, with which their programs use the HTTP interface as that person.</summary>
[WithoutPermit("A person's tokens are their own; they hold no right of any site.")]
public sealed class PersonalTokens(IDbContextFactory<SiteProgressDb> store, TimeProvider time)
{
    /// <summary>What a token begins with, so that one left lying in a file can be recognised.</summary>
    public static string Prefix => "sp_";

    /// <summary>One token as its owner sees it. The token itself is not kept.</summary>
    /// <param name="Key">Names it when it is revoked: its hash, in hexadecimal digits.</param>
    /// <param name="Name">What the person calls it.</param>
    /// <param name="Created">When it was made (UTC).</param>
    /// <param name="LastUsedDay">Last day (UTC) of use; null while unused.</param>
    /// <param name="Revoked">When it was revoked (UTC); null while it works.</param>
    public sealed record Listed(string Key, string Name, DateTimeOffset Created, DateOnly? LastUsedDay, DateTimeOffset? Revoked);

    /// <summary>Makes a token and returns it, this once.</summary>
    public async Task<string> MakeAsync(Guid account, string name, CancellationToken cancellation)
    {
        (string text, byte[] hash) = Secret.Make();
        await using SiteProgressDb db = await store.CreateDbContextAsync(cancellation);
        db.Add(new PersonalToken { Hash = hash, Account = account, Name = name.Trim(), Created = time.GetUtcNow() });
        await db.SaveChangesAsync(cancellation);
        return Prefix + text;
    }

    /// <summary>The person's tokens, newest first.</summary>
    public async Task<IReadOnlyList<Listed>> ListAsync(Guid account, CancellationToken cancellation)
    {
        await using SiteProgressDb db = await store.CreateDbContextAsync(cancellation);
        List<PersonalToken> tokens = await db.PersonalTokens.AsNoTracking()
            .Where(token => token.Account == account).OrderByDescending(token => token.Created).ToListAsync(cancellation);
        return [.. tokens.Select(t => new Listed(Convert.ToHexString(t.Hash), t.Name, t.Created, t.LastUsedDay, t.Revoked))];
    }

    /// <summary>Revokes one of the person's own tokens; from then on it opens nothing.</summary>
    /// <returns>False when the person has no working token of that key.</returns>
    public async Task<bool> RevokeAsync(Guid account, string key, CancellationToken cancellation)
    {
        if (key.Length != 64 || !key.All(char.IsAsciiHexDigit)) return false;
        byte[] hash = Convert.FromHexString(key);
        DateTimeOffset now = time.GetUtcNow();
        await using SiteProgressDb db = await store.CreateDbContextAsync(cancellation);
        return await db.PersonalTokens
            .Where(token => token.Hash == hash && token.Account == account && token.Revoked == null)
            .ExecuteUpdateAsync(change => change.SetProperty(token => token.Revoked, now), cancellation) == 1;
    }

    /// <summary>The open account a token stands for; null when the token is unknown or revoked or the account closed.</summary>
    public async Task<Guid?> WhoseAsync(string token, CancellationToken cancellation)
    {
        if (!token.StartsWith(Prefix, StringComparison.Ordinal) || Secret.HashOf(token[Prefix.Length..]) is not { } hash) return null;
        await using SiteProgressDb db = await store.CreateDbContextAsync(cancellation);
        var found = await db.PersonalTokens.AsNoTracking()
            .Where(t => t.Hash == hash && t.Revoked == null)
            .Join(db.Users.Where(account => account.Closed == null), t => t.Account, a => a.Id, (t, a) => new { a.Id, t.LastUsedDay })
            .SingleOrDefaultAsync(cancellation);
        if (found is null) return null;
        DateOnly today = DateOnly.FromDateTime(time.GetUtcNow().UtcDateTime);
        if (found.LastUsedDay != today)
        {
            await db.PersonalTokens.Where(t => t.Hash == hash)
                .ExecuteUpdateAsync(change => change.SetProperty(t => t.LastUsedDay, today), cancellation);
        }

        return found.Id;
    }
}
