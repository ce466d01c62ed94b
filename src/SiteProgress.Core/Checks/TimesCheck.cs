using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>Are the times there, and in order? A time the record leaves out is taken from the log.</summary>
internal static class TimesCheck
{
    /// <summary>Record and log may name the end of penetration this far apart; common practice, no source.</summary>
    private static readonly Duration Apart = Duration.FromMinutes(10);

    public static CheckResult Judge(IReadOnlyList<PartLog> logs, JudgingContract contract)
    {
        bool required = contract.Requires(CheckName.Times);
        bool byLog = false;
        (Instant Start, Instant Deepest, Instant End) last = default;
        foreach (PartLog log in logs)
        {
            Installation recorded = log.Part.Installation.Recorded;
            (Instant Start, Instant Deepest, Instant End)? logged = TimesOf(log);
            if ((recorded.Start ?? logged?.Start) is not { } start || (recorded.EndOfPenetration ?? logged?.Deepest) is not { } deepest || (recorded.End ?? logged?.End) is not { } end)
            {
                return CheckResult.Missing(CheckName.Times, required, "min", "A time is missing on the record: start, end of penetration or end.");
            }

            if (start > deepest || deepest > end)
            {
                return new CheckResult(
                    CheckName.Times, Verdict.NotMet, required, (end - start).TotalMinutes, 0, "min", false,
                    "Start, end of penetration and end must follow each other in this order.");
            }

            if (logged is { } times && recorded.EndOfPenetration is { } said && (said - times.Deepest > Apart || times.Deepest - said > Apart))
            {
                return new CheckResult(
                    CheckName.Times, Verdict.NotMet, required, (said - times.Deepest).TotalMinutes, Apart.TotalMinutes, "min", false,
                    $"The record names the end of penetration more than {Apart.TotalMinutes:0} minutes from where the {PartLogs.Name(log)} shows it.");
            }

            byLog |= recorded.Start is null || recorded.EndOfPenetration is null || recorded.End is null;
            last = (start, deepest, end);
        }

        return new CheckResult(
            CheckName.Times, Verdict.Met, required, (last.End - last.Start).TotalMinutes, 0, "min", false,
            byLog ? "Start, end of penetration and end are on the record or in the log, in this order." : "Start, end of penetration and end are on the record, in this order.");
    }

    private static (Instant Start, Instant Deepest, Instant End)? TimesOf(PartLog log)
    {
        if (log is not { Part.Installation.Log: { } joined, Figures: { BaseSeconds: { } deepest, TopSeconds: { } top, PenetrationMinutes: { } penetration } }) return null;
        Instant at = joined.FirstSample + Duration.FromSeconds(deepest);
        return (at - Duration.FromMinutes(penetration), at, joined.FirstSample + Duration.FromSeconds(top));
    }
}
