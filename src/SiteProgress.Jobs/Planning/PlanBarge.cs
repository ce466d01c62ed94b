using System.Text.Json;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Core.SetUps;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Progress;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;
using SiteProgress.Planning;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Planning;

/// <summary>Plans a barge's way over the outstanding piles of chosen zones. A proposal to the manager; it is recorded nowhere.</summary>
public sealed class PlanBarge(NpgsqlDataSource store, SiteHistories histories)
{
    private const double FitMetres = 0.05;

    // A plan takes all processors for a while, and a page that is read again does not end the one before. One at a time leaves room for the other pages.
    private static readonly SemaphoreSlim OneAtATime = new(1, 1);

    // Outlines of the site drawing that a hull must keep away from, by a word of their name.
    private static readonly string[] StructureWords = ["caisson", "quay", "wall", "pier", "structure", "jetty"];

    /// <summary>What is asked.</summary>
    /// <param name="Barge">Barge; null for the first.</param>
    /// <param name="Zones">Zones; none for all.</param>
    /// <param name="HeadingsDegrees">Headings against the site grid's second axis; none for 0 and 90.</param>
    /// <param name="AlongMetres">Reach of one laying of the anchors along the first axis, metres.</param>
    /// <param name="AcrossMetres">Reach along the second axis, metres.</param>
    /// <param name="AnchorHours">Hours for one laying.</param>
    /// <param name="SetUpMinutes">Minutes for one set-up; null for the median of the records.</param>
    /// <param name="ClearanceMetres">Least distance of the hull from a structure, metres.</param>
    /// <param name="DirectionDegrees">Direction in which the anchors advance; null for the shortest.</param>
    /// <param name="Forbidden">Piles not to be built now.</param>
    /// <param name="Pinned">Set-ups fixed by a person: pile numbers built together.</param>
    /// <param name="Times">When, in what water and with which spacings; null for the usual.</param>
    public sealed record Request(
        string? Barge = null,
        IReadOnlyList<string>? Zones = null,
        IReadOnlyList<double>? HeadingsDegrees = null,
        double AlongMetres = 38,
        double AcrossMetres = 9,
        double AnchorHours = 5,
        double? SetUpMinutes = null,
        double ClearanceMetres = 10,
        double? DirectionDegrees = null,
        IReadOnlyList<string>? Forbidden = null,
        IReadOnlyList<IReadOnlyList<string>>? Pinned = null,
        PlanTimes? Times = null);

    /// <summary>The plan with what it rests on.</summary>
    /// <param name="SequenceOfRecords">Sequence of the last record it follows from.</param>
    /// <param name="TimeZone">IANA time zone of the site.</param>
    /// <param name="Barges">Barges of the site.</param>
    /// <param name="AllZones">Zones of the site.</param>
    /// <param name="Asked">What was asked, with what was filled in.</param>
    /// <param name="Problem">Why there is no plan; null where there is one.</param>
    /// <param name="Piles">Outstanding piles planned for.</param>
    /// <param name="Plan">The plan; null where there is a problem, or none was made.</param>
    /// <param name="Geographic">Latitude and longitude of the middle of the casings of each set-up, in order.</param>
    /// <param name="AnchorCorners">Latitude and longitude of the four corners of each laying's reach, in order.</param>
    public sealed record Answer(
        long SequenceOfRecords,
        string TimeZone,
        IReadOnlyList<string> Barges,
        IReadOnlyList<string> AllZones,
        Request Asked,
        string? Problem,
        IReadOnlyList<OpenPile> Piles,
        BargePlanResult? Plan,
        IReadOnlyList<GeographicCoordinate> Geographic,
        IReadOnlyList<IReadOnlyList<GeographicCoordinate>> AnchorCorners)
    {
        /// <summary>Outstanding piles of the zones that wait for a hold point, by its number: nothing is planned for them.</summary>
        public IReadOnlyDictionary<int, int> Held { get; init; } = new Dictionary<int, int>();

        /// <summary>What the dates rest on; null where there is no plan.</summary>
        public PlanGround? Ground { get; init; }
    }

