using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Jobs.Design;

/// <summary>
/// Lays out the piles of a zone by a pattern. It records nothing: the layout is a pile schedule that somebody sends in, and that is looked
/// at and recorded like any other.
/// </summary>
public sealed class LayOutPiles(SiteHistories histories, StoreUpload store)
{
    /// <summary>Most planned piles drawn around a layout.</summary>
    public static readonly int MostDrawnAround = 4_000;

    /// <summary>A layout, or why there is none.</summary>
    /// <param name="Zones">Zones of the site.</param>
    /// <param name="Zone">The zone laid out.</param>
    /// <param name="Texts">What was asked, with what was left out filled in.</param>
    /// <param name="Layout">The layout; null where there is none.</param>
    /// <param name="Problems">What stands against it; with any, it cannot be sent in.</param>
    /// <param name="Cautions">What to look at.</param>
    /// <param name="PlannedInZone">Piles that schedules plan in the zone now.</param>
    /// <param name="Replaces">True where the layout takes the place of these.</param>
    /// <param name="Around">Places of piles that stay planned, for the picture; empty where there are too many.</param>
    /// <param name="SandSource">The zone's sand source with its C; null where the settings name none.</param>
    /// <param name="Axes">Names of the axes of the site grid.</param>
    /// <param name="LevelDatum">Name of the datum of levels.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record View(
        IReadOnlyList<Zone> Zones, Zone Zone, LayoutTexts Texts, PileLayout? Layout, IReadOnlyList<LayoutProblem> Problems, IReadOnlyList<LayoutCaution> Cautions,
        int PlannedInZone, bool Replaces, IReadOnlyList<SiteCoordinate> Around, SandSource? SandSource, GridAxes Axes, string LevelDatum, string TimeZone, long RecordSequence);

    /// <summary>Lays out; null where the site has no zones.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="texts">What is asked.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.See)]
    public async Task<View?> RunAsync(Permit permit, LayoutTexts texts, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(texts);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        if (site.History.Settings is not { Zones.Count: > 0 } settings) return null;
        bool named = !string.IsNullOrWhiteSpace(texts.Zone);
        Zone? found = named ? settings.FindZone(texts.Zone!.Trim()) : settings.Zones[0];
        Zone zone = found ?? settings.Zones[0];
        PileVersion[] planned = [.. (site.Design?.Piles ?? []).Where(pile => pile.TakenOutBy is null).Select(pile => pile.Last)];
        // An additional pile of a disposition is in no schedule, so no schedule takes it out.
        PlannedPile[] inZone = [.. planned.Where(one => one.Revision > 0 && string.Equals(one.Pile.Zone, zone.Code, StringComparison.OrdinalIgnoreCase)).Select(one => one.Pile)];
        SandSource? source = settings.FindSandSource(zone.SandSource);
        LayoutReading reading = new(zone, inZone, source?.VolumeChangeFactor);
        LayoutInputs? inputs = reading.Read(texts);
        View view = new(
            settings.Zones, zone, reading.Filled, null, reading.Problems, [], inZone.Length, reading.Replaces, [], source, settings.GridAxes, settings.LevelDatum.Name,
            settings.TimeZone, site.History.Sequence);
        if (found is null) return view with { Problems = [new LayoutProblem("Zone", texts.Zone!, $"a zone of this site: {string.Join(", ", settings.Zones.Select(one => one.Code))}")] };
        if (inputs is null) return view;
        LayoutResult result = PileLayout.Of(inputs);
        if (result.Layout is not { } layout) return view with { Problems = result.Problems };
        PlannedPile[] stay = [.. planned.Select(one => one.Pile).Except(reading.Replaces ? inZone : [])];
        return view with
        {
            Layout = layout,
            Problems = [.. LayoutAgainstDesign.Problems(layout, settings, site, reading.Replaces ? inZone : [])],
            Cautions = [.. LayoutAgainstDesign.Cautions(layout, zone, stay)],
            Around = LayoutAgainstDesign.Near(layout, stay, MostDrawnAround),
        };
    }

    /// <summary>Sends the layout in as a pile schedule. Nothing is recorded: its preview says what recording it would do.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="texts">What is asked.</param>
    /// <param name="cancellation">Stops the work; nothing is kept then.</param>
    /// <returns>Key of the upload, or why there is none.</returns>
    [Needs(Right.BringIn)]
    public async Task<UploadResult> SendInAsync(Permit permit, LayoutTexts texts, CancellationToken cancellation)
    {
        permit.Demand(Right.BringIn);
        if (await RunAsync(permit, texts, cancellation) is not { } view) return new UploadResult(null, null, "The site has no zones yet.");
        if (view.Problems is [{ } first, ..]) return new UploadResult(null, null, $"{first.Where}: {first.Found}; expected {first.Expected}.");
        using MemoryStream bytes = new();
        using (StreamWriter text = new(bytes, TableWriter.Encoding, leaveOpen: true)) PlannedPileTable.Write(new TableWriter(text), view.Axes, view.Layout!.Planned());
        bytes.Position = 0;
        return await store.RunAsync(permit, FileName(view), bytes, cancellation);
    }

    /// <summary>Name of the schedule of a layout.</summary>
    public static string FileName(View view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return $"layout-zone-{string.Concat(view.Zone.Code.ToLowerInvariant().Select(letter => char.IsAsciiLetterOrDigit(letter) ? letter : '-'))}.csv";
    }
}
