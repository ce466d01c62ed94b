using NodaTime;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>A history with records that are not recorded, to see what would follow from them.</summary>
internal static class SupposedHistory
{
    /// <summary>The history with further records; rows belong to the batch before them.</summary>
    /// <param name="history">The history.</param>
    /// <param name="bodies">What the records would say.</param>
    public static SiteHistory With(SiteHistory history, IEnumerable<RecordBody> bodies)
    {
        return history.With(Records(history.Sequence, bodies));
    }

    /// <summary>One record after the other, so that the bytes of a large file are never all there at once.</summary>
    private static IEnumerable<RecordEntry> Records(long sequence, IEnumerable<RecordBody> bodies)
    {
        long? batch = null;
        foreach (RecordBody body in bodies)
        {
            sequence++;
            batch = body is BatchBody ? sequence : batch;
            yield return new RecordEntry(
                sequence, body.Kind, Instant.MinValue, "", body is IRowBody ? batch : null, RecordJson.ToBytes(body), ChainHash.BeforeFirst);
        }
    }
}
