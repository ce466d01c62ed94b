using System.Globalization;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Sites;

/// <summary>
/// Revises the settings of a site. What is the site's own comes into force at once; what belongs to the contract (zones with their
/// limits, sand sources, needs of a position) is put before the owner's representative.
/// </summary>
public sealed class ReviseSettings(SiteHistories histories, SiteRecorder recorder)
{
    /// <summary>Longest text of settings, characters.</summary>
    public static int MostCharacters => 1_000_000;

    /// <summary>Longest reason, characters.</summary>
    public static int MostReasonCharacters => ReasonText.MostCharacters;

    /// <summary>Says what a text in the form of the settings file would change. Records nothing.</summary>
    /// <returns>Null before the site was opened.</returns>
    [Needs(Right.ChangeSettings)]
    public async Task<WorkedOutSettings?> WorkOutAsync(Permit permit, string text, CancellationToken cancellation)
    {
        permit.Demand(Right.ChangeSettings);
        ArgumentNullException.ThrowIfNull(text);
        return await histories.ReadDerivedAsync(permit.Site, cancellation) is { History.Settings: not null } site
            ? SettingsProposalWork.WorkOut(site, text).WithEffect(site) : null;
    }

    /// <summary>Records the revision, or the proposal of it.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="text">The settings, whole, in the form of the settings file.</param>
    /// <param name="reason">Why.</param>
    /// <param name="seen">Hash of the settings whose changes the person was shown.</param>
    /// <param name="seenSince">Record of the settings they were compared with.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>The record, true where it waits for approval; or why nothing was recorded.</returns>
    [Needs(Right.ChangeSettings)]
    public async Task<SettingsAnswer> RecordAsync(Permit permit, string text, string reason, string seen, long seenSince, CancellationToken cancellation)
    {
        permit.Demand(Right.ChangeSettings);
        ArgumentNullException.ThrowIfNull(text);
        if (ReasonText.WhyNot(reason) is { } why) return SettingsAnswer.Refused(why);
        string? refusal = null;
        bool waits = false;
        RecordedRange range = await recorder.AppendOnDerivedAsync(
            permit,
            Right.ChangeSettings,
            site =>
            {
                if (site.History.Settings is null)
                {
                    refusal = "The site was not opened yet; its operator opens it.";
                    return [];
                }

                WorkedOutSettings worked = SettingsProposalWork.WorkOut(site, text);
                refusal = WhyNot(worked, seen, seenSince);
                if (refusal is not null) return [];
                waits = worked.NeedsApproval;
                return [waits ? new SettingsProposedBody(worked.Settings!, reason.Trim(), worked.InForceSince) : new SettingsBody(worked.Settings!, null, First: false, reason.Trim())];
            },
            cancellation);
        return refusal is null ? new SettingsAnswer(range.Last, waits, null) : SettingsAnswer.Refused(refusal);
    }

    private static string? WhyNot(WorkedOutSettings worked, string seen, long seenSince)
    {
        if (worked.Problems.Count > 0) return worked.Problems[0];
        if (worked.Changes.Count == 0) return "Nothing differs from the settings in force.";
        if (worked.InForceSince != seenSince)
            return string.Create(CultureInfo.InvariantCulture, $"Record {worked.InForceSince} revised the settings meanwhile. Look at what changes once more.");
        return string.Equals(worked.Hash, seen, StringComparison.OrdinalIgnoreCase) ? null : "The text is not the one whose changes you were shown. Look at what changes once more.";
    }
}

/// <summary>What became of a revision of settings.</summary>
/// <param name="Sequence">The record; null where nothing was recorded.</param>
/// <param name="Waits">True where it waits for the owner's representative.</param>
/// <param name="Refusal">Why nothing was recorded.</param>
public sealed record SettingsAnswer(long? Sequence, bool Waits, string? Refusal)
{
    internal static SettingsAnswer Refused(string why) => new(null, false, why);
}
