using System.Globalization;

namespace SiteProgress.Exchange.TextTables;

/// <summary>What a file and a person say together about what its levels and depths are counted from.</summary>
internal sealed class LevelStatement
{
    private readonly List<ImportProblem> _problems = [];
    private readonly List<string> _assumptions = [];
    private readonly List<OpenQuestion> _questions = [];

    private LevelStatement()
    {
    }

    /// <summary>What stands in the way: a depth below nothing stated, a datum that is not the site's.</summary>
    public IReadOnlyList<ImportProblem> Problems => _problems;

    /// <summary>How levels are taken.</summary>
    public IReadOnlyList<string> Assumptions => _assumptions;

    /// <summary>What is not said.</summary>
    public IReadOnlyList<OpenQuestion> Questions => _questions;

    /// <summary>A number of a level column as a level of the site.</summary>
    /// <param name="metres">The number, metres, counted as the file counts.</param>
    /// <param name="place">Where the column stands.</param>
    /// <param name="reading">What a person said; depths below nothing stated were refused before.</param>
    /// <returns>Metres above the site's level datum, up positive.</returns>
    public static double ToLevel(double metres, ColumnPlace place, LevelReading reading)
    {
        if (!place.IsDepth && reading is { ZeroMetres: null, DownPositive: false })
            return metres;
        // In decimal, so that 0.30 less 28.40 is the level that a person would write.
        var (zero, counted) = place.IsDepth ? (reading.DepthsBelowMetres ?? 0, -metres) : (reading.ZeroMetres ?? 0, reading.DownPositive ? -metres : metres);
        return Math.Abs(counted) < 1e9 ? (double)((decimal)zero + (decimal)counted) : zero + counted;
    }

    /// <summary>Judges the level columns of a file.</summary>
    /// <param name="columns">The columns that hold levels or depths.</param>
    /// <param name="reading">What a person said.</param>
    /// <param name="siteDatum">Name of the site's datum, where known.</param>
    public static LevelStatement Judge(IEnumerable<(Column Column, ColumnPlace Place)> columns, LevelReading reading, string? siteDatum)
    {
        var statement = new LevelStatement();
        var all = columns.ToArray();
        var datum = siteDatum ?? "the site's level datum";
        statement.JudgeDepths([.. all.Where(one => one.Place.IsDepth)], reading, datum);
        statement.JudgeLevels([.. all.Where(one => !one.Place.IsDepth)], reading, datum);
        return statement;
    }

    private void JudgeDepths((Column Column, ColumnPlace Place)[] depths, LevelReading reading, string siteDatum)
    {
        if (depths.Length == 0)
            return;
        var titles = string.Join(", ", depths.Select(one => one.Column.Title));
        if (reading.DepthsBelowMetres is null && depths.All(one => one.Place.Datum is { } named && SameDatum(named, siteDatum)))
        {
            _assumptions.Add($"{titles} is counted down from {siteDatum}, as the header says: level = \u2212 depth.");
            return;
        }

        if (reading.DepthsBelowMetres is { } surface)
        {
            _assumptions.Add($"The depths of {titles} are counted down from level {Metres(surface)}, as chosen: level = {Metres(surface)} \u2212 depth.");
            return;
        }

        foreach (var (column, _) in depths)
            _problems.Add(new ImportProblem(0, column.Title, depths[0].Place.Datum, "the level of the surface that these depths are counted down from; say it, or say that the column is not used", WholeFile: true));
        _questions.Add(new OpenQuestion(QuestionKind.Levels, $"{titles} is written as a depth{Named(depths)}. Below which level is it counted? Where it is counted from the water, the deck or the antenna, say so at the column instead."));
    }

    private static string Named((Column Column, ColumnPlace Place)[] depths)
        => depths.Select(one => one.Place.Datum).FirstOrDefault(named => named is not null) is { } surface ? $" below {ImportProblem.Shorten(surface)}" : "";

    private void JudgeLevels((Column Column, ColumnPlace Place)[] levels, LevelReading reading, string siteDatum)
    {
        if (levels.Length == 0)
            return;
        var direction = reading.DownPositive ? "down positive, as chosen" : "up positive";
        var other = levels.Select(one => one.Place.Datum).FirstOrDefault(datum => datum is not null && !SameDatum(datum, siteDatum));
        if (reading.ZeroMetres is { } zero)
            _assumptions.Add($"The zero of the levels lies at {Metres(zero)} above {siteDatum}, as chosen; {direction}.");
        else if (other is not null)
            RefuseDatum(levels, other, siteDatum);
        else if (levels.All(one => one.Place.Datum is not null))
            _assumptions.Add($"Levels are metres above {siteDatum}, as the header says, {direction}.");
        else
            Assume(siteDatum, direction);
    }

    private void Assume(string siteDatum, string direction)
    {
        _assumptions.Add($"The header names no datum, so levels are taken as metres above {siteDatum}, {direction}.");
        _questions.Add(new OpenQuestion(QuestionKind.Levels, $"The header does not say what levels are counted from; {siteDatum} is assumed."));
    }

    private void RefuseDatum((Column Column, ColumnPlace Place)[] levels, string datum, string siteDatum)
    {
        _problems.Add(new ImportProblem(
            0, levels.First(one => one.Place.Datum == datum).Column.Title, datum,
            $"levels above {siteDatum}, or a statement of how high the zero of the file's datum lies above it", WholeFile: true));
        _questions.Add(new OpenQuestion(QuestionKind.Levels, $"The header counts levels from {ImportProblem.Shorten(datum)}. How high is its zero above {siteDatum}?"));
    }

    private static bool SameDatum(string written, string site)
    {
        var (one, other) = (TableLayout.Normalise(written), TableLayout.Normalise(site));
        var initials = string.Concat(site.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => char.ToLowerInvariant(word[0])));
        return one == other || one == initials;
    }

    private static string Metres(double metres) => string.Create(CultureInfo.InvariantCulture, $"{metres:0.00#} m").Replace('-', '\u2212');
}
