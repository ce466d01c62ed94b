using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;

namespace SiteProgress.Exchange.HandOver;

/// <summary>What stands behind the as-built schedule: every check with its numbers, every installation, every decision.</summary>
/// <param name="site">The site as derived from its records.</param>
/// <param name="names">Names of those who recorded, by the recorder in the records.</param>
public sealed class EvidenceTables(DerivedSite site, IReadOnlyDictionary<string, string> names)
{
    private readonly SiteSettings _settings = site.History.Settings ?? throw new ArgumentException("The site has no settings yet.", nameof(site));
    private readonly DateTimeZone _zone = DateTimeZoneProviders.Tzdb[site.History.Settings!.TimeZone];

    /// <summary>Every check of every pile that stands: verdict, the unrounded number that was compared, its limit, and why.</summary>
    public void Checks(TableWriter table)
    {
        ArgumentNullException.ThrowIfNull(table);
        table.Header("Pile No", "Check", "Required", "Verdict", "Value", "Limit", "Unit", "Within uncertainty of the limit", "What was compared");
        foreach (DerivedPile pile in site.Piles)
        {
            foreach (CheckResult check in pile.Judgement.Checks)
            {
                table.Text(pile.Judgement.Pile.Number).Text(NameWords.Of(check.Check)).Text(YesNo(check.Required)).Text(NameWords.Of(check.Verdict))
                    .Number(check.Value, 6).Number(check.Limit, 6).Text(check.Unit).Text(YesNo(check.NearLimit)).Text(check.Reason).EndRow();
            }
        }
    }

    /// <summary>Every installation that counts, with the pile it was taken for.</summary>
    public void Installations(TableWriter table)
    {
        ArgumentNullException.ThrowIfNull(table);
        string first = _settings.GridAxes.First, second = _settings.GridAxes.Second, datum = _settings.LevelDatum.Name;
        table.Header(
            "Record", "Batch", "Line", "Sender's id", "Recorded number", "Taken for pile", "Match", "Stands", "Outcome", "Barge", "Casing", "Set-up",
            "Start", "End of penetration", "Casing left the pile", $"Touch-down {first}, site grid [m]", $"Touch-down {second}, site grid [m]",
            $"End of penetration {first}, site grid [m]", $"End of penetration {second}, site grid [m]", "Adjustment revision",
            "Heading [deg]", "North of the heading", $"Top level, {datum} [m]", $"Tip level, {datum} [m]", "Sand in casing [m3]", "Inclination [deg]", "Fix", "Uncertainty 95 % [mm]",
            "Calibration record", "Position correction record", "Remark");
        foreach (DerivedInstallation one in site.Installations)
        {
            Place(table, one);
            LocatedInstallation located = one.Located;
            Installation recorded = located.Recorded;
            table.Number(recorded.HeadingDegrees, 2).Text(recorded.HeadingNorth is { } north ? NameWords.Of(north) : null)
                .Number(recorded.TopLevelMetres, 3).Number(recorded.TipLevelMetres, 3).Number(recorded.SandInCasing, 2).Number(recorded.InclinationDegrees, 3)
                .Text(recorded.Fix is { } fix ? NameWords.Of(fix) : null).Number(recorded.UncertaintyMetres * 1000, 0)
                .Whole(located.Calibration).Whole(located.Correction).Text(recorded.Remark).EndRow();
        }
    }

    /// <summary>Non-conformances: a row a finding.</summary>
    public void NonConformances(TableWriter table)
    {
        ArgumentNullException.ThrowIfNull(table);
        table.Header(
            "Non-conformance", "Stage", "Raised because", "Due on", "Pile No", "Check", "When raised", "Now", "Still stands",
            "Disposition", "Proposed because", "Designer's reference", "Proposed by", "Decision", "Decision's comment", "Decided by", "Decided at", "Sand account");
        foreach (NonConformance one in site.Treated.NonConformances)
        {
            foreach (FindingNow finding in one.Findings)
            {
                table.Whole(one.Number).Text(NameWords.Of(one.Stage)).Text(one.Reason).Text(one.DueOn is { } due ? LocalDatePattern.Iso.Format(due) : null)
                    .Text(finding.Account is null ? finding.Pile : null).Text(NameWords.Of(finding.Check)).Text(finding.WhenRaised).Text(finding.Now).Text(YesNo(finding.Stands))
                    .Text(one.Proposal is { } proposal ? NameWords.Of(proposal.Disposition) : null).Text(one.Proposal?.Reason).Text(one.Proposal?.DesignerReference).Text(Name(one.Proposal?.By));
                Decision(table, one.Decision);
                table.Text(finding.Account?.InWords()).EndRow();
            }
        }
    }

    /// <summary>Lots with their piles.</summary>
    public void Lots(TableWriter table)
    {
        ArgumentNullException.ThrowIfNull(table);
        table.Header("Lot", "Stage", "What it is", "Piles", "Piles accepted", "Submitted by", "Submitted at", "Decision", "Decision's comment", "Decided by", "Decided at", "Pile numbers");
        foreach (Lot lot in site.Treated.Lots)
        {
            table.Whole(lot.Number).Text(NameWords.Of(lot.Stage)).Text(lot.Note).Whole(lot.Piles.Count).Whole(lot.AcceptedPiles).Text(Name(lot.Submitted.By)).Time(lot.Submitted.At, _zone);
            Decision(table, lot.Decision);
            table.Text(string.Join(' ', lot.Piles)).EndRow();
        }
    }

