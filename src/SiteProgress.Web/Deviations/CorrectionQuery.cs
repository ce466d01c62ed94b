using System.Globalization;
using SiteProgress.Core.Bias;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Deviations;

/// <summary>What the address of the page of corrections asks to be worked out. Offsets are written in millimetres.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing.</param>
/// <param name="From">First working day.</param>
/// <param name="To">Last working day.</param>
/// <param name="Forward">Recorded minus true, forward.</param>
/// <param name="Starboard">Recorded minus true, to starboard.</param>
/// <param name="Reason">Why.</param>
public sealed record CorrectionQuery(string? Barge, string? Casing, string? From, string? To, string? Forward, string? Starboard, string? Reason)
{
    /// <summary>True when nothing is asked.</summary>
    public bool IsEmpty => new[] { Barge, Casing, From, To, Forward, Starboard, Reason }.All(string.IsNullOrWhiteSpace);

    /// <summary>The request, or what is missing or cannot be read.</summary>
    public (CorrectionRequest? Request, string? Problem) Read()
    {
        int? casing = null;
        if (!string.IsNullOrWhiteSpace(Casing))
        {
            if (!int.TryParse(Casing, NumberStyles.None, CultureInfo.InvariantCulture, out int number)) return (null, $"Casing: '{Casing}' is no whole number.");
            casing = number;
        }

        if (ShowDay.FromAddress(From) is not { } from) return (null, $"First working day: '{From}' is no day; write it as 2026-03-30.");
        if (ShowDay.FromAddress(To) is not { } to) return (null, $"Last working day: '{To}' is no day; write it as 2026-04-09.");
        if (Metres(Forward) is not { } forward) return (null, $"Forward: '{Forward}' is no number of millimetres.");
        if (Metres(Starboard) is not { } starboard) return (null, $"To starboard: '{Starboard}' is no number of millimetres.");
        return (new CorrectionRequest(Barge?.Trim() ?? "", casing, from, to, forward, starboard, Reason ?? ""), null);
    }

    /// <summary>The address that asks for the correction a claim suggests.</summary>
    public static string Address(string site, string? barge, int? casing, DateOnly? from, DateOnly? to, double forwardMetres, double starboardMetres, string reason)
        => new PageAddress($"/sites/{site}/deviations/corrections").With("barge", barge).With("casing", casing).With("from", from).With("to", to)
            .With("forward", Text(forwardMetres)).With("starboard", Text(starboardMetres)).With("reason", reason).ToString();

    /// <summary>The address for a claim that check measurements support.</summary>
    public static string Address(string site, BiasClaim claim)
    {
        ArgumentNullException.ThrowIfNull(claim);
        return Address(
            site, claim.Named.Cause.Barge, claim.Named.Cause.Casing, claim.FromDay?.ToDateOnly(), claim.ToDay?.ToDateOnly(),
            claim.Named.Values[0].Value, claim.Named.Values[1].Value, $"{ClaimSentences.Name(claim.Named.Cause)}; check measurements show the same offset");
    }

    private static double? Metres(string? millimetres)
        => double.TryParse(millimetres?.Replace('\u2212', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? number / 1000 : null;

    private static string Text(double metres) => Math.Round(metres * 1000).ToString("0", CultureInfo.InvariantCulture);
}
