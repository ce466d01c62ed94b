using NodaTime;
using SiteProgress.Core.Piles;

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

    /// <summary>Most rows of one file; a longer file is refused whole.</summary>
    public int MostRows { get; init; } = 500_000;

    /// <summary>Most problems, and most warnings, kept with their text; all are counted.</summary>
    public int MostProblems { get; init; } = 1_000;

    /// <summary>The choices that follow from a site's settings, everything else left to the file.</summary>
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
            Now = now,
        };
    }
}
