using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>What became of an action on a treatment.</summary>
/// <param name="Number">Number of the non-conformance, lot or hold point; null for piles and when refused.</param>
/// <param name="Refusal">Why nothing was recorded; null when it was.</param>
/// <param name="Conflict">True when somebody else was first, or a record changed what was shown.</param>
public sealed record TreatmentAnswer(int? Number, string? Refusal, bool Conflict = false);

/// <summary>What a job wants to record under the lock, or why not.</summary>
internal sealed record Attempt(int? Number, IReadOnlyList<RecordBody> Bodies, string? Refusal, bool Conflict)
{
    public static Attempt Record(int? number, params RecordBody[] bodies) => new(number, bodies, null, false);

    public static Attempt Refuse(string why) => new(null, [], why, false);

    /// <summary>What was shown is not what stands: the person looks again before deciding.</summary>
    public static Attempt Stale(TreatmentStep? last)
    {
        string what = last is null ? "A later record changed what you were shown." : $"Record {last.Sequence} changed this after you opened it.";
        return new(null, [], what + " Nothing of yours was recorded; look at it as it stands now.", true);
    }
}

/// <summary>Common ground of the jobs of treatment.</summary>
internal static class Treating
{
    public static async Task<TreatmentAnswer> RecordAsync(
        SiteRecorder recorder, Permit permit, Right right, Func<DerivedSite, Attempt> make, CancellationToken cancellation)
    {
        Attempt attempt = Attempt.Refuse("Nothing was recorded.");
        await recorder.AppendOnDerivedAsync(
            permit,
            right,
            site =>
            {
                attempt = make(site);
                return attempt.Bodies;
            },
            cancellation);
        return new TreatmentAnswer(attempt.Refusal is null ? attempt.Number : null, attempt.Refusal, attempt.Conflict);
    }

    /// <summary>Nobody decides their own proposal: a refusal of access, as it is kept in the log.</summary>
    public static void DemandOther(Permit permit, IEnumerable<string?> makers, string what)
    {
        if (makers.Contains(SiteRecorder.AccountName(permit.Account), StringComparer.Ordinal))
        {
            throw new AccessRefusedException(permit.Role, Right.Decide, $"{what} Somebody else decides; nothing was recorded.");
        }
    }

    /// <summary>Why a text is no use; null when it is.</summary>
    public static string? WhyNot(string? text, string what, bool needed = true) => ReasonText.WhyNot(text, what, needed, ReasonText.MostCharactersOfTreatment);

    /// <summary>Why a day is no use as a due date; null when it is.</summary>
    public static string? WhyNotDue(LocalDate? day)
        => day is { Year: < 2000 or >= 2200 } far ? $"{LocalDatePattern.Iso.Format(far)} is no day to close something by; expected one of the years 2000 to 2199." : null;

    public static NonConformance? Find(this DerivedSite site, int number) => site.Treated.NonConformances.FirstOrDefault(one => one.Number == number);

    public static IReadOnlyList<SiteProgress.Core.Piles.FindingShown> Shown(this NonConformance one)
        => [.. one.Findings.Select(finding => new SiteProgress.Core.Piles.FindingShown(finding.Pile, finding.Check, finding.Now, finding.Account))];

    public static bool IsShown(this NonConformance one, string? seen) => string.Equals(TreatmentSheets.Of(one).Hash, seen, StringComparison.OrdinalIgnoreCase);
}
