using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>
/// Which calibration holds for a barge or a casing at a moment: the one valid from the latest moment before it, and of two valid
/// from one moment the one recorded later. A record keeps the one of its own time, whatever is measured afterwards.
/// </summary>
public sealed class CalibrationsInForce
{
    private readonly Dictionary<(string Barge, int? Casing), BatchRow<Calibration>[]> _byCasing;

    /// <summary>Orders the calibrations of a site.</summary>
    public CalibrationsInForce(SiteHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        _byCasing = history.Calibrations
            .GroupBy(row => (row.Value.Barge, row.Value.Casing))
            .ToDictionary(group => group.Key, group => group.OrderBy(row => row.Value.ValidFrom).ThenBy(row => row.Sequence).ToArray());
    }

    /// <summary>The calibration of a casing at a moment, or of the barge as a whole where no casing is named; null where none holds.</summary>
    public BatchRow<Calibration>? At(string barge, int? casing, Instant moment)
        => _byCasing.TryGetValue((barge, casing), out BatchRow<Calibration>[]? rows)
            ? Array.FindLast(rows, row => row.Value.ValidFrom <= moment)
            : null;

    /// <summary>The moment from which another one takes its place; null while it is the last.</summary>
    public Instant? Until(BatchRow<Calibration> row)
    {
        ArgumentNullException.ThrowIfNull(row);
        BatchRow<Calibration>[] rows = _byCasing[(row.Value.Barge, row.Value.Casing)];
        int place = Array.IndexOf(rows, row);
        return place + 1 < rows.Length ? rows[place + 1].Value.ValidFrom : null;
    }
}
