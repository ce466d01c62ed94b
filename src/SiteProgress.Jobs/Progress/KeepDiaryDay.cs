using System.Globalization;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Progress;

/// <summary>Keeps a barge's hours of one working day; they replace those that were there, which stay on record.</summary>
public sealed class KeepDiaryDay(SiteRecorder recorder)
{
    /// <summary>Most entries of one day.</summary>
    public static int MostEntries => 60;

    /// <summary>One line of the form.</summary>
    /// <param name="Activity">What was done.</param>
    /// <param name="Cause">Why.</param>
    /// <param name="BorneBy">Who bears it.</param>
    /// <param name="Hours">Hours.</param>
    /// <param name="Remark">Remark.</param>
    public sealed record Line(string Activity, string? Cause, string? BorneBy, decimal Hours, string? Remark);

    /// <summary>Keeps the hours.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="day">Working day.</param>
    /// <param name="barge">Barge.</param>
    /// <param name="lines">The hours; they must add up to the working day.</param>
    /// <param name="reason">Why hours that are there already are replaced.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.ReviseDesign)]
    public async Task<string?> RunAsync(Permit permit, DateOnly day, string barge, IReadOnlyList<Line> lines, string? reason, CancellationToken cancellation)
    {
        permit.Demand(Right.ReviseDesign);
        ArgumentNullException.ThrowIfNull(lines);
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.ReviseDesign,
            history =>
            {
                if (history.Settings is not { } settings) return Refuse("The site has no settings yet.");
                if (settings.FindBarge(barge) is not { } known) return Refuse($"There is no barge \"{barge}\" on this site.");
                LocalDate date = LocalDate.FromDateOnly(day);
                DiaryEntry[] entries = lines.Select(line => new DiaryEntry(
                    date, known.Name, line.Activity.Trim(), Said(line.Cause), Said(line.BorneBy), line.Hours, Said(line.Remark))).ToArray();
                if (Problem(entries, date, known.Name, settings) is { } problem) return Refuse(problem);
                bool replaces = history.DiaryLines.Any(row => row.Value.WorkingDay == date && row.Value.Barge == known.Name)
                    || history.DiaryDays.Any(kept => kept.Body.WorkingDay == date && kept.Body.Barge == known.Name);
                if (replaces && string.IsNullOrWhiteSpace(reason)) return Refuse($"{known.Name} has hours on that day already; say why they are replaced.");
                return [new DiaryDayBody(date, known.Name, entries, Said(reason))];
            },
            cancellation);
        return refusal;

        RecordBody[] Refuse(string why)
        {
            refusal = why;
            return [];
        }
    }

    private static string? Problem(DiaryEntry[] entries, LocalDate day, string barge, SiteSettings settings)
    {
        if (entries.Length == 0) return "There is no line with hours.";
        if (entries.Length > MostEntries) return $"There are {entries.Length} lines; a day has at most {MostEntries}.";
        foreach (DiaryEntry entry in entries)
        {
            if (entry.Activity.Length == 0) return Say($"A line of {entry.Hours} h says no activity.");
            if (entry.Hours <= 0 || entry.Hours != Math.Round(entry.Hours, 2)) return Say($"\"{entry.Activity}\" has {entry.Hours} h; expected hours above zero, to a hundredth.");
            if (entry.Activity.Length > 100 || entry.Cause?.Length > 200 || entry.BorneBy?.Length > 50 || entry.Remark?.Length > 500) return $"\"{entry.Activity[..Math.Min(40, entry.Activity.Length)]}\" says more than fits: activity 100, cause 200, borne by 50, remark 500 characters.";
        }

        HoursOfDay hours = new(day, barge, entries, HoursOfDay.LengthOf(day, new WorkingDays(settings)));
        return hours.AddsUp ? null : Say($"The hours add up to {hours.WrittenHours:0.##}; this working day has {hours.DayHours:0.##}, so {Math.Abs(hours.MissingHours):0.##} h {(hours.MissingHours > 0 ? "are missing" : "are too many")}.");
    }

    private static string? Said(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
