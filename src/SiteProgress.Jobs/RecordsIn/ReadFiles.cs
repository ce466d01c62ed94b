using System.Security.Cryptography;
using System.Text.Json;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>
/// Reads and matches files without a store, by the very rules of an upload: a site from its settings, control points and the
/// definition of its CRS, then files one after the other, each against what the ones before it say.
/// </summary>
[WithoutPermit("A command at the machine on files of the caller's own; nothing of a site is read and nothing is kept.")]
public sealed class ReadFiles(TimeProvider clock)
{
    /// <summary>Reads the files.</summary>
    /// <param name="settingsPath">Settings of the site, JSON.</param>
    /// <param name="controlPointsPath">Control points, a table.</param>
    /// <param name="wktPath">Definition of the projected CRS, well-known text.</param>
    /// <param name="designPath">The design: a file of planned piles.</param>
    /// <param name="designChoices">What the design does not say.</param>
    /// <param name="paths">The files.</param>
    /// <param name="choices">What the files do not say.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>What each file holds, or why none was read.</returns>
    public (IReadOnlyList<FileRead>? Files, string? Refusal) Run(
        string settingsPath, string controlPointsPath, string wktPath, string designPath, UploadChoices designChoices, IReadOnlyList<string> paths,
        UploadChoices choices, CancellationToken cancellation)
    {
        if (paths.Prepend(designPath).Prepend(wktPath).Prepend(controlPointsPath).Prepend(settingsPath).FirstOrDefault(path => !File.Exists(path)) is { } missing)
            return (null, $"There is no file {missing}.");
        (SiteHistory? history, string? refusal) = Open(settingsPath, controlPointsPath, wktPath, cancellation);
        if (history is null) return (null, refusal);
        List<FileRead> files = [];
        foreach ((string path, UploadChoices chosen) in paths.Select(path => (path, choices)).Prepend((designPath, designChoices)))
        {
            (FileRead file, history) = Read(path, history, chosen, cancellation);
            files.Add(file);
        }

        return (files, null);
    }

    private (SiteHistory? History, string? Refusal) Open(string settingsPath, string controlPointsPath, string wktPath, CancellationToken cancellation)
    {
        (SiteSettings? read, string? refusal) = SettingsFile.Read(File.ReadAllText(settingsPath));
        if (read is not { } settings) return (null, refusal);
        IReadOnlyList<string> problems = SettingsProblems.Of(settings);
        if (problems.Count > 0) return (null, "The settings are not complete: " + string.Join(" ", problems));
        using FileStream marks = File.OpenRead(controlPointsPath);
        TableReading<ControlPoint> points = ControlPointReader.Read(marks, ReadingChoices.For(settings, Now), cancellation);
        if (points.ProblemCount > 0) return (null, $"{Path.GetFileName(controlPointsPath)}: {points.Problems[0].Sentence}");
        string wkt = File.ReadAllText(wktPath);
        ProjectedCrsResult crs = ProjectedCrs.FromWkt(settings.ProjectedCrs, wkt);
        if (!crs.IsMade) return (null, $"EPSG:{settings.ProjectedCrs} is refused: {crs.Refusal}");
        ControlPoint[] known = points.Rows.Select(row => row.Value).ToArray();
        AdjustmentResult fit = SimilarityFit.Solve(known);
        if (!fit.IsFitted) return (null, $"The site grid cannot be fitted to the control points: {fit.Refusal}");
        return (SupposedHistory.With(SiteHistory.Empty,
            [new SettingsBody(settings, null, First: true), new AdjustmentBody(fit.Adjustment, settings.ProjectedCrs, wkt, known, "Opening of the site.")]), null);
    }

