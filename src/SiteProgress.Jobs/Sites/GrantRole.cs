using Npgsql;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Sites;

/// <summary>Grants and withdraws roles; each is a record of the site.</summary>
public sealed class GrantRole(NpgsqlDataSource store, SiteRecorder recorder)
{
    /// <summary>An administrator grants a role, or another one, to a person.</summary>
    /// <returns>Null, or why it was not granted.</returns>
    [Needs(Right.ManagePeople)]
    public async Task<string?> RunAsync(Permit permit, Guid account, Role role, CancellationToken cancellation)
    {
        permit.Demand(Right.ManagePeople);
        if (account == permit.Account) return "Nobody grants a role to themselves.";
        await recorder.AppendAsync(permit, Right.ManagePeople, history => Changed(history, account, role), cancellation);
        return null;
    }

    /// <summary>An administrator withdraws a person's role.</summary>
    /// <returns>Null, or why it was not withdrawn.</returns>
    [Needs(Right.ManagePeople)]
    public async Task<string?> WithdrawAsync(Permit permit, Guid account, CancellationToken cancellation)
    {
        permit.Demand(Right.ManagePeople);
        if (account == permit.Account) return "Nobody withdraws their own role; another administrator does.";
        await recorder.AppendAsync(
            permit,
            Right.ManagePeople,
            history => history.Roles.ContainsKey(account) ? [new RoleWithdrawnBody(account)] : [],
            cancellation);
        return null;
    }

    /// <summary>The operator grants a role at the machine itself.</summary>
    /// <returns>Null, or why it was not granted.</returns>
    [WithoutPermit("A command of the operator at the machine.")]
    public async Task<string?> RunAsOperatorAsync(string siteCode, Guid account, Role role, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        if (await SiteKeys.FindAsync(connection, siteCode, cancellation) is not { } site) return $"There is no site '{siteCode}'.";
        await recorder.AppendAsOperatorAsync(site, siteCode, history => Changed(history, account, role), cancellation);
        return null;
    }

    private static RecordBody[] Changed(SiteHistory history, Guid account, Role role)
        => history.Roles.GetValueOrDefault(account) == role.ToString() ? [] : [new RoleGrantedBody(account, role.ToString())];
}
