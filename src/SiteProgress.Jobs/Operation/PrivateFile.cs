namespace SiteProgress.Jobs.Operation;

/// <summary>Temporary files of what sites send and hand over. Nobody but this account may read them.</summary>
internal static class PrivateFile
{
    /// <summary>A new file that is gone when it is closed.</summary>
    /// <exception cref="IOException">It cannot be made, as where the disk is full.</exception>
    public static FileStream OpenPassing() => new(NewPath(), Options(FileAccess.ReadWrite, FileOptions.DeleteOnClose | FileOptions.Asynchronous));

    /// <summary>A new file for a library that opens it by its path; whoever asks for it deletes it.</summary>
    /// <exception cref="IOException">It cannot be made, as where the disk is full.</exception>
    public static FileStream Create() => new(NewPath(), Options(FileAccess.Write, FileOptions.None));

    private static string NewPath() => Path.Combine(Path.GetTempPath(), $"siteprogress-{Guid.NewGuid():N}.tmp");

    private static FileStreamOptions Options(FileAccess access, FileOptions options)
    {
        FileStreamOptions made = new() { Mode = FileMode.CreateNew, Access = access, Options = options };
        if (!OperatingSystem.IsWindows()) made.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return made;
    }
}
