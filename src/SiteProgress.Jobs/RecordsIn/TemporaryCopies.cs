namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Copies on disk for formats that a library reads from a file only; gone when the reading is done.</summary>
internal sealed class TemporaryCopies : IDisposable
{
    private readonly List<(Stream Bytes, string Path)> paths = [];

    /// <summary>Copies a stream and gives the path of the copy.</summary>
    public string Keep(Stream bytes)
    {
        if (paths.FirstOrDefault(one => ReferenceEquals(one.Bytes, bytes)).Path is { } before) return before;
        string path = Path.Combine(Path.GetTempPath(), $"siteprogress-{Guid.NewGuid():N}.tmp");
        paths.Add((bytes, path));
        // Nobody but this account may read what a site sent.
        FileStreamOptions options = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using FileStream copy = new(path, options);
        bytes.CopyTo(copy);
        return path;
    }

    public void Dispose()
    {
        foreach ((_, string path) in paths) File.Delete(path);
    }
}
