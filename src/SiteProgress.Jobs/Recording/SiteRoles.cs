using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.Recording;

/// <summary>Roles as the records give them, as rows that the gate reads.</summary>
internal static class SiteRoles
{
    public static SiteRoleRow[] Rows(SiteHistory history)
        => history.Roles
            .Where(one => Enum.TryParse(one.Value, out Role _))
            .Select(one => new SiteRoleRow { Account = one.Key, Role = (short)Enum.Parse<Role>(one.Value) })
            .ToArray();
}
