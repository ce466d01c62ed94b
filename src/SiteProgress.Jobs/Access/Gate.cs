using Npgsql;

namespace SiteProgress.Jobs.Access;

/// <summary>
/// The one maker of proofs of access. It reads the person's role from the store at every call, so a role withdrawn a
/// moment ago no longer opens anything.
/// </summary>
public sealed class Gate(NpgsqlDataSource store)
{
    /// <summary>
    /// A permit for this person on this site, or null where the site does not exist or the person has no role on it:
    /// the two answers cannot be told apart from outside.
    /// </summary>
    public async Task<Permit?> EnterAsync(Guid account, string siteCode, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand(
            """
            select s.site, s.code, r.role
            from record.site s join derived.site_role r on r.site = s.site
            where s.code = $1 and r.account = $2
            """);
        command.Parameters.AddWithValue(siteCode);
        command.Parameters.AddWithValue(account);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        return await reader.ReadAsync(cancellation)
            ? new Permit(reader.GetInt32(0), reader.GetString(1), account, (Role)reader.GetInt16(2))
            : null;
    }
}
