using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Sets hold points, signs them, withdraws them.</summary>
public sealed class KeepHoldPoints(SiteRecorder recorder)
{
    private const int MostPilesNamed = 2000;

    /// <summary>A hold point as it is set.</summary>
    /// <param name="Kind">Its kind.</param>
    /// <param name="Name">What it is called.</param>
    /// <param name="Clause">Clause of the contract, or who asked for it.</param>
    /// <param name="Shown">Piles that have to be shown.</param>
    /// <param name="Waiting">Piles that wait; all other piles of the zone where there are none.</param>
    /// <param name="Zone">Zone that waits.</param>
    /// <param name="Barge">Barge that waits with its anchors.</param>
    public sealed record Setting(
        HoldPointKind Kind, string Name, string Clause, IReadOnlyList<string> Shown, IReadOnlyList<string> Waiting, string? Zone, string? Barge);

    /// <summary>Sets a hold point.</summary>
    [Needs(Right.Comment)]
    public async Task<TreatmentAnswer> SetAsync(Permit permit, Setting setting, CancellationToken cancellation)
    {
        permit.Demand(Right.Comment);
        if (!Enum.IsDefined(setting.Kind)) return new(null, "Choose one of the four kinds of hold point.");
        if ((Treating.WhyNot(setting.Name, "The name") ?? Treating.WhyNot(setting.Clause, "The clause, or who asked for it,")) is { } why) return new(null, why);
        if (setting.Shown.Count + setting.Waiting.Count > MostPilesNamed) return new(null, $"At most {MostPilesNamed} piles are named in a hold point.");
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Comment,
            site =>
            {
                string? zone = string.IsNullOrWhiteSpace(setting.Zone) ? null : setting.Zone.Trim();
                string? barge = string.IsNullOrWhiteSpace(setting.Barge) ? null : setting.Barge.Trim();
                if (WhyNot(site, setting, zone, barge) is { } refusal) return Attempt.Refuse(refusal);
                int number = site.Treated.HoldPoints.Count + 1;
                return Attempt.Record(number, new HoldPointSetBody(
                    number, setting.Kind, setting.Name.Trim(), setting.Clause.Trim(), [.. setting.Shown], [.. setting.Waiting], zone, barge));
            },
            cancellation);
    }

    /// <summary>Releases a hold point for the owner's side.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="number">Number of the hold point.</param>
    /// <param name="note">What the person says.</param>
    /// <param name="seen">Hash of the sheet that was shown.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> ReleaseAsync(Permit permit, int number, string note, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        return await SignAsync(permit, Right.Decide, asSurveyor: false, number, note, seen, cancellation);
    }

    /// <summary>Signs a hold point as surveyor, where one has to.</summary>
    [Needs(Right.KeepSurvey)]
    public async Task<TreatmentAnswer> SignAsSurveyorAsync(Permit permit, int number, string note, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        return await SignAsync(permit, Right.KeepSurvey, asSurveyor: true, number, note, seen, cancellation);
    }

    /// <summary>Withdraws a hold point: nothing waits for it any more.</summary>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> WithdrawAsync(Permit permit, int number, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(reason, "The reason") is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site => Find(site, number) switch
            {
                null => Attempt.Refuse($"There is no hold point {number} on this site."),
                { } point when !point.IsOpen() => Attempt.Refuse($"Nothing waits for hold point {number} any more."),
                _ => Attempt.Record(number, new HoldPointWithdrawnBody(number, reason.Trim())),
            },
            cancellation);
    }

    private Task<TreatmentAnswer> SignAsync(Permit permit, Right right, bool asSurveyor, int number, string note, string seen, CancellationToken cancellation)
    {
        if (Treating.WhyNot(note, "The note", needed: false) is { } why) return Task.FromResult(new TreatmentAnswer(null, why));
        return Treating.RecordAsync(
            recorder,
            permit,
            right,
            site =>
            {
                if (Find(site, number) is not { } point) return Attempt.Refuse($"There is no hold point {number} on this site.");
                if (!point.IsOpen()) return Attempt.Stale(point.Steps[^1]);
                if (asSurveyor && !point.NeedsSurveyor()) return Attempt.Refuse($"Hold point {number} is released by the owner's representative alone.");
                if (point.NeedsSurveyor()) Treating.DemandOther(permit, point.Steps.Where(step => step.Kind == RecordKind.HoldPointSigned && step.Yes != asSurveyor).Select(step => step.By), "You signed for the other side.");
                return string.Equals(TreatmentSheets.Of(point, site.Treated).Hash, seen, StringComparison.OrdinalIgnoreCase)
                    ? Attempt.Record(number, new HoldPointSignedBody(number, asSurveyor, (note ?? "").Trim(), seen.ToLowerInvariant()))
                    : Attempt.Stale(null);
            },
            cancellation);
    }

    private static HoldPoint? Find(DerivedSite site, int number) => site.Treated.HoldPoints.FirstOrDefault(one => one.Number == number);

    private static string? WhyNot(DerivedSite site, Setting setting, string? zone, string? barge)
    {
        if (zone is not null && site.History.Settings!.FindZone(zone) is null) return $"There is no zone '{zone}' on this site.";
        if (barge is not null && site.History.Settings!.FindBarge(barge) is null) return $"There is no barge '{barge}' on this site.";
        if (setting.Kind == HoldPointKind.BeforeAnchorsLift && barge is null) return "Name the barge whose anchors wait.";
        if (zone is null && barge is null && setting.Waiting.Count == 0) return "Name what waits: a zone, piles, or a barge with its anchors.";
        string? unknown = setting.Waiting.FirstOrDefault(pile => site.Treated.Judged(pile) is null);
        return unknown is null ? null : $"There is no pile '{unknown}' in the design.";
    }
}
