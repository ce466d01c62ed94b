namespace SiteProgress.Exchange.TextTables;

/// <summary>Problems or warnings of a file: all counted, the first ones kept.</summary>
/// <param name="most">Most that are kept.</param>
internal sealed class ProblemList(int most)
{
    private readonly List<ImportProblem> _kept = [];

    /// <summary>The first ones.</summary>
    public IReadOnlyList<ImportProblem> Kept => _kept;

    /// <summary>Number of all.</summary>
    public int Count { get; private set; }

    /// <summary>Adds one.</summary>
    public void Add(long line, string? column, ReadOnlySpan<char> found, string expected)
    {
        Count++;
        if (_kept.Count < most)
            _kept.Add(new ImportProblem(line, column, ImportProblem.Shorten(found), expected, WholeFile: false));
    }
}