    /// <summary>Hold points with their signatures.</summary>
    public void HoldPoints(TableWriter table)
    {
        ArgumentNullException.ThrowIfNull(table);
        table.Header("Hold point", "Kind", "Name", "Clause", "Zone", "Barge", "Piles to be shown", "Released at", "Withdrawn", "Piles waiting", "Steps");
        foreach (HoldPoint hold in site.Treated.HoldPoints)
        {
            table.Whole(hold.Number).Text(NameWords.Of(hold.PointKind)).Text(hold.Name).Text(hold.Clause).Text(hold.Zone).Text(hold.Barge).Text(string.Join(' ', hold.Shown))
                .Time(hold.ReleasedAt, _zone).Text(YesNo(hold.Withdrawn)).Whole(hold.PilesWaiting)
                .Text(string.Join("; ", hold.Steps.Select(step => $"record {step.Sequence}, {Name(step.By)}: {step.Text}"))).EndRow();
        }
    }

    /// <summary>Offers of the record to the owner with their answers.</summary>
    public void HandOvers(TableWriter table)
    {
        ArgumentNullException.ThrowIfNull(table);
        table.Header("Offer", "Record", "Offered at", "Offered by", "What", "Up to record", "Chain head", "SHA-256 of the package", "Bytes", "Answer", "Answered at", "Answered by", "Comment");
        foreach (HandOverOffer one in site.History.HandOvers)
        {
            table.Whole(one.Offer.Body.Number).Whole(one.Offer.Sequence).Time(one.Offer.At, _zone).Text(Name(one.Offer.By)).Text(one.Offer.Body.Note).Whole(one.Offer.Body.UpTo)
                .Text(one.Offer.Body.HeadHash).Text(one.Offer.Body.PackageSha256).Whole(one.Offer.Body.PackageBytes)
                .Text(one.Answer is null ? null : one.Answer.Body.Received ? "taken over" : "not taken over").Time(one.Answer?.At, _zone).Text(Name(one.Answer?.By)).Text(one.Answer?.Body.Comment).EndRow();
        }
    }

    /// <summary>Every issue of every daily report with its signatures; its content stands in the record that issued it.</summary>
    public void DailyReports(TableWriter table)
    {
        ArgumentNullException.ThrowIfNull(table);
        table.Header("Working day", "Issue", "Record", "Issued at", "Issued by", "Why issued again", "Follows from record", "Chain head printed on it", "Contractor signed at", "Contractor", "Owner countersigned at", "Owner", "Disputed lines");
        foreach (DerivedDailyReport report in site.Progress.Reports)
        {
            table.Text(LocalDatePattern.Iso.Format(report.Issued.Body.WorkingDay)).Whole(report.Issued.Body.Issue).Whole(report.Issued.Sequence)
                .Time(report.Issued.At, _zone).Text(Name(report.Issued.By)).Text(report.Issued.Body.Reason).Whole(report.Issued.Body.HeadSequence).Text(report.Issued.Body.HeadHash)
                .Time(report.ContractorSigned?.At, _zone).Text(Name(report.ContractorSigned?.By)).Time(report.OwnerSigned?.At, _zone).Text(Name(report.OwnerSigned?.By))
                .Text(string.Join("; ", report.Disputes.Select(dispute => $"{dispute.Body.Line}: {dispute.Body.Text}"))).EndRow();
        }
    }

    private void Place(TableWriter table, DerivedInstallation one)
    {
        LocatedInstallation located = one.Located;
        Installation recorded = located.Recorded;
        table.Whole(located.Sequence).Whole(located.Batch).Whole(one.Line).Text(recorded.RecordId).Text(recorded.PileNumber).Text(one.Match.Adopted).Text(NameWords.Of(one.Match.Outcome))
            .Text(YesNo(one.Stands)).Text(NameWords.Of(recorded.Outcome)).Text(recorded.Barge).Whole(recorded.Casing).Text(recorded.SetUp)
            .Time(recorded.Start, _zone).Time(recorded.EndOfPenetration, _zone).Time(recorded.End, _zone)
            .Number(located.TouchDown?.XMetres, 3).Number(located.TouchDown?.YMetres, 3).Number(located.AtEndOfPenetration?.XMetres, 3).Number(located.AtEndOfPenetration?.YMetres, 3)
            .Whole(located.AdjustmentRevision);
    }

    private void Decision(TableWriter table, TreatmentStep? decision)
        => table.Text(decision?.Yes is { } yes ? yes ? "yes" : "sent back" : null).Text(decision?.Text).Text(Name(decision?.By)).Time(decision?.At, _zone);

    private string? Name(string? by) => by is null ? null : names.GetValueOrDefault(by, by);

    private static string YesNo(bool yes) => yes ? "yes" : "no";
}
