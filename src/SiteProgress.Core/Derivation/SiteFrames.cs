using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>The ways between the frames of a site, one for each adopted adjustment: a record keeps the one it was made with.</summary>
public sealed class SiteFrames
{
    private readonly Dictionary<int, CoordinateService> _byRevision = [];

    /// <summary>Prepares every adjustment of a site.</summary>
    /// <exception cref="InvalidDataException">A recorded CRS definition is refused; it was accepted when it was recorded.</exception>
    public SiteFrames(IReadOnlyList<AdjustmentBody> adjustments)
    {
        ArgumentNullException.ThrowIfNull(adjustments);
        foreach (AdjustmentBody adopted in adjustments)
        {
            ProjectedCrsResult crs = ProjectedCrs.FromWkt(adopted.EpsgCode, adopted.CrsWkt);
            _byRevision[adopted.Adjustment.Revision] = crs.IsMade
                ? new CoordinateService(adopted.Adjustment, crs.Crs)
                : throw new InvalidDataException($"EPSG:{adopted.EpsgCode} is refused: {crs.Refusal}");
            CurrentRevision = adopted.Adjustment.Revision;
        }
    }

    /// <summary>Revision of the adjustment in force; 0 before the first.</summary>
    public int CurrentRevision { get; }

    /// <summary>The ways between the frames by the adjustment in force.</summary>
    public CoordinateService Current => _byRevision[CurrentRevision];

    /// <summary>The ways between the frames by a named adjustment.</summary>
    public CoordinateService Of(int revision) => _byRevision[revision];

    /// <summary>Unit vectors of the site axes on the CRS grid, by the adjustment in force.</summary>
    public GridRotation Rotation
    {
        get
        {
            Adjustment adjustment = Current.Adjustment;
            double first = Math.Sqrt((adjustment.EastPerX * adjustment.EastPerX) + (adjustment.NorthPerX * adjustment.NorthPerX));
            double second = Math.Sqrt((adjustment.EastPerY * adjustment.EastPerY) + (adjustment.NorthPerY * adjustment.NorthPerY));
            return new GridRotation(
                adjustment.EastPerX / first, adjustment.NorthPerX / first,
                adjustment.EastPerY / second, adjustment.NorthPerY / second);
        }
    }

    /// <summary>A place on the site grid in the projected CRS in force, by the adjustment its record was made with.</summary>
    /// <param name="at">The place.</param>
    /// <param name="revision">The adjustment its record was made with.</param>
    /// <returns>Metres; null where that adjustment lies in a CRS of another datum, between which nothing is shifted unasked.</returns>
    public ProjectedCoordinate? InCrsInForce(SiteCoordinate at, int revision)
    {
        CoordinateService own = Of(revision);
        ProjectedCoordinate there = own.Adjustment.Forward(at);
        return revision == CurrentRevision ? there : Carry(own.Crs, Current.Crs)(there);
    }

    /// <summary>
    /// The same place on earth in another projected CRS, so that a change of the CRS is not taken for a shift of the piles; null
    /// where the two are on different datums, between which nothing is shifted unasked.
    /// </summary>
    internal static Func<ProjectedCoordinate, ProjectedCoordinate?> Carry(ProjectedCrs from, ProjectedCrs to)
    {
        if (from.WellKnownText == to.WellKnownText) return point => point;
        if (from.GeographicName != to.GeographicName && from.DatumName != to.DatumName) return _ => null;
        return point => to.Project(from.Unproject(point)) is var there && double.IsFinite(there.EastingMetres) ? there : null;
    }

    /// <summary>Puts recorded positions on the site grid, in one batch for each frame.</summary>
    /// <param name="recorded">Positions as recorded; null where there is none.</param>
    /// <param name="revision">Adjustment by which they are put on the grid.</param>
    public SiteCoordinate?[] ToSite(IReadOnlyList<RecordedPosition?> recorded, int revision)
    {
        ArgumentNullException.ThrowIfNull(recorded);
        CoordinateService service = Of(revision);
        SiteCoordinate?[] site = new SiteCoordinate?[recorded.Count];
        foreach (Frame frame in Enum.GetValues<Frame>())
        {
            int[] places = Enumerable.Range(0, recorded.Count).Where(index => recorded[index]?.Frame == frame).ToArray();
            SiteCoordinate[] converted = ToSite(frame, Array.ConvertAll(places, place => recorded[place]!.Value), service);
            for (int index = 0; index < places.Length; index++) site[places[index]] = converted[index];
        }

        return site;
    }

    private static SiteCoordinate[] ToSite(Frame frame, RecordedPosition[] positions, CoordinateService service)
    {
        SiteCoordinate[] site = new SiteCoordinate[positions.Length];
        switch (frame)
        {
            case Frame.SiteGrid:
                return Array.ConvertAll(positions, position => new SiteCoordinate(position.First, position.Second));
            case Frame.ProjectedCrs:
                service.ProjectedToSite(Array.ConvertAll(positions, position => new ProjectedCoordinate(position.First, position.Second)), site);
                return site;
            case Frame.Geographic:
                service.GeographicToSite(Array.ConvertAll(positions, position => new GeographicCoordinate(position.First, position.Second)), site);
                return site;
            default:
                throw new ArgumentOutOfRangeException(nameof(frame), frame, "There are three frames.");
        }
    }
}
