using SiteProgress.Core.Logs;

namespace SiteProgress.Core.Records;

/// <summary>A history while records are added to it, one by one.</summary>
public sealed class GrowingHistory
{
    private readonly HistoryBuilder _builder;
    private readonly LogReadings _readings;

    internal GrowingHistory(HistoryBuilder builder, LogReadings readings) => (_builder, _readings) = (builder, readings);

    /// <summary>Adds a record.</summary>
    /// <exception cref="InvalidDataException">It does not follow the last one, or its body cannot be read.</exception>
    public void Add(RecordEntry record)
    {
        ArgumentNullException.ThrowIfNull(record);
        _builder.Add(record);
    }

    /// <summary>The history with all that was added. Nothing may be added afterwards.</summary>
    public SiteHistory Grown()
    {
        _builder.Close();
        return new SiteHistory(_builder, _readings);
    }
}
