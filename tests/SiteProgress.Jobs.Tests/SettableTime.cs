namespace SiteProgress.Jobs.Tests;

/// <summary>A clock that stands until the test moves it.</summary>
internal sealed class SettableTime : TimeProvider
{
    public DateTimeOffset Now { get; set; } = new(2026, 6, 1, 12, 0, 0, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => Now;
}
