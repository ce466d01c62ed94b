using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.History;

/// <summary>What the history of a site can be narrowed to.</summary>
public enum HistoryGroup
{
    /// <summary>The opening of the site, its settings and its grid.</summary>
    Settings = 1,

    /// <summary>Roles of people.</summary>
    People,

    /// <summary>Keys of senders.</summary>
    Keys,

    /// <summary>Batches that came in.</summary>
    Batches,

    /// <summary>Withdrawals of batches and of keys.</summary>
    Withdrawals,

    /// <summary>Clocks and gauges.</summary>
    Measuring,

    /// <summary>Diary, plans of work and daily reports.</summary>
    Progress,

    /// <summary>Matches, corrections, treatment and whatever else a person decided.</summary>
    Decisions,
}

/// <summary>Which kinds of record belong to which group.</summary>
public static class HistoryGroups
{
    /// <summary>The group of a kind. A kind that nothing else claims is a decision.</summary>
    public static HistoryGroup Of(RecordKind kind) => kind switch
    {
        RecordKind.RoleGranted or RecordKind.RoleWithdrawn => HistoryGroup.People,
        RecordKind.SenderKeyMade => HistoryGroup.Keys,
        RecordKind.BatchRecorded => HistoryGroup.Batches,
        RecordKind.BatchWithdrawn or RecordKind.SenderKeyWithdrawn => HistoryGroup.Withdrawals,
        RecordKind.GaugeRevised or RecordKind.GaugeChecked or RecordKind.ClockCorrected => HistoryGroup.Measuring,
        <= (RecordKind)9 or RecordKind.SettingsProposed or RecordKind.SettingsDecided => HistoryGroup.Settings,
        >= (RecordKind)90 and <= (RecordKind)109 => HistoryGroup.Progress,
        _ => HistoryGroup.Decisions,
    };

    /// <summary>Numbers of the kinds of a group.</summary>
    public static short[] Kinds(HistoryGroup group)
        => [.. Enum.GetValues<RecordKind>().Where(kind => Of(kind) == group).Select(kind => (short)kind)];
}
