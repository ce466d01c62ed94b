using System.Globalization;
using NodaTime;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Recording;

/// <summary>Heads in a file a site: a line each of sequence, hash and time, only ever added to.</summary>
[WithoutPermit("It keeps what the recorder hands it.")]
public sealed class ChainHeadFiles(string folder) : IChainHeadKeeper, IDisposable
{
    private readonly SemaphoreSlim _oneAtATime = new(1);

    /// <inheritdoc />
    public async Task KeepAsync(string siteCode, ChainHead head, Instant at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(head);
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            Directory.CreateDirectory(folder);
            await using FileStream file = new(PathOf(siteCode), FileMode.Append, FileAccess.Write, FileShare.ReadWrite);
            string line = string.Create(CultureInfo.InvariantCulture, $"{head.Sequence} {head.Hash} {at}\n");
            await file.WriteAsync(System.Text.Encoding.ASCII.GetBytes(line), cancellation);
            file.Flush(flushToDisk: true);
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    /// <inheritdoc />
    public async Task<IReadOnlyList<KeptHead>> ReadAsync(string siteCode, CancellationToken cancellation)
    {
        if (!File.Exists(PathOf(siteCode))) return [];
        string[] lines = await File.ReadAllLinesAsync(PathOf(siteCode), cancellation);
        return lines
            .Select(line => line.Split(' '))
            .Where(parts => parts.Length == 3 && parts[1].Length == 64)
            .Select(parts => new KeptHead(long.Parse(parts[0], CultureInfo.InvariantCulture), parts[1], parts[2]))
            .ToArray();
    }

    /// <inheritdoc />
    public void Dispose() => _oneAtATime.Dispose();

    private string PathOf(string siteCode) => Path.Combine(folder, siteCode + ".heads");
}