    private (FileRead File, SiteHistory Next) Read(string path, SiteHistory history, UploadChoices choices, CancellationToken cancellation)
    {
        using FileStream bytes = File.OpenRead(path);
        UploadRow row = new() { FileName = Path.GetFileName(path), ByteLength = bytes.Length, Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes)), UploadedAt = clock.GetUtcNow().UtcDateTime };
        bytes.Position = 0;
        ReadUpload read = UploadReader.Read(row, bytes, history, choices, Now, _ => null, cancellation);
        if (read.Refused) return (FileRead.Of(read, [], [], []), history);
        SiteHistory next = SupposedHistory.With(history.ReadBy(history.Readings.Beside(read.Logs)), read.Bodies(history.Adjustments[^1].Adjustment.Revision));
        DerivedSite after = SiteDerivation.Derive(next);
        DerivedInstallation[] here = after.Installations.Where(one => one.Located.Batch == history.Sequence + 1).ToArray();
        return (FileRead.Of(read, BatchSuspicions.Of(read, here, after, history.Sequence), here.Select(one => FileMatch.Of(one)), RowsOf(read)), next);
    }

    private static IEnumerable<JsonElement> RowsOf(ReadUpload read)
        => read.Rows.Select(body => JsonDocument.Parse(RecordJson.ToBytes(body)).RootElement);

    private Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());
}

/// <summary>One file as read and matched.</summary>
/// <param name="FileName">Its name.</param>
/// <param name="Sha256">SHA-256 of its bytes, lower-case hexadecimal.</param>
/// <param name="Content">What its rows are; null where it was refused for not being recognised.</param>
/// <param name="IsRefused">True where nothing of it could be recorded.</param>
/// <param name="RowsRead">Rows in it.</param>
/// <param name="RowsGood">Rows that could be recorded.</param>
/// <param name="ProblemCount">Problems, all of them.</param>
/// <param name="Problems">Problems by line, up to a limit.</param>
/// <param name="LinesLeftOut">Lines that cannot be recorded.</param>
/// <param name="Warnings">What should be looked at, up to a limit.</param>
/// <param name="Assumptions">What was taken as read.</param>
/// <param name="Questions">What the file does not say.</param>
/// <param name="Suspicions">What looks wrong with it as a whole.</param>
/// <param name="MatchCounts">How many installations stand how to the design.</param>
/// <param name="Matches">Each installation against the design.</param>
/// <param name="Rows">The good rows, as they would be recorded.</param>
public sealed record FileRead(
    string FileName, string Sha256, string? Content, bool IsRefused, int RowsRead, int RowsGood, int ProblemCount, IReadOnlyList<ImportProblem> Problems,
    IReadOnlyList<long> LinesLeftOut, IReadOnlyList<ImportProblem> Warnings, IReadOnlyList<string> Assumptions, IReadOnlyList<string> Questions,
    IReadOnlyList<string> Suspicions, IReadOnlyDictionary<MatchOutcome, int> MatchCounts, IReadOnlyList<FileMatch> Matches, IReadOnlyList<JsonElement> Rows)
{
    internal static FileRead Of(ReadUpload read, IReadOnlyList<string> suspicions, IEnumerable<FileMatch> matches, IEnumerable<JsonElement> rows)
    {
        FileMatch[] all = [.. matches];
        return new FileRead(
            read.Upload.FileName, read.Upload.Sha256, ChoicePairs.Contents.FirstOrDefault(one => one.Value == read.Content).Word, read.Refused,
            read.RowsRead, read.Rows.Count, read.ProblemCount, read.Problems, read.LinesLeftOut, read.Warnings, read.Assumptions,
            [.. read.Questions.Select(question => question.Text)], suspicions,
            all.GroupBy(match => match.Outcome).ToDictionary(group => group.Key, group => group.Count()), all, [.. rows]);
    }
}

/// <summary>An installation of a file against the design.</summary>
/// <param name="Line">Line of the file.</param>
/// <param name="PileNumber">Pile number as recorded.</param>
/// <param name="Outcome">How it stands to the design.</param>
/// <param name="Adopted">Number of the planned pile it is taken for; null where a person has to decide.</param>
/// <param name="Nearest">Number of the nearest planned pile within reach.</param>
/// <param name="DistanceToNamedMetres">Distance to the pile its number names, metres.</param>
/// <param name="DistanceToNearestMetres">Distance to the nearest planned pile, metres.</param>
public sealed record FileMatch(
    long Line, string PileNumber, MatchOutcome Outcome, string? Adopted, string? Nearest, double? DistanceToNamedMetres, double? DistanceToNearestMetres)
{
    internal static FileMatch Of(DerivedInstallation one) => new(
        one.Line, one.Located.Recorded.PileNumber, one.Match.Outcome, one.Match.Adopted, one.Match.Nearest, one.Match.DistanceToNamedMetres, one.Match.DistanceToNearestMetres);
}
