using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Progress;

/// <summary>Keeps the notes of a working day: weather and sea, crew and plant, instructions, incidents, the plan for the next day.</summary>
public sealed class KeepDayNotes(SiteRecorder recorder)
{
    /// <summary>Longest text of one note, characters.</summary>
    public static int MostCharacters => 2000;

    /// <summary>Keeps the notes; they replace those that were there, which stay on record.</summary>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.ReviseDesign)]
    public async Task<string?> RunAsync(Permit permit, DateOnly day, DayNotes notes, CancellationToken cancellation)
    {
        permit.Demand(Right.ReviseDesign);
        ArgumentNullException.ThrowIfNull(notes);
        DayNotes said = new(Said(notes.WeatherAndSea), Said(notes.CrewAndPlant), Said(notes.Instructions), Said(notes.Incidents), Said(notes.PlanForTomorrow));
        string?[] all = [said.WeatherAndSea, said.CrewAndPlant, said.Instructions, said.Incidents, said.PlanForTomorrow];
        if (all.Any(text => text?.Length > MostCharacters)) return $"A note is longer than {MostCharacters} characters; say it shorter.";
        LocalDate date = LocalDate.FromDateOnly(day);
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.ReviseDesign,
            history =>
            {
                DayNotes? before = history.DayNotes.GetValueOrDefault(date)?.Body.Notes;
                refusal = before is null && all.All(text => text is null) ? "There is nothing to keep: every note is empty." : null;
                // The same notes again are no new record.
                return refusal is null && before != said ? [new DayNotesBody(date, said)] : [];
            },
            cancellation);
        return refusal;
    }

    private static string? Said(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}
