using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>
/// One line of a sand account: a load that came, a stock that was measured, or sand that was lost. Volumes are loose, as
/// measured in the sand carrier or the hopper, cubic metres; never volume in the pile.
/// </summary>
/// <param name="Ticket">The carrier's own identifier of the load.</param>
/// <param name="At">When the load was taken over, the stock measured or the loss noticed.</param>
/// <param name="Entry">What the line says.</param>
/// <param name="Source">Sand source, one of the site's.</param>
/// <param name="Barge">Barge that took it over or holds it; null for a store of the site.</param>
/// <param name="CubicMetres">Loose volume, cubic metres.</param>
/// <param name="Remark">Remark of whoever measured.</param>
public sealed record SandDelivery(
    string? Ticket,
    Instant At,
    SandEntry Entry,
    string Source,
    string? Barge,
    double CubicMetres,
    string? Remark);

/// <summary>What a line of a sand account says.</summary>
public enum SandEntry
{
    /// <summary>A load was taken over.</summary>
    Delivered = 1,

    /// <summary>The stock was measured: what is there, not what came.</summary>
    StockMeasured = 2,

    /// <summary>Sand was lost on the way to a pile.</summary>
    Wasted = 3,
}
