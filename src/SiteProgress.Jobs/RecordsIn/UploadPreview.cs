using SiteProgress.Core.Derivation;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Design;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>What would happen if a file were recorded now.</summary>
/// <param name="Upload">Key of the upload.</param>
/// <param name="FileName">Name of the file.</param>
/// <param name="ByteLength">Its length, bytes.</param>
/// <param name="Content">What the rows are; null when the header does not say.</param>
/// <param name="RowsRead">Rows in the file.</param>
/// <param name="RowsGood">Rows that can be recorded.</param>
/// <param name="ProblemCount">Problems, all of them.</param>
/// <param name="Problems">Problems by line, up to a limit.</param>
/// <param name="LinesLeftOut">Lines that cannot be recorded: those with a problem and those that repeat an earlier line.</param>
/// <param name="WarningCount">Warnings, all of them.</param>
/// <param name="Warnings">What is kept and should be looked at, up to a limit.</param>
/// <param name="Assumptions">What the reader assumed.</param>
/// <param name="Suspicions">What looks wrong with the batch as a whole, with the evidence.</param>
/// <param name="AlreadyRecorded">The batch that holds the same bytes and counts.</param>
/// <param name="WhyNot">Why this person cannot record the file now; null when they can.</param>
/// <param name="Design">For planned piles: what the design would gain.</param>
/// <param name="Matches">For installations: how many would stand how to the design.</param>
/// <param name="FirstRows">First rows as they were read, with how they would stand to the design.</param>
/// <param name="Settings">Settings the file was read with.</param>
public sealed record UploadPreview(
    Guid Upload,
    string FileName,
    long ByteLength,
    BatchContent? Content,
    int RowsRead,
    int RowsGood,
    int ProblemCount,
    IReadOnlyList<ImportProblem> Problems,
    IReadOnlyList<long> LinesLeftOut,
    int WarningCount,
    IReadOnlyList<ImportProblem> Warnings,
    IReadOnlyList<string> Assumptions,
    IReadOnlyList<string> Suspicions,
    long? AlreadyRecorded,
    string? WhyNot,
    DesignChange? Design,
    IReadOnlyDictionary<MatchOutcome, int> Matches,
    IReadOnlyList<BatchLine> FirstRows,
    SiteSettings Settings)
{
    /// <summary>For planned piles that revise the design: what would differ, pile by pile; null where they only add to it.</summary>
    public DesignComparison? Difference { get; init; }

    /// <summary>For planned piles: what they would be recorded to say of themselves as a revision.</summary>
    public DesignStatement? Revision { get; init; }

    /// <summary>True for planned piles of which some are in the design, or that may take piles out.</summary>
    public bool RevisesDesign { get; init; }

    /// <summary>True where the site has planned piles.</summary>
    public bool HasDesign { get; init; }

    /// <summary>The header of the file; null where it has none.</summary>
    public HeaderReading? Header { get; init; }

    /// <summary>What the file does not say.</summary>
    public IReadOnlyList<OpenQuestion> Questions { get; init; } = [];

    /// <summary>The choices it was read with.</summary>
    public UploadChoices Choices { get; init; } = UploadChoices.AsTheFileSays;

    /// <summary>The earlier batch from which the choices were taken up; null where they were not.</summary>
    public Remembered? Remembered { get; init; }

    /// <summary>True when there is something to record and nothing forbids it.</summary>
    public bool MayRecord => WhyNot is null;
}

/// <summary>One row of a batch, recorded or about to be.</summary>
/// <param name="Line">Line of the file.</param>
/// <param name="Sequence">Sequence of its record; null in a preview.</param>
/// <param name="Body">What it says.</param>
/// <param name="Match">For an installation that counts: how it stands to the design.</param>
public sealed record BatchLine(long Line, long? Sequence, RecordBody Body, InstallationMatch? Match)
{
    /// <summary>For a log that counts: which installation it is of.</summary>
    public LogLine? Log { get; init; }

    /// <summary>In a preview, for an installation with depths: the levels that follow from them.</summary>
    public DerivedLevels? Levels { get; init; }
}

/// <summary>Which installation a log is of, or why that is not settled.</summary>
/// <param name="Outcome">How it stands to the installations.</param>
/// <param name="Installation">The installation of its barge, casing and time.</param>
/// <param name="Against">What disagrees with it.</param>
/// <param name="Pile">The pile that installation is taken for.</param>
public sealed record LogLine(LogJoinOutcome Outcome, long? Installation, string? Against, string? Pile)
{
    internal static LogLine? Of(DerivedLog? log) => log is null ? null : new LogLine(log.Join.Outcome, log.Join.Installation, log.Join.Against, log.Pile);
}

/// <summary>What a pile schedule would change.</summary>
/// <param name="Added">Piles not yet in the design.</param>
/// <param name="Changed">Piles whose design would change.</param>
/// <param name="Unchanged">Piles it says again.</param>
public sealed record DesignChange(int Added, int Changed, int Unchanged);
