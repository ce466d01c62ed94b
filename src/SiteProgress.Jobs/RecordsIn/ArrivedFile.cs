using System.Globalization;
using SiteProgress.Jobs.Operation;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>A file that somebody sends, put aside until it is whole: a slow sender must hold neither memory nor the store.</summary>
internal static class ArrivedFile
{
    /// <summary>Takes a file until its end.</summary>
    /// <returns>The file at its begin; it goes when it is closed. Null when it is longer than allowed.</returns>
    public static async Task<FileStream?> WholeAsync(Stream content, long mostBytes, CancellationToken cancellation)
    {
        FileStream arrived = PrivateFile.OpenPassing();
        try
        {
            if (await ArriveAsync(content, arrived, mostBytes, cancellation)) return arrived;
        }
        catch
        {
            await arrived.DisposeAsync();
            throw;
        }

        await arrived.DisposeAsync();
        return null;
    }

    /// <summary>The last part of a name as sent, without what could hide or turn letters.</summary>
    public static string PlainName(string fileName)
    {
        string last = fileName[(fileName.LastIndexOfAny(['/', '\\']) + 1)..];
        string plain = string.Concat(last.Where(letter =>
            !char.IsControl(letter)
            && CharUnicodeInfo.GetUnicodeCategory(letter) is not (UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.Surrogate))).Trim();
        if (plain.Length == 0) return "without a name";
        return plain.Length <= 120 ? plain : plain[..120];
    }

    private static async Task<bool> ArriveAsync(Stream content, FileStream arrived, long mostBytes, CancellationToken cancellation)
    {
        byte[] piece = new byte[1 << 16];
        int read;
        while ((read = await content.ReadAsync(piece, cancellation)) > 0)
        {
            if (arrived.Length + read > mostBytes) return false;
            await arrived.WriteAsync(piece.AsMemory(0, read), cancellation);
        }

        await arrived.FlushAsync(cancellation);
        arrived.Position = 0;
        return true;
    }
}
