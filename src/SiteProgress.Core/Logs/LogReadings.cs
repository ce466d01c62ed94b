using System.Collections.Concurrent;

namespace SiteProgress.Core.Logs;

/// <summary>
/// What recorded logs tell, each read once against what it is read against. Log, casing, design and constants are the key, so that
/// deriving a site anew reads only what changed; a reading can be dropped at any time and comes out the same again.
/// </summary>
public sealed class LogReadings
{
    /// <summary>Readings kept; beyond it all are dropped and read anew when they are asked for.</summary>
    private const int MostKept = 50_000;

    private readonly ILogShelf _shelf;
    private readonly ConcurrentDictionary<(string Sha256, LogContext Context), LogFigures> _kept;

    /// <summary>Readings of the logs of a shelf.</summary>
    public LogReadings(ILogShelf shelf)
        : this(shelf, [])
    {
    }

    private LogReadings(ILogShelf shelf, ConcurrentDictionary<(string Sha256, LogContext Context), LogFigures> kept) => (_shelf, _kept) = (shelf, kept);

    /// <summary>Readings where there is no shelf: every log is missing.</summary>
    public static LogReadings None { get; } = new(new Near(new Dictionary<string, PileLog>(), null));

    /// <summary>The same readings with logs that are not on the shelf yet.</summary>
    /// <param name="logs">Logs by the hash of their canonical bytes.</param>
    public LogReadings Beside(IReadOnlyDictionary<string, PileLog> logs)
    {
        ArgumentNullException.ThrowIfNull(logs);
        return logs.Count == 0 ? this : new LogReadings(new Near(logs, _shelf), _kept);
    }

    /// <summary>The samples of a log; null where the shelf does not hold them.</summary>
    public PileLog? Find(string sha256) => _shelf.Find(sha256);

    /// <summary>What a log tells.</summary>
    /// <param name="sha256">Hash of its canonical bytes.</param>
    /// <param name="context">What it is read against.</param>
    public LogFigures Of(string sha256, LogContext context)
    {
        if (_kept.TryGetValue((sha256, context), out LogFigures? known)) return known;
        if (_shelf.Find(sha256) is not { } log) return LogFigures.Refused("Its samples are not in the store.");
        if (_kept.Count >= MostKept) _kept.Clear();
        return _kept[(sha256, context)] = LogFigures.Of(LogInterpreter.Read(log, context), context);
    }

    private sealed class Near(IReadOnlyDictionary<string, PileLog> logs, ILogShelf? far) : ILogShelf
    {
        public PileLog? Find(string sha256) => logs.GetValueOrDefault(sha256) ?? far?.Find(sha256);
    }
}
