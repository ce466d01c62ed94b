using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>When casings were at work, and at which hours of the day barges never were, by earlier records.</summary>
internal sealed class CasingHours
{
    private const int LeastRecords = 100;
    private const int LeastQuietHours = 3;

    private readonly Dictionary<(string Barge, int? Casing), (Instant Start, Instant End)[]> _work;
    private readonly ILookup<string, Instant> _ends;
    private readonly Dictionary<string, bool[]?> _quiet = [];

    /// <param name="before">Earlier installations.</param>
    public CasingHours(IEnumerable<DerivedInstallation> before)
    {
        Installation[] all = before.Select(one => one.Located.Recorded).Where(one => one is { Start: not null, End: not null } && one.End > one.Start).ToArray();
        _work = all.GroupBy(one => (one.Barge, one.Casing)).ToDictionary(group => group.Key, group => group.Select(one => (one.Start!.Value, one.End!.Value)).OrderBy(span => span.Item1).ToArray());
        _ends = all.ToLookup(one => one.Barge, one => one.End!.Value);
    }

    /// <summary>True where the same casing was at work on another pile for more than a minute of this one.</summary>
    /// <param name="built">The installation.</param>
    /// <param name="later">How much later its times are taken.</param>
    public bool IsBusy(Installation built, Duration later)
    {
        if (built is not { Start: { } start, End: { } end } || !_work.TryGetValue((built.Barge, built.Casing), out var spans)) return false;
        (start, end) = (start + later + Duration.FromMinutes(1), end + later - Duration.FromMinutes(1));
        int at = Array.BinarySearch(spans, (end, end));
        at = at < 0 ? ~at : at;
        return at > 0 && spans[at - 1].End > start && spans[at - 1].Start < end;
    }

    /// <summary>True where it was finished at an hour of the day at which its barge has never finished one, among three or more such hours.</summary>
    /// <param name="built">The installation.</param>
    /// <param name="later">How much later its times are taken.</param>
    /// <param name="zone">Time zone of the site.</param>
    public bool IsQuiet(Installation built, Duration later, DateTimeZone zone)
        => built.End is { } end && QuietHours(built.Barge, zone) is { } quiet && quiet[(end + later).InZone(zone).Hour];

    private bool[]? QuietHours(string barge, DateTimeZone zone)
    {
        if (_quiet.TryGetValue(barge, out bool[]? known)) return known;
        Instant[] ends = _ends[barge].ToArray();
        int[] byHour = new int[24];
        foreach (Instant end in ends) byHour[end.InZone(zone).Hour]++;
        bool[] quiet = Array.ConvertAll(byHour, count => count == 0);
        return _quiet[barge] = ends.Length >= LeastRecords && quiet.Count(one => one) >= LeastQuietHours ? quiet : null;
    }
}
