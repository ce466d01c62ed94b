namespace SiteProgress.Core.Deviations;

/// <summary>How far a level may differ from its design.</summary>
/// <param name="UpMetres">How far above the design it may lie, metres (&lt;=).</param>
/// <param name="DownMetres">How far below the design it may lie, metres (&lt;=); null where deeper is always allowed.</param>
/// <param name="AlertMetres">The site's own alert in the directions that have a limit, metres (&lt;=); null where it sets none.</param>
public sealed record LevelLimit(double UpMetres, double? DownMetres, double? AlertMetres = null)
{
    /// <summary>Holds a difference against the limit of its direction.</summary>
    /// <param name="differenceMetres">As-built minus design level, metres, up positive.</param>
    public LimitAnswer Hold(double differenceMetres)
        => differenceMetres < 0 && DownMetres is { } down
            ? new LimitAnswer(-differenceMetres, down, AlertMetres)
            : new LimitAnswer(differenceMetres, UpMetres, AlertMetres);
}
