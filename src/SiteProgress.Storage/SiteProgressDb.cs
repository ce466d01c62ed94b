using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Storage;

/// <summary>
/// The store: schema <c>record</c> holds what came in and is only ever added to, schema <c>derived</c> what follows from it,
/// schema <c>account</c> who may sign in. No foreign key runs from the first two to the third.
/// </summary>
public sealed partial class SiteProgressDb(DbContextOptions<SiteProgressDb> options)
    : IdentityUserContext<Account, Guid>(options), IDataProtectionKeyContext
{
    /// <summary>Keys that protect cookies and links, shared by every web node.</summary>
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    /// <inheritdoc />
    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.HasPostgresExtension("postgis");
        ModelAccounts(builder);
        ModelRecords(builder);
        ModelDerived(builder);
        NameColumnsInSmallLetters(builder);
    }

    private static void NameColumnsInSmallLetters(ModelBuilder builder)
    {
        // Surveyors query the store by hand: names that need no quotes.
        foreach (IMutableProperty property in builder.Model.GetEntityTypes().SelectMany(entity => entity.GetProperties()))
        {
            property.SetColumnName(string.Concat(property.Name.Select(
                (letter, index) => index > 0 && char.IsUpper(letter) ? "_" + char.ToLowerInvariant(letter) : char.ToLowerInvariant(letter).ToString())));
        }
    }

    static partial void ModelAccounts(ModelBuilder builder);

    static partial void ModelRecords(ModelBuilder builder);

    static partial void ModelDerived(ModelBuilder builder);
}
