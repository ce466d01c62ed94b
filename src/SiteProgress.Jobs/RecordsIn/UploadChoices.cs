using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>What a person chose where the file does not say.</summary>
/// <param name="Content">What the rows are; null to go by the header.</param>
/// <param name="Frame">Frame of the positions; null to go by the header.</param>
/// <param name="DayMonthOrder">Order of day and month in dates with slashes; null to take only what a column proves.</param>
public sealed record UploadChoices(BatchContent? Content, Frame? Frame, DayMonthOrder? DayMonthOrder)
{
    /// <summary>Everything as the file says, and what was chosen before for files of the same shape.</summary>
    public static UploadChoices AsTheFileSays { get; } = new(null, null, null);

    /// <summary>False where what was chosen before is not to be taken up.</summary>
    public bool TakesUpRemembered { get; init; } = true;

    /// <summary>Delimiter of a text; null: as the header shows.</summary>
    public char? Delimiter { get; init; }

    /// <summary>True for a decimal comma, false for a point; null: as the numbers show.</summary>
    public bool? DecimalComma { get; init; }

    /// <summary>Encoding of a text; null: as the bytes show.</summary>
    public string? Encoding { get; init; }

    /// <summary>Sheet, layer or group to read; null: the one whose header fits best.</summary>
    public string? Table { get; init; }

    /// <summary>Line of the header; null: the line with most known titles.</summary>
    public long? HeaderLine { get; init; }

    /// <summary>IANA time zone of times without offset; null: site time.</summary>
    public string? TimesIn { get; init; }

    /// <summary>True where dates in a column of their own are working days.</summary>
    public bool DateIsWorkingDay { get; init; }

    /// <summary>North of headings that name none.</summary>
    public North? HeadingNorth { get; init; }

    /// <summary>What levels and depths are counted from.</summary>
    public LevelReading Levels { get; init; } = LevelReading.AsWritten;

    /// <summary>What columns are; all others go by their titles.</summary>
    public IReadOnlyList<ColumnChoice> Columns { get; init; } = [];

    /// <summary>What holds for all rows.</summary>
    public IReadOnlyList<FixedValue> FixedValues { get; init; } = [];

    /// <summary>What was said of a pile schedule as a revision of the design.</summary>
    public DesignChoice Design { get; init; } = DesignChoice.None;

    /// <summary>True where nothing was chosen of how the file is read.</summary>
    public bool IsNothing => !ChoicePairs.Of(this).Any(pair => pair.Name != ChoicePairs.Remembered && !DesignChoice.IsPair(pair.Name));

    /// <summary>The choices as a reader takes them.</summary>
    internal ReadingChoices Reading(SiteHistory history, Instant now) => ReadingChoices.For(history, now) with
    {
        Frame = Frame,
        DayMonthOrder = DayMonthOrder,
        Delimiter = Delimiter,
        DecimalComma = DecimalComma,
        Encoding = Encoding,
        Table = Table,
        HeaderLine = HeaderLine,
        TimesIn = TimesIn,
        DateIsWorkingDay = DateIsWorkingDay,
        HeadingNorth = HeadingNorth,
        Levels = Levels,
        Columns = Columns,
        FixedValues = FixedValues,
    };
}
