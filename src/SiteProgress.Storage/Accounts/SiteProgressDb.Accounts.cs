using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using SiteProgress.Storage.Accounts;

#pragma warning disable IDE0130 // one context, modelled in a file beside each concept
namespace SiteProgress.Storage;
#pragma warning restore IDE0130

public sealed partial class SiteProgressDb
{
    /// <summary>Links that let a person set a password once.</summary>
    public DbSet<OneUseLink> OneUseLinks => Set<OneUseLink>();

    /// <summary>Tokens with which people's programs read.</summary>
    public DbSet<PersonalToken> PersonalTokens => Set<PersonalToken>();

    static partial void ModelAccounts(ModelBuilder builder)
    {
        builder.Entity<Account>(account =>
        {
            account.ToTable("account", "account");
            account.Property(a => a.DisplayName).HasMaxLength(200);
        });
        builder.Entity<IdentityUserClaim<Guid>>().ToTable("account_claim", "account");
        builder.Entity<IdentityUserLogin<Guid>>().ToTable("account_login", "account");
        builder.Entity<IdentityUserToken<Guid>>().ToTable("account_token", "account");
        builder.Entity<DataProtectionKey>().ToTable("data_protection_key", "account");
        builder.Entity<OneUseLink>(link =>
        {
            link.ToTable("one_use_link", "account").HasKey(l => l.Hash);
            link.HasOne<Account>().WithMany().HasForeignKey(l => l.Account).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<PersonalToken>(token =>
        {
            token.ToTable("personal_token", "account").HasKey(t => t.Hash);
            token.Property(t => t.Name).HasMaxLength(100);
            token.HasOne<Account>().WithMany().HasForeignKey(t => t.Account).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<SenderSecret>(secret =>
        {
            secret.ToTable("sender_secret", "account").HasKey(s => s.Hash);
            secret.HasIndex(s => new { s.Site, s.Key }).IsUnique();
        });
        // Nothing of an account goes unseen when something else goes.
        IEnumerable<IMutableForeignKey> keys = builder.Model.GetEntityTypes().SelectMany(entity => entity.GetForeignKeys());
        foreach (IMutableForeignKey key in keys) key.DeleteBehavior = DeleteBehavior.Restrict;
    }
}
