using SiteProgress.Jobs.Operation;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Copies on disk for formats that a library reads from a file only; gone when the reading is done.</summary>
internal sealed class TemporaryCopies : IDisposable
{
    private readonly List<(Stream Bytes, string Path)> paths = [];

    /// <summary>Copies a stream and gives the path of the copy.</summary>
    public string Keep(Stream bytes)
    {
        if (paths.FirstOrDefault(one => ReferenceEquals(one.Bytes, bytes)).Path is { } before) return before;
        using FileStream copy = PrivateFile.Create();
        paths.Add((bytes, copy.Name));
        bytes.CopyTo(copy);
        return copy.Name;
    }

    public void Dispose()
    {
        foreach ((_, string path) in paths) File.Delete(path);
    }
}
