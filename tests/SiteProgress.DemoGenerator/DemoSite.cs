using SiteProgress.DemoGenerator.Logs;
using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator;

/// <summary>The whole invented site under one seed: what was planned, what was truly built, what was recorded, what is wrong.</summary>
public sealed class DemoSite
{
    public const int StandardSeed = 20260302;

    /// <summary>Three piles left out inside the first block of zone A, which is otherwise finished.</summary>
    private static readonly (int Row, int Column)[] MissedPlaces = [(7, 13), (16, 22), (23, 8)];

    public DemoSite(int seed)
    {
        Seed = seed;
        Layout = new SiteLayout();
        Missed = [.. MissedPlaces.Select(place => Layout.At("A", place.Row, place.Column)!.Number)];
        Control = Site.ControlPoints.Make(seed);
        Observed = Site.ControlPointObservations.Make(seed);
        Work = new SiteWork(seed, Layout, Missed.ToHashSet());
        new PositionNoise(seed).Apply(Work.Installations);
        new LevelAndSandNoise(seed).Apply(Work.Installations);
        Planting = new FaultPlanting(seed, Work.Installations);
        Planting.PlantAll(Missed);
        Checks = CheckMeasurements.Make(seed, Work.Installations);
        Sand = SandSupply.Make(seed, Work.Installations);
        Logs = SiteLog.Make(seed, Work.Installations);
        Seabed = Ground.SeabedSurvey.Make(seed, Work.Installations);
        Boreholes = Ground.Borehole.Make(seed, Work.Installations);
    }

    public int Seed { get; }

    public SiteLayout Layout { get; }

    public IReadOnlyList<string> Missed { get; }

    public IReadOnlyList<ControlPoint> Control { get; }

    public IReadOnlyList<ControlPointObservation> Observed { get; }

    public SiteWork Work { get; }

    public FaultPlanting Planting { get; }

    public IReadOnlyList<CheckMeasurement> Checks { get; }

    public IReadOnlyList<SandLine> Sand { get; }

    public IReadOnlyList<SiteLog> Logs { get; }

    public Ground.SeabedSurvey Seabed { get; }

    public IReadOnlyList<Ground.Borehole> Boreholes { get; }

    public IReadOnlyList<Installation> Installations => Work.Installations;
}
