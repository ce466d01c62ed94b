using System.Security.Claims;

namespace SiteProgress.Web.Shell;

/// <summary>Reads who is signed in.</summary>
public static class PersonClaims
{
    /// <summary>The account of the person; null when nobody is signed in.</summary>
    public static Guid? AccountId(this ClaimsPrincipal person)
        => Guid.TryParse(person.FindFirstValue(ClaimTypes.NameIdentifier), out Guid account) ? account : null;
}
