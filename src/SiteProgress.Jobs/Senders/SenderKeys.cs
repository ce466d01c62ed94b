using Npgsql;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Senders;

/// <summary>
/// Keys of senders. Making and withdrawing one is a record of the site; the hash of its secret lies apart from the records and
/// opens nothing without them.
/// </summary>
public sealed class SenderKeys(NpgsqlDataSource store, SiteRecorder recorder)
{
    /// <summary>Longest name of a sender, characters.</summary>
    public static int MostNameCharacters => 80;

    /// <summary>Longest reason, characters.</summary>
    public static int MostReasonCharacters => ReasonText.MostCharacters;

    /// <summary>Makes a key.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="sender">Name of the sender.</param>
    /// <param name="barges">Barges whose records it may add; at least one of the site's.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The key, to be shown once, or why none was made.</returns>
    [Needs(Right.ManagePeople)]
    public async Task<MadeKey> MakeAsync(Permit permit, string sender, IReadOnlyList<string> barges, CancellationToken cancellation)
    {
        permit.Demand(Right.ManagePeople);
        string name = sender.Trim();
        if (name.Length == 0 || name.Length > MostNameCharacters || name.Any(char.IsControl))
            return new MadeKey(null, $"A sender needs a name of at most {MostNameCharacters} characters, such as the name of its logger.");
        if (barges.Count == 0) return new MadeKey(null, "Choose the barges whose records this sender adds; a key for none would add nothing.");

        Guid key = Guid.NewGuid();
        (string text, byte[] hash) = Secret.Make();
        await KeepHashAsync(permit.Site, key, hash, cancellation);
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.ManagePeople,
            history =>
            {
                string? unknown = barges.FirstOrDefault(barge => history.Settings!.FindBarge(barge) is null);
                refusal = unknown is null ? null : $"There is no barge '{unknown}' on this site.";
                return refusal is null ? [new SenderKeyMadeBody(key, name, [.. barges.Select(barge => history.Settings!.FindBarge(barge)!.Name).Distinct()])] : [];
            },
            cancellation);
        return refusal is null ? new MadeKey(SenderGate.Prefix + text, null) : new MadeKey(null, refusal);
    }

    /// <summary>Withdraws a key; from then on it opens nothing.</summary>
    /// <returns>Null, or why it was not withdrawn.</returns>
    [Needs(Right.ManagePeople)]
    public async Task<string?> WithdrawAsync(Permit permit, Guid key, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.ManagePeople);
        if (ReasonText.WhyNot(reason) is { } why) return why;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.ManagePeople,
            history =>
            {
                refusal =
                    !history.SenderKeys.TryGetValue(key, out SenderKey? found) ? "There is no such key on this site."
                    : found.Withdrawal is not null ? "The key was withdrawn already."
                    : null;
                return refusal is null ? [new SenderKeyWithdrawnBody(key, reason.Trim())] : [];
            },
            cancellation);
        return refusal;
    }

    private async Task KeepHashAsync(int site, Guid key, byte[] hash, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand("insert into account.sender_secret (hash, site, key) values ($1, $2, $3)");
        command.Parameters.AddWithValue(hash);
        command.Parameters.AddWithValue(site);
        command.Parameters.AddWithValue(key);
        await command.ExecuteNonQueryAsync(cancellation);
    }
}

/// <summary>What became of making a key.</summary>
/// <param name="Text">The key, shown once and kept nowhere.</param>
/// <param name="Refusal">Why none was made.</param>
public sealed record MadeKey(string? Text, string? Refusal);
