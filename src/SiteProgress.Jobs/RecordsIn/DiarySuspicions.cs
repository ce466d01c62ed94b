using System.Globalization;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Days of a diary whose hours do not add up to the working day.</summary>
internal static class DiarySuspicions
{
    private const int MostNamed = 6;

    public static IEnumerable<string> Of(IReadOnlyList<RecordBody> rows, SiteSettings settings)
    {
        WorkingDays days = new(settings);
        HoursOfDay[] wrong = rows.OfType<DiaryLineBody>().Select(body => body.Entry)
            .GroupBy(entry => (entry.WorkingDay, entry.Barge))
            .Select(day => new HoursOfDay(day.Key.WorkingDay, day.Key.Barge, day.ToArray(), HoursOfDay.LengthOf(day.Key.WorkingDay, days)))
            .Where(day => !day.AddsUp).ToArray();
        if (wrong.Length == 0) yield break;
        string named = string.Join("; ", wrong.Take(MostNamed).Select(day => Say($"{day.Barge} on {day.Day:uuuu-MM-dd}: {day.WrittenHours:0.##} of {day.DayHours:0.##} h")));
        string more = wrong.Length > MostNamed ? Say($"; and {wrong.Length - MostNamed} more") : "";
        yield return Say($"The hours of {wrong.Length} days do not add up to the working day: {named}{more}.");
    }

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
