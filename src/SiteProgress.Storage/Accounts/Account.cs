using Microsoft.AspNetCore.Identity;

namespace SiteProgress.Storage.Accounts;

/// <summary>A person who can sign in. What the person may do on a site is a record of that site, not a property of the account.</summary>
public sealed class Account : IdentityUser<Guid>
{
    /// <summary>Name shown beside what the person recorded or decided.</summary>
    public string DisplayName { get; set; } = "";

    /// <summary>When the operator closed the account (UTC); null while it is open. A closed account opens nothing.</summary>
    public DateTimeOffset? Closed { get; set; }
}
