using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Senders;

/// <summary>Puts the clock of a recording system right for a span, as a record: the times recorded stay, and are taken otherwise from then on.</summary>
public sealed class CorrectClock(SiteRecorder recorder)
{
    /// <summary>Largest correction, seconds: beyond a day a wrong date is the likelier fault, and a file is better sent anew.</summary>
    public static double MostSeconds => 26 * 3600;

    /// <summary>Longest reason, characters.</summary>
    public static int MostReasonCharacters => ReasonText.MostCharacters;

    /// <summary>Records a correction.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="barge">Barge whose system recorded.</param>
    /// <param name="sender">Sender whose records alone are meant; null for all of the barge.</param>
    /// <param name="from">First moment, site time as the wrong clock showed it.</param>
    /// <param name="until">End, site time as the wrong clock showed it.</param>
    /// <param name="aheadSeconds">By how much the clock was ahead, seconds; 0 takes an earlier correction back.</param>
    /// <param name="reason">Why.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>Null, or why it was not recorded.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<string?> RunAsync(
        Permit permit, string barge, string? sender, LocalDateTime? from, LocalDateTime? until, double aheadSeconds, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        if (from is not { } begin || until is not { } end) return "Say from when until when the clock was wrong, as it showed the time itself.";
        if (end <= begin) return "The span must end after it begins.";
        if (!double.IsFinite(aheadSeconds) || Math.Abs(aheadSeconds) > MostSeconds) return "A clock may be corrected by at most 26 hours either way.";
        if (ReasonText.WhyNot(reason, "How it was found that the clock was wrong") is { } why) return why;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.KeepSurvey,
            history =>
            {
                refusal =
                    history.Settings!.FindBarge(barge) is null ? $"There is no barge '{barge}' on this site."
                    : sender is not null && history.SenderKeys.Values.All(key => key.Body.Sender != sender) ? $"There is no sender '{sender}' on this site."
                    : null;
                if (refusal is not null) return [];
                DateTimeZone zone = DateTimeZoneProviders.Tzdb[history.Settings!.TimeZone];

                // A span's end in the hour that comes twice is taken as the earlier of the two, in the hour that is skipped as the first after it.
                return
                [
                    new ClockCorrectedBody(new ClockCorrection(
                        history.Settings.FindBarge(barge)!.Name, sender, zone.AtLeniently(begin).ToInstant(), zone.AtLeniently(end).ToInstant(), aheadSeconds, reason.Trim())),
                ];
            },
            cancellation);
        return refusal;
    }
}
