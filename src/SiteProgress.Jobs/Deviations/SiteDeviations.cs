using System.Runtime.CompilerServices;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Bias;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Deviations;

/// <summary>
/// The built piles of a site with their deviations, in memory. A selection is made many times between two records (a frame is drawn,
/// a filter set), so what was read is kept until the site has other records.
/// </summary>
internal sealed class SiteDeviations
{
    private const int MostSites = 3;
    private const int MostReviews = 6;
    private static readonly ConditionalWeakTable<NpgsqlDataSource, Dictionary<int, SiteDeviations>> Kept = [];
    private readonly Dictionary<DeviationSelection, DeviationReview> reviews = [];
    private readonly Lazy<BiasFindings> findings;
    private readonly Lazy<IReadOnlyList<CheckFinding>> checkFindings;

    private SiteDeviations(long sequence, int rules, SiteSettings? settings, BuiltPile[] piles, CheckedPosition[] checks, FrameTurn frame)
    {
        (Sequence, Rules, Settings, Piles, Checks, Frame) = (sequence, rules, settings, piles, checks, frame);
        findings = new(() => BiasReview.Run(Array.FindAll(piles, pile => pile.IsJudged).Select(pile => pile.ForBias(frame)).ToArray(), checks, Bias));
        checkFindings = new(() => CheckReview.Of(checks, Bias.LeastSizeMetres));
    }

    public long Sequence { get; }

    public SiteSettings? Settings { get; }

    /// <summary>Built piles, by number.</summary>
    public BuiltPile[] Piles { get; }

    public CheckedPosition[] Checks { get; }

    public FrameTurn Frame { get; }

    public BiasFindings Findings => findings.Value;

    public IReadOnlyList<CheckFinding> CheckFindings => checkFindings.Value;

    /// <summary>
    /// The review of a selection, kept while the site has no other records: a page reads it once to be drawn by the server and once more
    /// when it comes alive, and the same address is asked for again and again.
    /// </summary>
    public DeviationReview Review(DeviationSelection selection, Func<DeviationReview> make)
    {
        lock (reviews)
        {
            if (reviews.TryGetValue(selection, out DeviationReview? kept)) return kept;
        }

        DeviationReview made = make();
        lock (reviews)
        {
            if (reviews.Count >= MostReviews) reviews.Clear();
            return reviews[selection] = made;
        }
    }

    /// <summary>What the search for bias takes from the site.</summary>
    public BiasSite Bias => new(
        Settings?.Barges.SelectMany(barge => barge.Casings.Select(casing => new CasingArm(barge.Name, casing.Number, casing.ForwardMetres, casing.StarboardMetres))).ToArray() ?? [],
        Frame.ConvergenceDegrees,
        Settings?.LeastBiasMetres ?? BiasSite.UsualLeastSizeMetres);

    private int Rules { get; }

    /// <summary>Reads the piles, or gives those kept while the site has no other records.</summary>
    public static async Task<SiteDeviations> ReadAsync(NpgsqlDataSource store, int site, CancellationToken cancellation)
    {
        (long sequence, int rules) = (await store.ReadAsync(
            "select sequence, rules_version from derived.site_state where site = $1", row => (row.GetInt64(0), row.GetInt32(1)), cancellation, Site(site))).SingleOrDefault();
        Dictionary<int, SiteDeviations> kept = Kept.GetOrCreateValue(store);
        lock (kept)
        {
            if (kept.TryGetValue(site, out SiteDeviations? same) && same.Sequence == sequence && same.Rules == rules) return same;
        }

        SiteDeviations read = await ReadAnewAsync(store, site, sequence, rules, cancellation);
        lock (kept)
        {
            if (kept.Count >= MostSites) kept.Clear();
            kept[site] = read;
        }

        return read;
    }

    private static async Task<SiteDeviations> ReadAnewAsync(NpgsqlDataSource store, int site, long sequence, int rules, CancellationToken cancellation)
    {
        List<BuiltPile> piles = await store.ReadAsync(
            $"""
            select {BuiltPile.Columns}
            from derived.pile p left join derived.installation i on i.site = p.site and i.sequence = p.standing[cardinality(p.standing)]
            where p.site = $1 and p.state not in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain}, {(int)PileState.Cancelled}) order by p.number collate "C"
            """,
            BuiltPile.Read,
            cancellation,
            Site(site));
        FrameTurn frame = await FrameAsync(store, site, piles, cancellation);
        SiteSettings? settings = await StoredSettings.ReadAsync(store, site, cancellation);
        return new SiteDeviations(
            sequence, rules, settings, settings is null ? [] : WithLimits(piles, settings, frame), await ChecksAsync(store, site, frame, cancellation), frame);
    }

    private static BuiltPile[] WithLimits(List<BuiltPile> piles, SiteSettings settings, FrameTurn frame)
    {
        Dictionary<(string, double), PositionLimit> limits = [];
        return piles.Select(pile =>
        {
            (string, double) key = (pile.Zone, pile.DesignDiameter);
            if (!limits.TryGetValue(key, out PositionLimit? limit)) limits[key] = limit = ContractLimits.Position(settings.FindZone(pile.Zone)!, pile.DesignDiameter, frame.Rotation);
            return pile with { Limit = limit };
        }).ToArray();
    }

    private static async Task<FrameTurn> FrameAsync(NpgsqlDataSource store, int site, List<BuiltPile> piles, CancellationToken cancellation)
    {
        IReadOnlyList<AdoptedAdjustment> adopted = await SiteAdjustments.ReadAsync(store, site, cancellation);
        if (adopted.Count == 0) return new FrameTurn(new(1, 0, 0, 1), 0);
        SiteFrames frames = new(adopted.Select(one => one.Body).ToArray());
        if (piles.Count == 0) return new FrameTurn(frames.Rotation, 0);
        SiteCoordinate middle = new(piles.Average(pile => pile.DesignX), piles.Average(pile => pile.DesignY));
        double convergence = frames.Current.DistortionAt(frames.Current.ToGeographic(middle)).ConvergenceDegrees;
        return new FrameTurn(frames.Rotation, double.IsFinite(convergence) ? convergence : 0);
    }

    private static async Task<CheckedPosition[]> ChecksAsync(NpgsqlDataSource store, int site, FrameTurn frame, CancellationToken cancellation)
        => (await store.ReadAsync(
            """
            select c.sequence, c.barge, c.casing, c.measured_at, c.difference_east, c.difference_north, c.uncertainty, i.heading, i.heading_north, i.set_up, i.working_day, i.calibration
            from derived.position_check c
            left join lateral (
                select heading, heading_north, set_up, working_day, calibration from derived.installation
                where site = c.site and adopted = c.number and barge = c.barge order by abs(extract(epoch from started_at - c.measured_at)) limit 1) i on true
            where c.site = $1 order by c.sequence
            """,
            row => new CheckedPosition(
                row.GetInt64(0),
                row.GetString(1),
                row.GetInt32(2),
                row.TextOrNull(9) ?? $"{row.GetDateTime(3):yyyy-MM-dd HH}",
                Instant.FromDateTimeUtc(row.GetDateTime(3)),
                row.DayOrNull(10) is { } day ? new LocalDate(day.Year, day.Month, day.Day) : null,
                frame.ToGridHeading(row.NumberOrNull(7), row.IsDBNull(8) ? null : (North)row.GetInt16(8)),
                row.GetDouble(4),
                row.GetDouble(5),
                row.GetDouble(6)) { Calibration = row.IsDBNull(11) ? null : row.GetInt64(11) },
            cancellation,
            Site(site))).ToArray();
}
