namespace SiteProgress.Web.Tests;

/// <summary>A clock that stands until the test moves it; its timers ring while it moves.</summary>
internal sealed class ManualTime : TimeProvider
{
    private readonly Lock guard = new();
    private readonly List<Timer> timers = [];
    private readonly TaskCompletionSource timerMade = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private DateTimeOffset now = new(2026, 6, 1, 12, 0, 0, TimeSpan.Zero);

    /// <summary>Done once something waits by this clock; a clock moved before that rings for nobody.</summary>
    public Task TimerMade => timerMade.Task;

    public override DateTimeOffset GetUtcNow() => now;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        Timer timer = new(this, callback, state);
        timer.Change(dueTime, period);
        lock (guard) timers.Add(timer);
        timerMade.TrySetResult();
        return timer;
    }

    public void Advance(TimeSpan by)
    {
        now += by;
        List<Timer> due;
        lock (guard) due = [.. timers.Where(timer => timer.Due <= now)];
        foreach (Timer timer in due) timer.Ring();
    }

    private sealed class Timer(ManualTime time, TimerCallback callback, object? state) : ITimer
    {
        private TimeSpan period;

        public DateTimeOffset Due { get; private set; } = DateTimeOffset.MaxValue;

        public bool Change(TimeSpan dueTime, TimeSpan newPeriod)
        {
            period = newPeriod;
            Due = dueTime == Timeout.InfiniteTimeSpan ? DateTimeOffset.MaxValue : time.now + dueTime;
            return true;
        }

        public void Ring()
        {
            Due = period == Timeout.InfiniteTimeSpan ? DateTimeOffset.MaxValue : time.now + period;
            callback(state);
        }

        public void Dispose()
        {
            lock (time.guard) time.timers.Remove(this);
        }

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
