using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;

namespace SiteProgress.Jobs.HandOver;

/// <summary>An archive that knows the SHA-256 of every file put into it, and whose bytes depend on nothing but those files.</summary>
/// <param name="output">Where the archive goes.</param>
/// <param name="stamp">The time every file carries.</param>
internal sealed class HashedZip(Stream output, DateTimeOffset stamp) : IAsyncDisposable
{
    private readonly ZipArchive _archive = new(output, ZipArchiveMode.Create, leaveOpen: true, Encoding.UTF8);
    private readonly List<string> _sums = [];

    /// <summary>Puts a file in.</summary>
    /// <param name="name">Its path in the archive.</param>
    /// <param name="write">Writes its bytes.</param>
    public async Task AddAsync(string name, Func<Stream, Task> write)
    {
        ZipArchiveEntry entry = _archive.CreateEntry(name, CompressionLevel.Optimal);
        entry.LastWriteTime = stamp;
        using SHA256 hash = SHA256.Create();
        await using Stream bytes = await entry.OpenAsync();
        await using (CryptoStream hashed = new(bytes, hash, CryptoStreamMode.Write, leaveOpen: true)) await write(hashed);
        _sums.Add($"{Convert.ToHexStringLower(hash.Hash!)}  {name}\n");
    }

    /// <summary>Puts a text in, UTF-8 without a mark.</summary>
    public Task AddTextAsync(string name, string text) => AddAsync(name, stream => stream.WriteAsync(Encoding.UTF8.GetBytes(text)).AsTask());

    /// <summary>Puts in the list of all files before it, in the form <c>sha256sum -c</c> reads.</summary>
    public Task AddSumsAsync() => AddTextAsync("sha256sums.txt", string.Concat(_sums));

    /// <summary>Ends the archive.</summary>
    public async ValueTask DisposeAsync() => await _archive.DisposeAsync();
}
