using NodaTime;

namespace SiteProgress.Core.SetUps;

/// <summary>Spans of time in which something may be done: apart from each other, in order, their ends not in them.</summary>
public sealed class OpenTimes
{
    private readonly Interval[] _spans;

    private OpenTimes(Interval[] spans) => _spans = spans;

    /// <summary>The spans.</summary>
    public IReadOnlyList<Interval> Spans => _spans;

    /// <summary>Spans in any order; those that touch or overlap become one, and empty ones are left out.</summary>
    /// <param name="spans">Spans with both ends.</param>
    public static OpenTimes Of(IEnumerable<Interval> spans)
    {
        ArgumentNullException.ThrowIfNull(spans);
        List<Interval> whole = [];
        foreach (Interval span in spans.Where(span => span.Start < span.End).OrderBy(span => span.Start))
        {
            if (whole.Count == 0 || whole[^1].End < span.Start) whole.Add(span);
            else if (whole[^1].End < span.End) whole[^1] = new Interval(whole[^1].Start, span.End);
        }

        return new OpenTimes([.. whole]);
    }

    /// <summary>The first moment, not before another, from which so long a time is open without a break; null where there is none.</summary>
    public Instant? Earliest(Instant from, Duration length)
    {
        for (int span = FirstEndingAfter(from); span < _spans.Length; span++)
        {
            Instant begin = Instant.Max(from, _spans[span].Start);
            if (_spans[span].End - begin >= length) return begin;
        }

        return null;
    }

    /// <summary>How much of a span is open.</summary>
    public Duration Within(Instant from, Instant to)
    {
        Duration open = Duration.Zero;
        for (int span = FirstEndingAfter(from); span < _spans.Length && _spans[span].Start < to; span++)
            open += Instant.Min(to, _spans[span].End) - Instant.Max(from, _spans[span].Start);
        return open;
    }

    private int FirstEndingAfter(Instant moment)
    {
        (int low, int high) = (0, _spans.Length);
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_spans[middle].End > moment) high = middle;
            else low = middle + 1;
        }

        return low;
    }
}