    /// <summary>Makes a plan.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="request">What is asked.</param>
    /// <param name="limit">When the solver stops; null: only what is asked and what there is to plan, without a plan.</param>
    /// <param name="steps">Told of each step as it begins; null where nobody waits.</param>
    /// <param name="cancellation">Ends the work at the next step.</param>
    /// <returns>The plan; null where the site has no settings or no barge with casings.</returns>
    [Needs(Right.See)]
    public async Task<Answer?> RunAsync(Permit permit, Request request, SolverLimit? limit, IProgress<PlanStep>? steps, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(request);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { } settings) return null;
        Barge[] able = settings.Barges.Where(one => one.Casings.Count > 0).ToArray();
        if (able.Length == 0) return null;
        Barge? barge = request.Barge is null ? able[0] : able.FirstOrDefault(one => string.Equals(one.Name, request.Barge, StringComparison.OrdinalIgnoreCase));
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        IReadOnlyList<AttemptRow> attempts = await AttemptRow.ReadAsync(store, permit.Site, cancellation);
        double? median = barge is null ? null : CycleTimes.Of(attempts.Select(one => one.Recorded).ToArray()).FirstOrDefault(one => one.Barge == barge.Name)?.SetUpToSetUpMinutes;
        Request asked = request with
        {
            Barge = barge?.Name ?? request.Barge,
            Zones = request.Zones is { Count: > 0 } zones ? zones : [],
            HeadingsDegrees = request.HeadingsDegrees is { Count: > 0 } headings ? headings : [0, 90],
            SetUpMinutes = request.SetUpMinutes ?? median ?? 80,
            Times = request.Times ?? new PlanTimes(),
        };
        string? problem = barge is null ? $"There is no barge \"{request.Barge}\" with casings on this site; there are {string.Join(", ", able.Select(one => one.Name))}." : Problem(asked, settings) ?? asked.Times!.Problem(settings);
        LeftPile[] left = problem is null ? await LeftAsync(permit.Site, asked, cancellation) : [];
        OpenPile[] piles = [.. left.Where(pile => pile.HeldBy is null).Select(pile => new OpenPile(pile.Number, new SiteCoordinate(pile.X, pile.Y), pile.Zone))];
        BargePlanResult? plan = null;
        PlanGround? ground = null;
        if (problem is null && limit is not null)
        {
            SiteCoordinate? lies = await LiesAsync(permit.Site, barge!.Name, cancellation);
            PlanGroundWork work = new(store, permit.Site, settings, history, barge, attempts);
            (PlanConditions conditions, ground) = await work.OfAsync(asked, piles, cancellation);
            BargePlanRequest whole = new(
                barge, piles, asked.HeadingsDegrees!, FitMetres, new AnchorReach(asked.AlongMetres, asked.AcrossMetres), lies, asked.AnchorHours, asked.SetUpMinutes!.Value,
                Structures(history.Drawing), asked.ClearanceMetres, asked.Pinned ?? [], asked.DirectionDegrees, conditions,
                asked.Times!.SpacingsMetres is { Count: > 0 } spacings ? new SpacingChoice(spacings, asked.Times.ChangeHours) : null);
            await OneAtATime.WaitAsync(cancellation);
            try
            {
                plan = await Task.Run(() => BargePlanner.Plan(whole, limit, steps, cancellation), cancellation);
            }
            finally
            {
                OneAtATime.Release();
            }
        }

