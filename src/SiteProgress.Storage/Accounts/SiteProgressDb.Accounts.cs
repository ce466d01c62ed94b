using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using SiteProgress.Storage.Accounts;

#pragma warning disable IDE0130 // one context, modelled in a file beside each concept
namespace SiteProgress.Storage;
#pragma warning restore IDE0130

public sealed partial class SiteProgressDb
{
    static partial void ModelAccounts(ModelBuilder builder)
    {
        builder.Entity<Account>().ToTable("account", "account");
        builder.Entity<IdentityUserClaim<Guid>>().ToTable("account_claim", "account");
        builder.Entity<IdentityUserLogin<Guid>>().ToTable("account_login", "account");
        builder.Entity<IdentityUserToken<Guid>>().ToTable("account_token", "account");
        builder.Entity<DataProtectionKey>().ToTable("data_protection_key", "account");
    }
}
