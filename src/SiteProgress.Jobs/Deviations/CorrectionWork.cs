using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Jobs.Deviations;

/// <summary>Works a requested correction out from the history, for the preview and once more under the lock.</summary>
internal static class CorrectionWork
{
    /// <summary>The record to make, or why not.</summary>
    public static (CorrectionProposedBody? Body, int WithoutHeading, string? Refusal) Of(SiteHistory history, CorrectionRequest request)
    {
        if (request.Problem() is { } problem) return (null, 0, problem);
        if (history.Settings is not { } settings) return (null, 0, "The site has no settings yet.");
        WorkingDays days = new(settings);
        bool InTime(Instant? at) => at is { } moment && days.At(moment).Day.ToDateOnly() is var day && day >= request.From && day <= request.To;
        BatchRow<Installation>[] scope = history.Installed.Where(row => Same(row.Value.Barge, request.Barge) && (request.Casing is null || row.Value.Casing == request.Casing)
            && InTime(row.Value.End ?? row.Value.EndOfPenetration ?? row.Value.Start) && (row.Value.TouchDown ?? row.Value.AtEndOfPenetration) is not null).ToArray();
        if (scope.Length == 0) return (null, 0, $"No record of {Who(request)} with a position ended from {request.From:yyyy-MM-dd} to {request.To:yyyy-MM-dd}.");
        long[] checks = history.Checked.Where(row => Same(row.Value.Barge, request.Barge) && (request.Casing is null || row.Value.Casing == request.Casing) && InTime(row.Value.At))
            .Select(row => row.Sequence).ToArray();
        if (checks.Length == 0)
            return (null, 0, $"No check measurement of {Who(request)} lies from {request.From:yyyy-MM-dd} to {request.To:yyyy-MM-dd}. Deviations alone do not say whether the record or the piles are wrong; measure, then correct.");
        long[] with = scope.Where(row => row.Value.HeadingDegrees is not null && row.Value.HeadingNorth is not null).Select(row => row.Sequence).ToArray();
        if (with.Length == 0) return (null, scope.Length, "None of these records holds a heading, so an offset in the barge's axes cannot be taken off.");
        return (
            new CorrectionProposedBody(scope[0].Value.Barge, request.Casing, request.ForwardMetres, request.StarboardMetres, with, checks, request.Reason.Trim()),
            scope.Length - with.Length, null);
    }

    /// <summary>What adopting it would change, by the rules that adopting itself will use.</summary>
    public static CorrectionEffect Effect(SiteHistory history, CorrectionProposedBody body, int withoutHeading)
    {
        DerivedSite now = SiteDerivation.Derive(history);
        long sequence = history.Sequence + 1;
        DerivedSite then = SiteDerivation.Derive(history.With([Supposed(sequence, body), Supposed(sequence + 1, new CorrectionDecidedBody(sequence, true, "supposed"))]));
        HashSet<long> touched = [.. body.Installations];
        Dictionary<string, PileJudgement> after = then.Piles.ToDictionary(pile => pile.Judgement.Pile.Number, pile => pile.Judgement);
        (PileJudgement Now, PileJudgement Then)[] changed = now.Piles.Select(pile => (pile.Judgement, after[pile.Judgement.Pile.Number]))
            .Where(pile => pile.Judgement.State != pile.Item2.State || Touches(pile.Judgement, touched) || Touches(pile.Item2, touched)).ToArray();
        HeldPile[] judged = changed
            .Where(pile => pile.Now.Position is { Comparable: true } && pile.Then.Position is { Comparable: true })
            .Select(pile => new HeldPile(
                pile.Now.Pile.Number, pile.Now.Position!.Deviation, pile.Then.Position!.Deviation,
                ContractLimits.Position(history.Settings!.FindZone(pile.Now.Pile.Zone)!, pile.Now.Pile.DiameterMetres)))
            .ToArray();
        return new CorrectionEffect(
            body.Installations.Count,
            withoutHeading,
            body.CheckMeasurements.Count,
            changed.Where(pile => pile.Now.State != pile.Then.State).GroupBy(pile => (From: pile.Now.State, To: pile.Then.State))
                .Select(group => new PileStateChange(group.Key.From, group.Key.To, group.Count())).OrderByDescending(change => change.Piles).ToArray(),
            judged.Count(pile => !pile.Before.Answer.IsMet),
            judged.Count(pile => !pile.After.Answer.IsMet),
            judged.Length == 0 ? null : DeviationFigures.Quantile(Array.ConvertAll(judged, pile => pile.Now.RadialMetres), 0.5),
            judged.Length == 0 ? null : DeviationFigures.Quantile(Array.ConvertAll(judged, pile => pile.Then.RadialMetres), 0.5),
            judged.Where(pile => pile.Before.Answer.IsMet != pile.After.Answer.IsMet).Select(pile => pile.Change())
                .OrderBy(change => change.Number, StringComparer.Ordinal).ToArray());
    }

    /// <summary>A pile held to its limit as it is and as it would be.</summary>
    private sealed record HeldPile(string Number, PositionDeviation Now, PositionDeviation Then, PositionLimit Limit)
    {
        public PositionAnswer Before { get; } = Limit.Hold(Now);

        public PositionAnswer After { get; } = Limit.Hold(Then);

        /// <summary>The change of verdict in the numbers of the limit that is not met before or after.</summary>
        public VerdictChange Change()
        {
            PositionMeasure measure = (Before.Answer.IsMet ? After : Before).Measure;
            LimitAnswer then = Limit.Hold(measure, Then);
            return new VerdictChange(Number, measure, Limit.Hold(measure, Now).Value, then.Value, then.Limit, After.Answer.IsMet);
        }
    }

    private static bool Touches(PileJudgement judgement, HashSet<long> sequences) => judgement.Standing.Any(part => sequences.Contains(part.Installation.Sequence));

    private static RecordEntry Supposed(long sequence, RecordBody body) => new(sequence, body.Kind, Instant.MinValue, "", null, RecordJson.ToBytes(body), ChainHash.BeforeFirst);

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static string Who(CorrectionRequest request) => request.Casing is { } casing ? $"{request.Barge}, casing {casing}," : request.Barge;
}