        (GeographicCoordinate[] setUps, GeographicCoordinate[][] anchors) = Geographic(plan, history);
        return new Answer(
            history.Sequence, settings.TimeZone, able.Select(one => one.Name).ToArray(), settings.Zones.Select(zone => zone.Code).ToArray(), asked, problem, piles, plan, setUps, anchors)
        {
            Held = left.Where(pile => pile.HeldBy is not null).GroupBy(pile => pile.HeldBy!.Value).OrderBy(hold => hold.Key).ToDictionary(hold => hold.Key, hold => hold.Count()),
            Ground = ground,
        };
    }

    private static string? Problem(Request asked, SiteSettings settings)
    {
        if (asked.Zones!.FirstOrDefault(zone => settings.FindZone(zone) is null) is { } unknown) return $"There is no zone \"{unknown}\"; the site has {string.Join(", ", settings.Zones.Select(zone => zone.Code))}.";
        if (asked.HeadingsDegrees!.Append(asked.DirectionDegrees ?? 0).Any(angle => angle is not (>= -360 and <= 360))) return "Headings and the direction of the anchors are between -360 and 360 degrees.";
        if (asked.HeadingsDegrees!.Count > 8) return "More than eight headings are more than the solver can weigh in the time.";
        if (asked.AlongMetres is not (>= 2 and <= 500) || asked.AcrossMetres is not (>= 2 and <= 500)) return "The reach of the anchors is between 2 and 500 metres each way.";
        if (asked.AnchorHours is not (>= 0 and <= 100)) return "Hours for one laying of the anchors are between 0 and 100.";
        if (asked.SetUpMinutes is not (> 0 and <= 3000)) return "Minutes for one set-up are above 0 and at most 3000.";
        return asked.ClearanceMetres is >= 0 and <= 1000 ? null : "The distance from structures is between 0 and 1000 metres.";
    }

    private async Task<LeftPile[]> LeftAsync(int site, Request asked, CancellationToken cancellation)
    {
        HashSet<string> forbidden = new(asked.Forbidden ?? [], StringComparer.OrdinalIgnoreCase);
        HashSet<string> zones = new(asked.Zones!, StringComparer.OrdinalIgnoreCase);
        List<LeftPile> left = await store.ReadAsync(
            // A pile whose record waits for a person may stand already; no barge is sent back to it.
            $"""
            select number, zone, design_x, design_y, held_by from derived.pile p where site = $1 and state in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain})
                and not exists (select from derived.installation i where i.site = p.site and i.waits_for_decision and (trim(i.recorded_number) = p.number or i.nearest = p.number))
            order by number collate "C"
            """,
            row => new LeftPile(row.GetString(0), row.GetString(1), row.GetDouble(2), row.GetDouble(3), row.WholeOrNull(4)), cancellation, Site(site));
        return left.Where(pile => (zones.Count == 0 || zones.Contains(pile.Zone)) && !forbidden.Contains(pile.Number)).ToArray();
    }

    private async Task<SiteCoordinate?> LiesAsync(int site, string barge, CancellationToken cancellation)
        => (await store.ReadAsync(
            "select coalesce(deepest_x, touch_down_x), coalesce(deepest_y, touch_down_y) from derived.installation where site = $1 and barge = $2 and ended_at is not null and adopted is not null order by ended_at desc limit 1",
            row => row.IsDBNull(0) ? (SiteCoordinate?)null : new SiteCoordinate(row.GetDouble(0), row.GetDouble(1)), cancellation, Site(site), Text(barge))).FirstOrDefault();

    private static List<IReadOnlyList<SiteCoordinate>> Structures(string? drawing)
    {
        List<IReadOnlyList<SiteCoordinate>> outlines = [];
        if (drawing is null) return outlines;
        using JsonDocument parsed = JsonDocument.Parse(drawing);
        foreach (JsonElement feature in parsed.RootElement.GetProperty("features").EnumerateArray())
        {
            string name = feature.TryGetProperty("properties", out JsonElement properties) && properties.ValueKind == JsonValueKind.Object && properties.TryGetProperty("name", out JsonElement said) ? said.GetString() ?? "" : "";
            if (!StructureWords.Any(word => name.Contains(word, StringComparison.OrdinalIgnoreCase))) continue;
            if (!feature.TryGetProperty("geometry", out JsonElement geometry) || geometry.GetProperty("type").GetString() != "Polygon") continue;
            outlines.Add([.. geometry.GetProperty("coordinates")[0].EnumerateArray().Select(point => new SiteCoordinate(point[0].GetDouble(), point[1].GetDouble()))]);
        }

        return outlines;
    }

    private static (GeographicCoordinate[] SetUps, GeographicCoordinate[][] Anchors) Geographic(BargePlanResult? plan, SiteHistory history)
    {
        if (plan is null || history.Adjustments.Count == 0) return ([], []);
        Core.Derivation.SiteFrames frames = new(history.Adjustments);
        GeographicCoordinate Place(SiteCoordinate at) => frames.Current.ToGeographic(frames.Current.Adjustment.Forward(at));
        return (
            [.. plan.Anchors.SelectMany(anchor => anchor.SetUps).Select(setUp => Place(setUp.Casings))],
            [.. plan.Anchors.Select(anchor => new[]
            {
                Place(anchor.Low), Place(new(anchor.High.XMetres, anchor.Low.YMetres)), Place(anchor.High), Place(new(anchor.Low.XMetres, anchor.High.YMetres)),
            })]);
    }
}
