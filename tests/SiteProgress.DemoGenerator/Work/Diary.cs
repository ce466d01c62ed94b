namespace SiteProgress.DemoGenerator.Work;

/// <summary>Minutes a barge spent on one activity in one working day.</summary>
public sealed record DiaryLine(DateOnly Day, string Barge, string Activity, string Cause, string BorneBy, int Minutes);

/// <summary>Collects a barge's time, cut at the working day's beginning; every working day adds up to its own length.</summary>
public sealed class Diary(string barge)
{
    private readonly Dictionary<(DateOnly Day, string Activity, string Cause, string BorneBy), int> _minutes = [];
    private readonly List<(DateOnly Day, string Activity, string Cause, string BorneBy)> _order = [];

    public void Add(DateTime from, DateTime until, string activity, string cause, string borneBy)
    {
        while (from < until)
        {
            var day = SiteTime.WorkingDayOf(from);
            var cut = SiteTime.BeginOf(day.AddDays(1));
            var end = cut < until ? cut : until;
            var key = (day, activity, cause, borneBy);
            if (_minutes.TryAdd(key, 0)) _order.Add(key);
            _minutes[key] += (int)(end - from).TotalMinutes;
            from = end;
        }
    }

    public IEnumerable<DiaryLine> Lines =>
        _order.OrderBy(key => key.Day).Select(key => new DiaryLine(key.Day, barge, key.Activity, key.Cause, key.BorneBy, _minutes[key]));
}
