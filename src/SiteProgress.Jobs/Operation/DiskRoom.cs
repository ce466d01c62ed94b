namespace SiteProgress.Jobs.Operation;

/// <summary>Tells a full disk from other failures of files: only the operator can mend it, and sending again does not.</summary>
public static class DiskRoom
{
    // ENOSPC of Linux and macOS; ERROR_DISK_FULL of Windows as an HRESULT.
    private static readonly int[] Full = [28, unchecked((int)0x80070070)];

    /// <summary>True when a file could not be written because its disk is full.</summary>
    public static bool IsFull(IOException failure) => Full.Contains(failure.HResult);
}
