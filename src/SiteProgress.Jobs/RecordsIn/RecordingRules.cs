using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>What stands against recording a file, asked by the preview and, under the site's lock, by the recording.</summary>
internal static class RecordingRules
{
    /// <summary>Null, or the reason why the file cannot be recorded by this person now.</summary>
    public static string? WhyNot(Permit permit, SiteHistory history, ReadUpload read)
    {
        if (read.Refused) return "The file holds nothing that can be recorded: " + (read.Problems is [{ } first, ..] ? first.Sentence : "it has no rows.");
        if (history.Adjustments.Count == 0) return "The site has no adjustment of its grid yet; positions could not be judged.";
        if (SameBytes(history, read.Upload.Sha256) is { } same)
            return $"The same file is recorded already, as batch {same.Sequence} ({same.Body.FileName}). Nothing is recorded twice.";
        if (read.Content is BatchContent.CheckMeasurements or BatchContent.Calibrations or BatchContent.WaterLevels or BatchContent.SeabedSoundings && !permit.Allows(Right.KeepSurvey))
            return "Check measurements, calibrations, water levels and seabed surveys are the surveyor's to record.";
        if (read.Content is BatchContent.DiaryEntries or BatchContent.PlannedProgress && !permit.Allows(Right.ReviseDesign))
            return "Diary and schedule of progress are the project manager's to record.";
        if (read.DesignRefusal is { } refusal) return refusal;
        if (read is { RevisesDesign: true, Design.Scope: not DesignScope.Amends } && !permit.Allows(Right.ReviseDesign))
            return "A schedule that is the whole design of a zone or of the site may take piles out; it is the project manager's to record.";
        if (read.Content == BatchContent.PlannedPiles
            && !permit.Allows(Right.ReviseDesign)
            && DesignChanges.Of(history, read.Rows) is { Changed: > 0 } change)
        {
            return $"The file changes the design of {change.Changed} piles; a design revision is the project manager's to record.";
        }

        return null;
    }

    /// <summary>The batch that holds the same bytes and counts.</summary>
    public static Batch? SameBytes(SiteHistory history, string sha256)
        => history.Batches.FirstOrDefault(batch => batch.Withdrawal is null && batch.Body.Sha256 == sha256);
}
