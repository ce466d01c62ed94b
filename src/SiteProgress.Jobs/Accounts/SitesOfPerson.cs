using Npgsql;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Accounts;

/// <summary>The sites a person has a role on.</summary>
[WithoutPermit("It lists only what the person's own roles open.")]
public sealed class SitesOfPerson(NpgsqlDataSource store)
{
    /// <summary>One site of a person.</summary>
    /// <param name="Code">Code in addresses.</param>
    /// <param name="Role">The person's role on it.</param>
    public sealed record Listed(string Code, Role Role);

    /// <summary>The person's sites by code.</summary>
    public async Task<IReadOnlyList<Listed>> ListAsync(Guid account, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand(
            """
            select s.code, r.role
            from record.site s join derived.site_role r on r.site = s.site
            where r.account = $1
            order by s.code
            """);
        command.Parameters.AddWithValue(account);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<Listed> sites = [];
        while (await reader.ReadAsync(cancellation)) sites.Add(new Listed(reader.GetString(0), (Role)reader.GetInt16(1)));
        return sites;
    }
}
