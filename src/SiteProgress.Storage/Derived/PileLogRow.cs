using System.Text.Json;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;

namespace SiteProgress.Storage.Derived;

/// <summary>A recorded log that counts, with what became of it.</summary>
public sealed class PileLogRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of its record.</summary>
    public long Sequence { get; set; }

    /// <summary>Its batch.</summary>
    public long Batch { get; set; }

    /// <summary>The sender's identifier of the installation.</summary>
    public string? RecordId { get; set; }

    /// <summary>Pile number as the log writes it.</summary>
    public string? RecordedNumber { get; set; }

    /// <summary>Barge.</summary>
    public required string Barge { get; set; }

    /// <summary>Casing, where the log names it.</summary>
    public int? Casing { get; set; }

    /// <summary>Time of the first sample, the clock put right.</summary>
    public DateTime FirstSample { get; set; }

    /// <summary>Time of the last sample, the clock put right.</summary>
    public DateTime LastSample { get; set; }

    /// <summary>Number of samples.</summary>
    public int Samples { get; set; }

    /// <summary>How it stands to the installations.</summary>
    public short Outcome { get; set; }

    /// <summary>The installation of its barge, casing and time.</summary>
    public long? Installation { get; set; }

    /// <summary>What disagrees with it.</summary>
    public string? Against { get; set; }

    /// <summary>The pile that installation is taken for.</summary>
    public string? Number { get; set; }

    /// <summary>Working day on which the casing left it.</summary>
    public DateOnly? WorkingDay { get; set; }

    /// <summary>What it tells; null while no pile stands on it.</summary>
    public string? Figures { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>Recorded logs as rows.</summary>
public static class PileLogRows
{
    /// <summary>Logs that count.</summary>
    public static PileLogRow[] Logs(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return [.. site.Logs.Select(log => new PileLogRow
        {
            Sequence = log.Row.Sequence,
            Batch = log.Row.Batch,
            RecordId = log.Row.Value.RecordId,
            RecordedNumber = log.Row.Value.PileNumber,
            Barge = log.Row.Value.Barge,
            Casing = log.Row.Value.Casing,
            FirstSample = log.Row.Value.FirstSample.ToDateTimeUtc(),
            LastSample = log.Row.Value.LastSample.ToDateTimeUtc(),
            Samples = log.Row.Value.Samples,
            Outcome = (short)log.Join.Outcome,
            Installation = log.Join.Installation,
            Against = log.Join.Against,
            Number = log.Pile,
            WorkingDay = log.Ended is { } ended ? ended.Day.ToDateOnly() : null,
            Figures = log.Figures is { } figures ? JsonSerializer.Serialize(figures, RecordJson.Options) : null,
        })];
    }
}
