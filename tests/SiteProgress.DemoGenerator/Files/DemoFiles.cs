namespace SiteProgress.DemoGenerator.Files;

/// <summary>Every file of seed-data under one seed, as name and bytes.</summary>
public static class DemoFiles
{
    public static IReadOnlyDictionary<string, byte[]> Make(DemoSite site)
    {
        var asBuilt = AsBuiltFile.Cut(site);
        var files = new SortedDictionary<string, byte[]>(StringComparer.Ordinal)
        {
            ["site.json"] = SiteFiles.Settings(),
            ["control-points.csv"] = SiteFiles.ControlPoints(site.Control),
            ["control-point-observations.csv"] = SiteFiles.Observations(site.Observed),
            ["site-drawing.geojson"] = SiteFiles.Drawing(),
            ["planned-piles-zone-a.csv"] = PlannedPilesFiles.ZoneA(site.Layout),
            ["planned-piles-zone-b.csv"] = PlannedPilesFiles.ZoneB(site.Layout),
            ["planned-piles-zone-c.csv"] = PlannedPilesFiles.ZoneC(site.Layout),
            ["check-measurements.csv"] = RecordFiles.Checks(site.Checks),
            ["sand-deliveries.csv"] = RecordFiles.SandDeliveries(site.Sand),
            ["truth/truth-sand-deliveries.csv"] = RecordFiles.SandTruth(site.Sand),
            ["diary.csv"] = RecordFiles.Diary(site.Work.Diary),
            ["tide.csv"] = RecordFiles.Tide(),
            ["seabed-before.csv"] = GroundFiles.Before(site.Seabed),
            ["seabed-after.csv"] = GroundFiles.After(site.Seabed),
            ["ground-investigation.ags"] = GroundFiles.Investigation(site.Boreholes),
            ["truth/truth-ground.json"] = GroundFiles.Truth(site.Seabed),
            ["planned-progress.csv"] = WorkPlanFiles.PlannedProgress(),
            ["work-plan.json"] = WorkPlanFiles.Plan(),
            ["truth/truth.csv"] = RecordFiles.Truth(site, asBuilt),
            ["truth/truth-faults.json"] = RecordFiles.Faults(site),
            ["truth/truth-logs.csv"] = LogFiles.Truth(site.Logs),
            ["README.md"] = ReadmeFile.Write(site, asBuilt),
        };
        foreach (var file in asBuilt) files[file.Name] = AsBuiltFiles.Write(file);
        foreach (var (name, bytes) in LogFiles.Write(site.Logs)) files[name] = bytes;
        return files;
    }
}
