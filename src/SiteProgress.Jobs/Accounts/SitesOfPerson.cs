using Npgsql;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Accounts;

/// <summary>The sites a person has a role on.</summary>
[WithoutPermit("It lists only what the person's own roles open.")]
public sealed class SitesOfPerson(NpgsqlDataSource store)
{
    /// <summary>One site of a person.</summary>
    /// <param name="Code">Code in addresses.</param>
    /// <param name="Name">Name for people.</param>
    /// <param name="Invented">True for a scenario made up for demonstration.</param>
    /// <param name="Role">The person's role on it.</param>
    public sealed record Listed(string Code, string Name, bool Invented, Role Role);

    /// <summary>The person's sites by code.</summary>
    public async Task<IReadOnlyList<Listed>> ListAsync(Guid account, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand(
            """
            select s.code, coalesce(t.settings->>'name', s.code), coalesce((t.settings->>'invented')::boolean, false), r.role
            from record.site s
            join derived.site_role r on r.site = s.site
            left join derived.site_state t on t.site = s.site
            where r.account = $1
            order by s.code
            """);
        command.Parameters.AddWithValue(account);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<Listed> sites = [];
        while (await reader.ReadAsync(cancellation))
            sites.Add(new Listed(reader.GetString(0), reader.GetString(1), reader.GetBoolean(2), (Role)reader.GetInt16(3)));
        return sites;
    }
}
