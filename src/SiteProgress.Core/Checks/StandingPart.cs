using SiteProgress.Core.Matching;

namespace SiteProgress.Core.Checks;

/// <summary>The part of a pile that one installation stands for.</summary>
/// <param name="Installation">The installation.</param>
/// <param name="FromLevelMetres">Lower end of the part, metres above the level datum; null when the record does not say.</param>
/// <param name="ToLevelMetres">Upper end of the part, metres above the level datum; null when the record does not say.</param>
public sealed record StandingPart(LocatedInstallation Installation, double? FromLevelMetres, double? ToLevelMetres)
{
    /// <summary>Length of the part, metres; null when an end is not on the record.</summary>
    public double? LengthMetres => ToLevelMetres - FromLevelMetres;

    /// <summary>Share of the installation's own length that stands, 0 to 1; 1 when its levels are not on the record.</summary>
    public double ShareRatio
    {
        get
        {
            double? whole = Installation.Recorded.TopLevelMetres - Installation.Recorded.TipLevelMetres;
            return LengthMetres is { } part && whole > 0 ? Math.Clamp(part / whole.Value, 0, 1) : 1;
        }
    }
}
