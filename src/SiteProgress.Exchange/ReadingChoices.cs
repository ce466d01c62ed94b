using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Exchange;

/// <summary>The order of day and month in a date written with slashes.</summary>
public enum DayMonthOrder
{
    /// <summary>dd/MM/yyyy.</summary>
    DayFirst = 1,

    /// <summary>MM/dd/yyyy.</summary>
    MonthFirst = 2,
}

/// <summary>
/// What a file is read with: what the site knows, and what a person chose where the file alone cannot say.
/// A choice left null is taken from the file, with the evidence stated among the assumptions.
/// </summary>
public sealed record ReadingChoices
{
    /// <summary>Zones a schedule may name.</summary>
    public required IReadOnlyList<string> Zones { get; init; }

    /// <summary>Barges and casings a record may name.</summary>
    public required IReadOnlyList<Barge> Barges { get; init; }

    /// <summary>Sand sources a record may name; none where the site names none.</summary>
    public IReadOnlyList<string> SandSources { get; init; } = [];

    /// <summary>Names of the two axes of the site grid, as headers write them.</summary>
    public required GridAxes GridAxes { get; init; }

    /// <summary>Characters allowed in a pile number: a character class without brackets, such as <c>A-Z0-9-</c>.</summary>
    public required string PileNumberCharacters { get; init; }

    /// <summary>IANA time zone of the site; times without an offset are taken in it.</summary>
    public required string TimeZone { get; init; }

    /// <summary>The moment of reading; a time later than a day after it is a problem.</summary>
    public required Instant Now { get; init; }

    /// <summary>Delimiter: comma, semicolon or tab; null: as the header shows.</summary>
    public char? Delimiter { get; init; }

    /// <summary>True where numbers have a decimal comma, false where they have a point; null: as the numbers show.</summary>
    public bool? DecimalComma { get; init; }

    /// <summary>Frame of the positions; null: as the header says.</summary>
    public Frame? Frame { get; init; }

    /// <summary>Order of day and month in dates with slashes; null: only if the dates of the file prove one.</summary>
    public DayMonthOrder? DayMonthOrder { get; init; }

    /// <summary>Name of the encoding of a text, of <see cref="TextEncodings"/>; null: as the bytes show.</summary>
    public string? Encoding { get; init; }

    /// <summary>Name of the table, sheet, layer or group to read; null: the one whose header fits best.</summary>
    public string? Table { get; init; }

    /// <summary>Line of the header; null: the line that has most known titles.</summary>
    public long? HeaderLine { get; init; }

    /// <summary>What columns are, where a person said so; all others go by their titles.</summary>
    public IReadOnlyList<ColumnChoice> Columns { get; init; } = [];

    /// <summary>What holds for all rows and stands in no column.</summary>
    public IReadOnlyList<FixedValue> FixedValues { get; init; } = [];

    /// <summary>IANA time zone of times without an offset, where it is not that of the site; null: site time.</summary>
    public string? TimesIn { get; init; }

    /// <summary>True where dates beside times of day, in a column of their own, are working days and not calendar days.</summary>
    public bool DateIsWorkingDay { get; init; }

    /// <summary>Site time at which a working day begins.</summary>
    public LocalTime WorkingDayBegins { get; init; }

    /// <summary>North of headings whose column names none.</summary>
    public North? HeadingNorth { get; init; }

    /// <summary>What levels and depths of the file are counted from.</summary>
    public LevelReading Levels { get; init; } = LevelReading.AsWritten;

    /// <summary>Name of the site's level datum; null where it is not known.</summary>
    public string? LevelDatum { get; init; }

    /// <summary>EPSG code of the site's projected CRS; null where it is not known.</summary>
    public int? ProjectedCrs { get; init; }

    /// <summary>
    /// Puts the bytes of a stream into a temporary file and gives its path, for a format that a library reads from a file only.
    /// Whoever gives it also deletes the file. Null: such formats are refused.
    /// </summary>
    public Func<Stream, string>? CopyToDisk { get; init; }

    /// <summary>Most rows of one file; a longer file is refused whole.</summary>
    public int MostRows { get; init; } = 500_000;

    /// <summary>Most problems, and most warnings, kept with their text; all are counted.</summary>
    public int MostProblems { get; init; } = 1_000;

    /// <summary>The choices that follow from a site's records: from its settings, and from the projected CRS that is in force by now.</summary>
    /// <param name="history">Records of the site, which was opened.</param>
    /// <param name="now">The moment of reading.</param>
    /// <returns>Choices with nothing decided that the file can say itself.</returns>
    /// <exception cref="ArgumentException">The site was never opened.</exception>
    public static ReadingChoices For(SiteHistory history, Instant now)
    {
        ArgumentNullException.ThrowIfNull(history);
        return For(history.Settings ?? throw new ArgumentException("The site was never opened.", nameof(history)), now) with { ProjectedCrs = history.ProjectedCrsCode };
    }

    /// <summary>The choices that follow from a site's settings before it is opened, everything else left to the file.</summary>
    /// <param name="settings">Settings of the site.</param>
    /// <param name="now">The moment of reading.</param>
    /// <returns>Choices with nothing decided that the file can say itself.</returns>
    public static ReadingChoices For(SiteSettings settings, Instant now)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return new ReadingChoices
        {
            Zones = [.. settings.Zones.Select(zone => zone.Code)],
            Barges = settings.Barges,
            SandSources = [.. settings.SandSources.Select(source => source.Name)],
            GridAxes = settings.GridAxes,
            PileNumberCharacters = settings.PileNumberCharacters,
            TimeZone = settings.TimeZone,
            WorkingDayBegins = settings.WorkingDayBegins,
            LevelDatum = settings.LevelDatum.Name,
            ProjectedCrs = settings.ProjectedCrs,
            Now = now,
        };
    }
}

/// <summary>What one column of a file is, as a person said.</summary>
/// <param name="Cell">Number of the column in the file, from 0.</param>
/// <param name="Column">Key of what it is, of <see cref="WantedColumn.Key"/>; null: it is not used.</param>
/// <param name="Unit">Its unit; null: as the header says.</param>
public sealed record ColumnChoice(int Cell, string? Column, string? Unit);

/// <summary>A value that holds for all rows of a file.</summary>
/// <param name="Column">Key of what it is, of <see cref="WantedColumn.Key"/>.</param>
/// <param name="Value">The value as a cell would have it.</param>
public sealed record FixedValue(string Column, string Value);

/// <summary>What levels and depths of a file are counted from. Levels of the site are metres above its level datum, up positive.</summary>
/// <param name="DepthsBelowMetres">Level of the surface that depths are counted down from, metres; null where nobody said.</param>
/// <param name="ZeroMetres">Level of the zero of the file's levels, metres; null: the site's datum, unless the file names another.</param>
/// <param name="DownPositive">True where the file's levels are counted down.</param>
public sealed record LevelReading(double? DepthsBelowMetres, double? ZeroMetres, bool DownPositive)
{
    /// <summary>Levels above the site's datum, up positive; depths below nothing stated.</summary>
    public static LevelReading AsWritten { get; } = new(null, null, false);
}
