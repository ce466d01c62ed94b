using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Jobs.Accounts;

/// <summary>Links by which a person sets a password once, without the old one.</summary>
[WithoutPermit("The link itself is the proof; it is made by the operator at the machine.")]
public sealed class PasswordLinks(
    IDbContextFactory<SiteProgressDb> store, UserManager<Account> accounts, TimeProvider time)
{
    /// <summary>How long a link works.</summary>
    public static TimeSpan Lasts => TimeSpan.FromHours(48);

    /// <summary>What a person reads whose link is used, expired, or none of ours; which of the three is not said.</summary>
    public static string NotUsable => "This link cannot be used: it works once and for two days. Ask the operator of this server for a new one.";

    /// <summary>The secret of a new link for the account with this address; null when there is none. Older links stop working.</summary>
    public async Task<string?> MakeAsync(string email)
    {
        if (await accounts.FindByEmailAsync(email.Trim()) is not { Closed: null } account) return null;
        await using SiteProgressDb db = await store.CreateDbContextAsync();
        DateTimeOffset now = time.GetUtcNow();
        await db.OneUseLinks.Where(link => link.Account == account.Id && link.Used == null)
            .ExecuteUpdateAsync(change => change.SetProperty(link => link.Used, now));
        (string text, byte[] hash) = Secret.Make();
        db.Add(new OneUseLink { Hash = hash, Purpose = LinkPurpose.SetPassword, Account = account.Id, Expires = now + Lasts });
        await db.SaveChangesAsync();
        return text;
    }

    /// <summary>True when the link would work now. Looking does not use it up: mail programs look at links too.</summary>
    public async Task<bool> WorksAsync(string? secret)
    {
        if (Secret.HashOf(secret) is not { } hash) return false;
        await using SiteProgressDb db = await store.CreateDbContextAsync();
        DateTimeOffset now = time.GetUtcNow();
        return await db.OneUseLinks.AnyAsync(link => link.Hash == hash && link.Purpose == LinkPurpose.SetPassword
            && link.Used == null && link.Expires > now);
    }

    /// <summary>Sets the password and uses the link up. Open sessions of the account end, and a lock-out is lifted.</summary>
    public async Task<AccountAnswer> UseAsync(string? secret, string password)
    {
        if (await RefusalOfAsync(password) is { } refusal) return AccountAnswer.Refused(refusal);
        if (await TakeAsync(secret) is not { } id || await accounts.FindByIdAsync(id.ToString()) is not { Closed: null } account)
            return AccountAnswer.Refused(NotUsable);
        account.PasswordHash = accounts.PasswordHasher.HashPassword(account, password);
        account.LockoutEnd = null;
        account.AccessFailedCount = 0;
        // A new stamp ends every session that began with the old password.
        IdentityResult changed = await accounts.UpdateSecurityStampAsync(account);
        return changed.Succeeded ? AccountAnswer.Done(account.Id) : AccountAnswer.Refused(PasswordRules.Sentence(changed));
    }

    private async Task<string?> RefusalOfAsync(string password)
    {
        Account nobody = new();
        foreach (IPasswordValidator<Account> validator in accounts.PasswordValidators)
        {
            IdentityResult judged = await validator.ValidateAsync(accounts, nobody, password);
            if (!judged.Succeeded) return PasswordRules.Sentence(judged);
        }

        return null;
    }

    /// <summary>Marks the link used in one statement, so that of two who use it at once only one gets through.</summary>
    private async Task<Guid?> TakeAsync(string? secret)
    {
        if (Secret.HashOf(secret) is not { } hash) return null;
        await using SiteProgressDb db = await store.CreateDbContextAsync();
        DateTimeOffset now = time.GetUtcNow();
        int taken = await db.OneUseLinks
            .Where(link => link.Hash == hash && link.Purpose == LinkPurpose.SetPassword && link.Used == null && link.Expires > now)
            .ExecuteUpdateAsync(change => change.SetProperty(link => link.Used, now));
        if (taken != 1) return null;
        return await db.OneUseLinks.Where(link => link.Hash == hash).Select(link => link.Account).SingleAsync();
    }
}
