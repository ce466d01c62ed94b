using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Jobs.Deviations;

/// <summary>What is to be taken off the recorded positions of which records.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing; null for all of them.</param>
/// <param name="From">First working day.</param>
/// <param name="To">Last working day.</param>
/// <param name="ForwardMetres">Recorded minus true, forward, metres.</param>
/// <param name="StarboardMetres">Recorded minus true, to starboard, metres.</param>
/// <param name="Reason">Why.</param>
public sealed record CorrectionRequest(
    string Barge, int? Casing, DateOnly From, DateOnly To, double ForwardMetres, double StarboardMetres, string Reason)
{
    /// <summary>No offset of a casing or an antenna is larger, metres; a larger one is a wrong record, not a correction.</summary>
    public static double MostMetres => 5;

    /// <summary>Why it cannot be made whatever is on record; null where it can.</summary>
    internal string? Problem()
    {
        if (string.IsNullOrWhiteSpace(Barge)) return "Which barge? The correction is in its axes.";
        if (To < From) return $"The last working day ({To:yyyy-MM-dd}) lies before the first ({From:yyyy-MM-dd}).";
        double size = Math.Sqrt((ForwardMetres * ForwardMetres) + (StarboardMetres * StarboardMetres));
        if (!double.IsFinite(size) || size > MostMetres) return $"The offset is larger than {MostMetres:0} m; that is no offset of a casing or antenna. Withdraw the records and bring them in anew.";
        if (size == 0) return "Both offsets are zero: nothing would change.";
        return ReasonText.WhyNot(Reason);
    }
}

/// <summary>What a correction would change.</summary>
/// <param name="Records">Installations whose positions it revises.</param>
/// <param name="WithoutHeading">Installations in its scope that it cannot revise, as no heading is on their record.</param>
/// <param name="CheckMeasurements">Check measurements it rests on.</param>
/// <param name="StateChanges">How many piles would go from which state to which.</param>
/// <param name="BeyondNow">Piles of its scope beyond the limits of their position now.</param>
/// <param name="BeyondThen">Piles of its scope beyond them then.</param>
/// <param name="MedianNowMetres">Median radial deviation of those piles now, metres; null without piles.</param>
/// <param name="MedianThenMetres">The same then.</param>
/// <param name="Changes">Piles whose position would get another verdict, by number.</param>
public sealed record CorrectionEffect(
    int Records,
    int WithoutHeading,
    int CheckMeasurements,
    IReadOnlyList<PileStateChange> StateChanges,
    int BeyondNow,
    int BeyondThen,
    double? MedianNowMetres,
    double? MedianThenMetres,
    IReadOnlyList<VerdictChange> Changes);

/// <summary>A pile whose position would get another verdict.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Measure">Which limit decides.</param>
/// <param name="NowMetres">What is held to it now, metres.</param>
/// <param name="ThenMetres">What would be held to it then, metres.</param>
/// <param name="LimitMetres">The limit, metres.</param>
/// <param name="WithinThen">True when the position would keep all its limits.</param>
public sealed record VerdictChange(string Number, PositionMeasure Measure, double NowMetres, double ThenMetres, double LimitMetres, bool WithinThen);

/// <summary>A correction as the page shows it.</summary>
/// <param name="Correction">The correction and what became of it.</param>
/// <param name="ProposedBy">Name of who proposed it.</param>
/// <param name="DecidedBy">Name of who decided; null while it waits.</param>
/// <param name="WithdrawnBy">Name of who withdrew it; null while it stands.</param>
/// <param name="IsOwn">True when the person who reads proposed it, and so may not decide.</param>
/// <param name="FirstDay">First working day of its records; null when none counts any more.</param>
/// <param name="LastDay">Last working day of its records.</param>
public sealed record CorrectionLine(
    PositionCorrection Correction, string ProposedBy, string? DecidedBy, string? WithdrawnBy, bool IsOwn, DateOnly? FirstDay, DateOnly? LastDay);

/// <summary>A barge whose positions can be corrected.</summary>
/// <param name="Barge">Its name.</param>
/// <param name="Casings">Its casings.</param>
public sealed record CorrectionChoice(string Barge, IReadOnlyList<int> Casings);
