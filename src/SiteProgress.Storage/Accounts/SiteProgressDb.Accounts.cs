using System.Text;
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
        foreach (IMutableEntityType type in builder.Model.GetEntityTypes().Where(t => t.GetSchema() == "account"))
        {
            foreach (IMutableProperty property in type.GetProperties())
                property.SetColumnName(InSmallLetters(property.Name));
        }
    }

    /// <summary>Column names as they are written in plain SQL: <c>DisplayName</c> becomes <c>display_name</c>.</summary>
    private static string InSmallLetters(string name)
    {
        StringBuilder text = new(name.Length + 4);
        foreach (char letter in name)
        {
            if (char.IsUpper(letter) && text.Length > 0) text.Append('_');
            text.Append(char.ToLowerInvariant(letter));
        }
        return text.ToString();
    }
}
