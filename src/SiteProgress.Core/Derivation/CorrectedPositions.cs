using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>
/// Takes adopted corrections off recorded positions. The record stays as it is; the corrected position is derived beside it. A record
/// without a heading cannot be corrected in the barge's axes, and counts as recorded.
/// </summary>
internal sealed class CorrectedPositions
{
    private readonly SiteFrames frames;
    private readonly GridRotation rotation;
    private readonly Dictionary<long, List<PositionCorrection>> byInstallation = [];
    private double? convergenceDegrees;

    public CorrectedPositions(SiteHistory history, SiteFrames frames)
    {
        (this.frames, rotation) = (frames, frames.Rotation);
        foreach (PositionCorrection correction in history.Corrections.Where(one => one.IsInForce))
        {
            foreach (long sequence in correction.Body.Installations)
            {
                if (!byInstallation.TryGetValue(sequence, out List<PositionCorrection>? those)) byInstallation[sequence] = those = [];
                those.Add(correction);
            }
        }
    }

    /// <summary>The installation with its corrected positions, or as it is.</summary>
    public LocatedInstallation Apply(LocatedInstallation located)
    {
        if (!byInstallation.TryGetValue(located.Sequence, out List<PositionCorrection>? corrections) || located.Position is not { } at) return located;
        if (GridHeading(located.Recorded, at) is not { } heading) return located;
        (double x, double y) = OnSite(corrections.Sum(one => one.Body.ForwardMetres), corrections.Sum(one => one.Body.StarboardMetres), heading);
        return located with { TouchDown = Moved(located.TouchDown, x, y), AtEndOfPenetration = Moved(located.AtEndOfPenetration, x, y), Correction = corrections[^1].Sequence };
    }

    /// <summary>What to take off the recorded position of a check measurement: that of the installation it was made at.</summary>
    /// <param name="check">The measurement.</param>
    /// <param name="recorded">Its recorded position, site grid.</param>
    /// <param name="installations">Installations of the pile by the same barge and casing.</param>
    public SiteCoordinate Apply(CheckMeasurement check, SiteCoordinate recorded, IEnumerable<LocatedInstallation> installations)
    {
        foreach (LocatedInstallation one in installations.Where(one => one.Correction is not null && one.Recorded.Barge == check.Barge && one.Recorded.Casing == check.Casing))
        {
            List<PositionCorrection> corrections = byInstallation[one.Sequence];
            if (GridHeading(one.Recorded, recorded) is not { } heading) continue;
            (double x, double y) = OnSite(corrections.Sum(each => each.Body.ForwardMetres), corrections.Sum(each => each.Body.StarboardMetres), heading);
            return new SiteCoordinate(recorded.XMetres - x, recorded.YMetres - y);
        }

        return recorded;
    }

    private double? GridHeading(Installation recorded, SiteCoordinate at) => recorded.HeadingNorth switch
    {
        North.CrsGrid => recorded.HeadingDegrees,
        North.SiteGrid => recorded.HeadingDegrees + (Math.Atan2(rotation.SecondAxisEast, rotation.SecondAxisNorth) * 180 / Math.PI),
        North.TrueNorth => recorded.HeadingDegrees - (convergenceDegrees ??= frames.Current.DistortionAt(frames.Current.ToGeographic(at)).ConvergenceDegrees),
        _ => null,
    };

    private (double X, double Y) OnSite(double forward, double starboard, double headingDegrees)
    {
        (double east, double north) = Bias.BargeFrame.ToGrid(forward, starboard, headingDegrees);
        return ((east * rotation.FirstAxisEast) + (north * rotation.FirstAxisNorth), (east * rotation.SecondAxisEast) + (north * rotation.SecondAxisNorth));
    }

    private static SiteCoordinate? Moved(SiteCoordinate? at, double x, double y) => at is { } given ? new SiteCoordinate(given.XMetres - x, given.YMetres - y) : null;
}
