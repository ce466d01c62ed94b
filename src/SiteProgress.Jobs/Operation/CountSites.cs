using Npgsql;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Operation;

/// <summary>How many sites the store holds.</summary>
[WithoutPermit("A command of the operator at the machine.")]
public sealed class CountSites(NpgsqlDataSource store)
{
    /// <summary>Counts them.</summary>
    public async Task<long> RunAsync(CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand("select count(*) from record.site");
        return (long)(await command.ExecuteScalarAsync(cancellation))!;
    }
}
