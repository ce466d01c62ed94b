using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Progress;

/// <summary>What kind of time an entry of the diary is. The site's own words stay beside it.</summary>
public enum TimeKind
{
    /// <summary>Piles are being built.</summary>
    Installing = 1,

    /// <summary>Moving from set-up to set-up.</summary>
    Moving,

    /// <summary>Laying or lifting anchors.</summary>
    Anchors,

    /// <summary>Taking or waiting for sand.</summary>
    Sand,

    /// <summary>Weather and sea.</summary>
    Weather,

    /// <summary>Break-downs and repairs.</summary>
    Mechanical,

    /// <summary>Survey and checks.</summary>
    Survey,

    /// <summary>Waiting for a release.</summary>
    HoldPoint,

    /// <summary>Coming, going and setting up.</summary>
    Mobilisation,

    /// <summary>No work was meant to be done.</summary>
    Rest,

    /// <summary>Waiting for something else.</summary>
    Waiting,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>A barge's hours of one working day, held against the length of that day.</summary>
/// <param name="Day">Working day.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Entries">Entries, in order.</param>
/// <param name="DayHours">Length of the working day: 24 hours, 23 or 25 when the clocks change.</param>
public sealed record HoursOfDay(LocalDate Day, string Barge, IReadOnlyList<DiaryEntry> Entries, decimal DayHours)
{
    /// <summary>Hours written down.</summary>
    public decimal WrittenHours => Entries.Sum(entry => entry.Hours);

    /// <summary>Hours of the day that nobody wrote down; below zero where more was written than the day has.</summary>
    public decimal MissingHours => DayHours - WrittenHours;

    /// <summary>True when the hours add up to the day, to a hundredth of an hour for each entry.</summary>
    public bool AddsUp => Math.Abs(MissingHours) <= 0.005m * Math.Max(1, Entries.Count);

    /// <summary>Hours of one kind.</summary>
    public decimal HoursOf(TimeKind kind) => Entries.Where(entry => KindOf(entry) == kind).Sum(entry => entry.Hours);

    /// <summary>Length of a working day, hours: a day on which the clocks change has 23 or 25.</summary>
    public static decimal LengthOf(LocalDate day, WorkingDays days)
    {
        ArgumentNullException.ThrowIfNull(days);
        return (decimal)(days.BeginOf(day.PlusDays(1)) - days.BeginOf(day)).TotalHours;
    }

    /// <summary>The kind of an entry, told from its words; activity first, the cause where the activity only says that the barge waited.</summary>
    public static TimeKind KindOf(DiaryEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        TimeKind byActivity = ByWords(entry.Activity);
        if (byActivity != TimeKind.Other) return byActivity;
        TimeKind byCause = ByWords(entry.Cause ?? "");
        bool waited = WaitingWords.Any(word => entry.Activity.StartsWith(word, StringComparison.OrdinalIgnoreCase));
        // A barge that waits for the rest day to begin does not rest yet.
        return waited && byCause is TimeKind.Other or TimeKind.Rest ? TimeKind.Waiting : byCause;
    }

    private static readonly string[] WaitingWords = ["wait", "standby", "stand-by", "idle", "delay"];

    // A word's beginning is enough: "anchors", "anchor handling", "break-down", "breakdown".
    private static readonly (string Beginning, TimeKind Kind)[] Words =
    [
        ("rest", TimeKind.Rest), ("holiday", TimeKind.Rest), ("install", TimeKind.Installing), ("piling", TimeKind.Installing), ("weather", TimeKind.Weather),
        ("sea ", TimeKind.Weather), ("swell", TimeKind.Weather), ("wave", TimeKind.Weather), ("wind", TimeKind.Weather), ("fog", TimeKind.Weather),
        ("hold", TimeKind.HoldPoint), ("break", TimeKind.Mechanical), ("repair", TimeKind.Mechanical), ("mechanic", TimeKind.Mechanical),
        ("anchor", TimeKind.Anchors), ("mobilis", TimeKind.Mobilisation), ("moving", TimeKind.Moving), ("shifting", TimeKind.Moving), ("winching", TimeKind.Moving),
        ("sand", TimeKind.Sand), ("survey", TimeKind.Survey),
    ];

    private static TimeKind ByWords(string text)
    {
        foreach ((string beginning, TimeKind kind) in Words)
        {
            if (text.StartsWith(beginning, StringComparison.OrdinalIgnoreCase)
                || text.Contains(" " + beginning, StringComparison.OrdinalIgnoreCase)) return kind;
        }

        return TimeKind.Other;
    }
}
