using Npgsql;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Jobs.Accounts;

/// <summary>Who has a role on a site.</summary>
public sealed class People(NpgsqlDataSource store, GrantRole grant)
{
    /// <summary>A person of a site.</summary>
    /// <param name="Account">The account.</param>
    /// <param name="Name">Name shown.</param>
    /// <param name="Email">Address; null where the reader may not manage people.</param>
    /// <param name="Role">Role on the site.</param>
    /// <param name="Closed">True when the operator closed the account.</param>
    public sealed record Person(Guid Account, string Name, string? Email, Role Role, bool Closed);

    /// <summary>The people of the site by name. Addresses are for those who manage people.</summary>
    [Needs(Right.See)]
    public async Task<IReadOnlyList<Person>> ListAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        bool manages = permit.Allows(Right.ManagePeople);
        await using NpgsqlCommand command = store.CreateCommand(
            """
            select r.account, coalesce(a.display_name, 'account without a name'), a.email, r.role, a.closed is not null
            from derived.site_role r left join account.account a on a.id = r.account
            where r.site = $1
            order by 2, 1
            """);
        command.Parameters.AddWithValue(permit.Site);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<Person> people = [];
        while (await reader.ReadAsync(cancellation))
        {
            string? email = manages && !await reader.IsDBNullAsync(2, cancellation) ? reader.GetString(2) : null;
            people.Add(new Person(reader.GetGuid(0), reader.GetString(1), email, (Role)reader.GetInt16(3), reader.GetBoolean(4)));
        }

        return people;
    }

    /// <summary>Grants a role to the person with this address, or changes the one they hold.</summary>
    /// <returns>Null, or why it was not granted.</returns>
    [Needs(Right.ManagePeople)]
    public async Task<string?> GrantAsync(Permit permit, string email, Role role, CancellationToken cancellation)
    {
        permit.Demand(Right.ManagePeople);
        if (!Enum.IsDefined(role)) return "Choose one of the four roles.";
        await using NpgsqlCommand command = store.CreateCommand(
            "select id from account.account where normalized_email = upper($1) and closed is null");
        command.Parameters.AddWithValue(email.Trim());
        if (await command.ExecuteScalarAsync(cancellation) is not Guid account)
            return $"There is no open account with the address {email.Trim()}. Invite the person below, or ask the operator of this server.";
        return await grant.RunAsync(permit, account, role, cancellation);
    }
}
