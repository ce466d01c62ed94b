namespace SiteProgress.Exchange;

/// <summary>One row that could be read.</summary>
/// <typeparam name="T">What the row describes.</typeparam>
/// <param name="Line">Line on which the row begins, counted from 1.</param>
/// <param name="Value">What it says.</param>
public sealed record ReadRow<T>(long Line, T Value);

/// <summary>What came out of a file: the rows that could be read, and everything a person must know about the others.</summary>
/// <typeparam name="T">What a row describes.</typeparam>
public sealed record TableReading<T>
{
    /// <summary>Rows without a problem, in the order of the file.</summary>
    public required IReadOnlyList<ReadRow<T>> Rows { get; init; }

    /// <summary>Problems, in the order of the file; a row with one is not among the rows. Only the first ones are kept.</summary>
    public required IReadOnlyList<ImportProblem> Problems { get; init; }

    /// <summary>Number of all problems, kept or not.</summary>
    public required int ProblemCount { get; init; }

    /// <summary>Things to look at in rows that are good. Only the first ones are kept.</summary>
    public required IReadOnlyList<ImportProblem> Warnings { get; init; }

    /// <summary>Number of all warnings, kept or not.</summary>
    public required int WarningCount { get; init; }

    /// <summary>What was taken as read, in sentences, to be shown and kept with the batch.</summary>
    public required IReadOnlyList<string> Assumptions { get; init; }

    /// <summary>Number of rows below the header, good or not; blank lines and comments are not rows.</summary>
    public required int RowsRead { get; init; }

    /// <summary>Lines of all rows that had a problem or were a repetition, in the order of the file; none is dropped for its number.</summary>
    public required IReadOnlyList<long> LinesLeftOut { get; init; }

    /// <summary>The header as it was read; null where none was found.</summary>
    public HeaderReading? Header { get; init; }

    /// <summary>What the file does not say.</summary>
    public IReadOnlyList<OpenQuestion> Questions { get; init; } = [];

    /// <summary>True where the file as a whole cannot be used.</summary>
    public bool IsRefused => Problems.Any(problem => problem.WholeFile);
}
