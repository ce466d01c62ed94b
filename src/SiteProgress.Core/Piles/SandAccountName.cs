using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Core.Piles;

/// <summary>Which account of a sand: whose, of which source, from one measured stock to the next.</summary>
/// <param name="Barge">Barge; empty where the stock is the whole site's.</param>
/// <param name="Source">Sand source.</param>
/// <param name="From">When the opening stock was measured.</param>
/// <param name="To">When the closing stock was measured.</param>
public sealed record SandAccountName(string Barge, string Source, Instant From, Instant To)
{
    private static readonly InstantPattern Minute = InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm'Z'");

    /// <summary>The account in words, its times in UTC. Part of sheets that are signed, so never changed.</summary>
    public string InWords() => string.Create(CultureInfo.InvariantCulture, $"{(Barge.Length > 0 ? Barge : "the whole site")}, {Source}, {Minute.Format(From)} to {Minute.Format(To)}");
}
