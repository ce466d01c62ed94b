using SiteProgress.Core.Deviations;
using SiteProgress.Jobs.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>The limits of a pile's position in words.</summary>
internal static class LimitWords
{
    /// <summary>Such as <c>150</c> or <c>150; 100 along; 120 across</c>, millimetres.</summary>
    public static string Of(PileRecord record)
    {
        PositionLimit limit = ContractLimits.Position(record.Zone, record.Design.DiameterMetres);
        return ShowLimit.Of(limit.SetsRadial ? limit.RadialMetres : null, limit.AlongMetres, limit.AcrossMetres);
    }

    /// <summary>What is compared.</summary>
    public static string Formula(PileRecord record)
    {
        PositionLimit limit = ContractLimits.Position(record.Zone, record.Design.DiameterMetres);
        string radial = record.Zone.Limits.RadialDiameterRatio is { } ratio
            ? $"radial = √(dE² + dN²) ≤ limit, {Show.Percent(ratio)} % of the design diameter{(record.Zone.Limits.RadialMetres is { } most ? $" and at most {Show.Millimetres(most)} mm" : "")}"
            : "radial = √(dE² + dN²) ≤ limit";
        return string.Join("; ", new[] { limit.SetsRadial ? radial : null, limit.AlongMetres is null ? null : "|along| ≤ limit", limit.AcrossMetres is null ? null : "|across| ≤ limit" }.OfType<string>());
    }
}
