using System.Globalization;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;
using SiteProgress.Jobs.Planning;

namespace SiteProgress.Web.Planning;

/// <summary>A plan for a barge as a GeoJSON feature collection (RFC 7946), for the map and for other programs.</summary>
public static class PlanFeatures
{
    /// <summary>A feature.</summary>
    /// <param name="Geometry">Its geometry.</param>
    /// <param name="Properties">What it is.</param>
    public sealed record Feature(Geometry Geometry, Properties Properties)
    {
        /// <summary>Kind of object, as the format has it.</summary>
        public string Type => "Feature";
    }

    /// <summary>A geometry.</summary>
    /// <param name="Type">Point, LineString or Polygon.</param>
    /// <param name="Coordinates">Longitude and latitude, degrees, nested as the kind of geometry asks.</param>
    public sealed record Geometry(string Type, object Coordinates);

    /// <summary>What a feature is.</summary>
    /// <param name="Kind">plan-anchors (a reach), plan-way (through the set-ups) or plan-set-up (middle of the casings); the map draws by it.</param>
    /// <param name="Name">What is written beside it; null for the way.</param>
    /// <param name="Anchors">Number of the laying of the anchors; null for the way.</param>
    /// <param name="SetUp">Number of the set-up; null for the others.</param>
    /// <param name="Heading">Its heading, degrees clockwise from the site grid's second axis; null for the others.</param>
    /// <param name="Piles">Piles it builds; null for the others.</param>
    /// <param name="Begins">When the laying or the set-up is planned to begin; null where it is not dated.</param>
    /// <param name="Ends">When it is planned to be done; null where it is not dated.</param>
    /// <param name="WaitHours">Hours it waits before; null where it is not dated.</param>
    /// <param name="UnderKeel">Least water under the keel, metres; null where it is not known or not asked.</param>
    /// <param name="NotDated">Why the set-up has no time; null where it has one.</param>
    /// <param name="Spacing">Distance between the casings, metres; null where only one was allowed.</param>
    public sealed record Properties(
        string Kind, string? Name, int? Anchors, int? SetUp, double? Heading, IReadOnlyList<string>? Piles, Instant? Begins = null, Instant? Ends = null, double? WaitHours = null,
        double? UnderKeel = null, string? NotDated = null, double? Spacing = null);

    /// <summary>A feature collection.</summary>
    /// <param name="Features">Reaches in order, the way, then the set-ups in order.</param>
    public sealed record Drawn(IReadOnlyList<Feature> Features)
    {
        /// <summary>Kind of object, as the format has it.</summary>
        public string Type => "FeatureCollection";
    }

    /// <summary>The features of a plan; none where there is no plan, or the site grid has no place on the earth yet.</summary>
    public static Drawn Of(PlanBarge.Answer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (answer.Plan is not { } plan || answer.Geographic.Count == 0) return new([]);
        List<Feature> features = [];
        foreach ((PlannedAnchor anchor, IReadOnlyList<GeographicCoordinate> corners) in plan.Anchors.Zip(answer.AnchorCorners))
        {
            double[][] ring = [.. corners.Append(corners[0]).Select(Position)];
            features.Add(new(new("Polygon", new[] { ring }), new("plan-anchors", $"anchors {Text(anchor.Number)}", anchor.Number, null, null, null, anchor.Laid?.Begins, anchor.Laid?.Ends, anchor.Laid?.WaitHours, Spacing: anchor.SpacingMetres)));
        }

        // A line needs two positions.
        if (answer.Geographic.Count > 1) features.Add(new(new("LineString", answer.Geographic.Select(Position).ToArray()), new("plan-way", null, null, null, null, null)));
        foreach (((PlannedAnchor anchor, PlannedSetUp setUp), GeographicCoordinate at) in plan.Anchors.SelectMany(anchor => anchor.SetUps.Select(setUp => (anchor, setUp))).Zip(answer.Geographic))
        {
            features.Add(new(new("Point", Position(at)), new("plan-set-up", Text(setUp.Number), anchor.Number, setUp.Number, setUp.HeadingDegrees, [.. setUp.Builds.Select(build => build.Pile)],
                setUp.Time?.Begins, setUp.Time?.Ends, setUp.Time?.WaitHours, setUp.Keel?.LeastRoomMetres, setUp.NotDated, anchor.SpacingMetres)));
        }

        return new(features);
    }

    private static double[] Position(GeographicCoordinate at) => [Math.Round(at.LongitudeDegrees, 8), Math.Round(at.LatitudeDegrees, 8)];

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
