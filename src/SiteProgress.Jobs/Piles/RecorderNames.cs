using Npgsql;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Piles;

/// <summary>Who recorded something, by the name people know. Records keep the account; its name may change.</summary>
internal static class RecorderNames
{
    private const string Account = "account ";

    /// <summary>Names of the recorders.</summary>
    public static async Task<IReadOnlyDictionary<string, string>> ReadAsync(
        NpgsqlConnection connection, IEnumerable<string> recorders, CancellationToken cancellation)
    {
        string[] distinct = recorders.Distinct(StringComparer.Ordinal).ToArray();
        Guid[] accounts = distinct.Select(AccountOf).OfType<Guid>().ToArray();
        Dictionary<Guid, string> names = [];
        await using NpgsqlCommand command = new("""
            select id, display_name from account.account where id = any($1)
            union all
            select key, sender || ' (sender)' from derived.sender_key where key = any($1)
            """, connection);
        command.Parameters.Add(new NpgsqlParameter<Guid[]> { TypedValue = accounts });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        while (await reader.ReadAsync(cancellation)) names[reader.GetGuid(0)] = reader.GetString(1);
        return distinct.ToDictionary(
            recorder => recorder,
            recorder => AccountOf(recorder) is { } account ? names.GetValueOrDefault(account, "an account that is no longer here") : recorder,
            StringComparer.Ordinal);
    }

    private static Guid? AccountOf(string recorder)
        => recorder.StartsWith(Account, StringComparison.Ordinal) && Guid.TryParse(recorder.AsSpan(Account.Length), out Guid account) ? account : SenderKey.KeyIn(recorder);
}
