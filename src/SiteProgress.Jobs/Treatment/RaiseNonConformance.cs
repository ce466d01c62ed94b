using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Gathers findings of one or several piles into a non-conformance.</summary>
public sealed class RaiseNonConformance(SiteRecorder recorder)
{
    /// <summary>Most findings of one non-conformance.</summary>
    public static readonly int MostFindings = 500;

    /// <summary>Raises it.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="findings">Checks that are not met, of piles and of sand accounts.</param>
    /// <param name="reason">Why they are gathered.</param>
    /// <param name="dueOn">Day by which it is to be closed.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.Comment)]
    public async Task<TreatmentAnswer> RunAsync(
        Permit permit, IReadOnlyList<FindingName> findings, string reason, LocalDate? dueOn, CancellationToken cancellation)
    {
        permit.Demand(Right.Comment);
        if (findings.Count == 0) return new(null, "Choose at least one finding.");
        if (findings.Count > MostFindings) return new(null, $"A non-conformance holds at most {MostFindings} findings; {findings.Count} were chosen.");
        if ((Treating.WhyNot(reason, "The reason") ?? Treating.WhyNotDue(dueOn)) is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Comment,
            site =>
            {
                List<FindingShown> shown = [];
                foreach (FindingName finding in findings.Distinct())
                {
                    if (Free(site, finding) is not { } free)
                    {
                        string which = finding.Account is { } account ? $"The sand account of {account.InWords()}" : $"{finding.Check} of pile {finding.Pile}";
                        return Attempt.Refuse($"{which} is no finding that waits for treatment: it is met, not judged, or in a non-conformance already.");
                    }

                    shown.Add(free);
                }

                int number = site.Treated.NonConformances.Count + 1;
                return Attempt.Record(number, new NonConformanceRaisedBody(number, shown, reason.Trim(), dueOn));
            },
            cancellation);
    }

    private static FindingShown? Free(DerivedSite site, FindingName finding)
        => finding.Account is { } account
            ? site.Treated.FreeAccountFindings().FirstOrDefault(one => one.Account == account && one.Check == finding.Check)
            : site.Treated.FreeFindings(finding.Pile).FirstOrDefault(one => one.Check == finding.Check);
}
