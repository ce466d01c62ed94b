using System.Globalization;

namespace SiteProgress.Jobs.Changes;

/// <summary>Word that a site has new records.</summary>
/// <param name="Site">Key of the site.</param>
/// <param name="Sequence">Sequence of the last record.</param>
public readonly record struct RecordNotice(int Site, long Sequence)
{
    /// <summary>Reads <c>site:sequence</c>; null when it is something else.</summary>
    public static RecordNotice? Read(string payload)
    {
        int colon = payload.IndexOf(':', StringComparison.Ordinal);
        return colon > 0
            && int.TryParse(payload.AsSpan(0, colon), NumberStyles.None, CultureInfo.InvariantCulture, out int site)
            && long.TryParse(payload.AsSpan(colon + 1), NumberStyles.None, CultureInfo.InvariantCulture, out long sequence)
                ? new RecordNotice(site, sequence)
                : null;
    }
}
