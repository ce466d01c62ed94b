using Npgsql;

namespace SiteProgress.Jobs.Access;

/// <summary>
/// Proof that a machine may add records to one site, made by <see cref="SenderGate"/> alone, for one call. It opens nothing for
/// reading: no job that reads takes one.
/// </summary>
public sealed class SenderPermit
{
    internal SenderPermit(int site, string siteCode, Guid key, string sender, IReadOnlyList<string> barges)
    {
        Site = site;
        SiteCode = siteCode;
        Key = key;
        Sender = sender;
        Barges = barges;
    }

    /// <summary>Key of the site in the store.</summary>
    public int Site { get; }

    /// <summary>Code of the site in addresses.</summary>
    public string SiteCode { get; }

    /// <summary>Names the sender's key.</summary>
    public Guid Key { get; }

    /// <summary>Name of the sender.</summary>
    public string Sender { get; }

    /// <summary>Barges whose records it may add.</summary>
    public IReadOnlyList<string> Barges { get; }

    /// <summary>Refuses unless the key still works, read within the caller's transaction.</summary>
    /// <exception cref="AccessWithdrawnException">It was withdrawn in the meantime.</exception>
    internal async Task DemandStillHeldAsync(NpgsqlConnection connection, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            "select exists (select from derived.sender_key where site = $1 and key = $2 and withdrawn_at is null)", connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = Site });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = Key });
        if (await command.ExecuteScalarAsync(cancellation) is not true) throw new AccessWithdrawnException();
    }
}
