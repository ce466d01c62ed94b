namespace SiteProgress.Jobs.Access;

/// <summary>
/// Proof that a person may act on a site, made by <see cref="Gate"/> alone, for one call. Every job takes one and first
/// demands the right it needs.
/// </summary>
public sealed class Permit
{
    internal Permit(int site, string siteCode, Guid account, Role role)
    {
        Site = site;
        SiteCode = siteCode;
        Account = account;
        Role = role;
    }

    /// <summary>Key of the site in the store.</summary>
    public int Site { get; }

    /// <summary>Code of the site in addresses.</summary>
    public string SiteCode { get; }

    /// <summary>The person.</summary>
    public Guid Account { get; }

    /// <summary>The role the store gave at the moment of the call.</summary>
    public Role Role { get; }

    /// <summary>True when the role holds the right.</summary>
    public bool Allows(Right right) => RoleRights.Holds(Role, right);

    /// <summary>Refuses the call unless the role holds the right.</summary>
    /// <exception cref="AccessRefusedException">The role does not hold it.</exception>
    public void Demand(Right right)
    {
        if (!Allows(right)) throw new AccessRefusedException(Role, right);
    }
}
