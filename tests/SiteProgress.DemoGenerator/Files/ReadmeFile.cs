using SiteProgress.DemoGenerator.Logs;
using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>The README of seed-data; written by the generator so that its counts cannot drift from the files.</summary>
public static class ReadmeFile
{
    public static byte[] Write(DemoSite site, IReadOnlyList<AsBuiltFile> files) => TextFile.Bytes(
    [
        "# The demo site: Sandlark Harbour, west breakwater",
        "",
        "Everything here is invented: the harbour, the breakwater, the barges Tern, Plover and Curlew, the sand, the tide and the",
        "weather. No real place, vessel, company or person is meant. The position in the North Sea was chosen for its numbers.",
        "",
        "The files are made by `tests/SiteProgress.DemoGenerator` and not edited by hand (a test compares them byte by byte):",
        "",
        "```",
        FormattableString.Invariant($"dotnet run --project tests/SiteProgress.DemoGenerator -- seed-data --seed {site.Seed}"),
        "```",
        "",
        "## What each file is",
        "",
        "| file | what it shows |",
        "| --- | --- |",
        "| `site.json` | settings of the site, as an operator writes them |",
        "| `control-points.csv` | six marks known on the site grid and in EPSG:25832; CP-5 was observed poorly and fits about 25 mm less well |",
        "| `control-point-observations.csv` | the six marks observed again three times; CP-2 stands on fill and went 28 mm to the south-east by the end of May, the others stand |",
        "| `site-drawing.geojson` | outlines to draw below the piles; coordinates are site-grid metres, not longitude and latitude |",
        "| `planned-piles-zone-a.csv`, `-b.csv`, `-c.csv` | the designer's schedules, three looks: comma and site grid; semicolon, decimal comma, EPSG:25832, byte order mark and title lines; tab and small letters |",
        "| `as-built/DATE-BARGE` | what the crews sent, one file a barge for each fortnight that ends on DATE |",
        "| `check-measurements.csv` | casings measured from the caisson while the barge recorded them |",
        "| `sand-deliveries.csv` | sand accounts of the barges: loads delivered, stocks measured on Mondays, sand lost; loose volumes; one load of Plover was never written down: `truth/truth-sand-deliveries.csv` |",
        "| `diary.csv` | hours by working day, barge, activity, cause and who bears them; each day adds up to its own length, 24 h, but 23 h on 2026-03-28 when the clocks change |",
        "| `tide.csv` | water level every ten minutes |",
        "| `seabed-before.csv`, `seabed-after.csv` | two seabed surveys, three metres from sounding to sounding, in two frames: before the piles, and after twelve weeks, when the sand had pushed the seabed up |",
        "| `ground-investigation.ags` | penetration tests of six boreholes before the piles and four between piles that stood (PB-1 to PB-4); at one level of PB-2 the ground stayed weaker than the contract asks |",
        "| `logs/DATE-BARGE.csv.gz`, `logs/single-piles-BARGE.csv.gz` | what the loggers wrote while the piles of two working days, and piles with a planted fault, were built: a packed table, a sample a row; see below |",
        "| `planned-progress.csv` | piles that were to stand by the end of each week, by zone, as planned before the work began |",
        "| `work-plan.json` | the plan of work: dates of the zones, barges that come and go, rest days |",
        "| `truth/truth.csv`, `truth/truth-faults.json` | what was true beside what was recorded, and the planted faults; tests read them, the product never does |",
        "| `truth/truth-ground.json` | what was true of the ground: sand in the piles, and how much of it came up as heave |",
        "| `truth/truth-logs.csv` | what was true of each pile with a log, and the fault planted into its log |",
        "",
        "Looks of the as-built files: Tern writes commas, site-grid X and Y, site time without offset, now and then a blank behind a",
        "pile number. Plover writes semicolons and decimal commas, EPSG:25832, day before month, a byte order mark and two title lines.",
        "Curlew writes tabs, small letters, site grid, times with offset, headings against the site grid, no inclination.",
        "",
        "## Frames",
        "",
        FormattableString.Invariant($"The site's Y axis bears {SiteGrid.BearingOfYDegrees:0} degrees east of grid north of EPSG:25832 (ETRS89 / UTM zone 32N). Site metres are ground metres, so"),
        FormattableString.Invariant($"one site metre is {SiteGrid.Scale:0.00000000} grid metres: the projection's point scale factor at 55.6 N 7.3 E. Site 0,0 is E {SiteGrid.OriginEasting:0.000} N {SiteGrid.OriginNorthing:0.000}."),
        "E = E0 + m (X cos b + Y sin b), N = N0 + m (Y cos b - X sin b), b the bearing of Y, m the scale.",
        "",
        "## The work",
        "",
        "75 working days from 2026-03-02 to 2026-05-29, 06:00 to 06:00 site time (Europe/Copenhagen), day shift from 06:00, night shift from",
        "18:00. Sundays, 2026-04-03 and 2026-04-06 are rest days. Tern arrives on 2026-03-02, Plover on 2026-03-09, Curlew on 2026-03-23. The",
        "barges stop above a significant wave height of 1.5 m. Within an anchor field they work row by row; one field after the other on the",
        "opposite heading; Tern works the second half of zone A along its columns.",
        "",
        "## Which point each barge steers by",
        "",
        "Tern and Plover steer by the true place of their casings, so a wrong offset in Plover's record shows as a deviation. Curlew steers",
        "by what its system records: its wrong common offset leaves no deviation, only `check-measurements.csv` shows it.",
        "",
        "## Noise",
        "",
        "Standard deviations by axis of the site grid, except where said. The casings of one set-up share the barge's error of",
        FormattableString.Invariant($"{PositionNoise.Shared:0.000} m (in {PositionNoise.RoughShare * 100:0} % of set-ups {PositionNoise.RoughFactor:0.0} times that) and the satellite's of {PositionNoise.Satellite:0.000} m; each casing adds {PositionNoise.Own:0.000} m of its own,"),
        FormattableString.Invariant($"and the barge's error of heading, {PositionNoise.HeadingDegrees:0.00} degrees, moves the outer casings fore and aft. From touch-down to the end of penetration"),
        FormattableString.Invariant($"a casing drifts {PositionNoise.Drift:0.000} m. Records with RTK float add {PositionNoise.SatelliteFloat:0.00} m a casing. Check measurements are good to {CheckMeasurements.MeasuringDeviation:0.000} m."),
        "Recorded levels scatter about the truth by 0.02 m, recorded sand by 0.6 %.",
        "",
        "## Planted faults (sizes, days and records in `truth/truth-faults.json`)",
        "",
        "| code | what |",
        "| --- | --- |",
        .. site.Planting.Faults.GroupBy(fault => fault.Code).Select(group =>
            FormattableString.Invariant($"| {group.Key} | {group.First().What} {Where(group)} |")),
        "",
        .. Logs(site.Logs),
        "",
        "## Counts to expect",
        "",
        "Repeated rows are left out of the counts; trial piles (T-01 to T-06) stand outside the design and are counted in the zone they stand beside.",
        "A refused pile stands from where the ground stopped it; an interrupted one stands once a later attempt reached the top; an",
        "abandoned one stands not at all until it is built again.",
        "",
        .. ExpectedFigures.Table(site, files),
        "",
        "The last two working days, from the recorded levels and sand:",
        "",
        .. ExpectedFigures.LastDays(site),
        "",
        .. Intake(site, files),
        "",
        "An interrupted pile stands on two installations: the second attempt goes down about a metre into what the first",
        "built, so its own tip is far above the design tip level while the pile's tip is that of the first.",
    ]);

    private static IEnumerable<string> Logs(IReadOnlyList<SiteLog> logs)
    {
        yield return "## Logs";
        yield return "";
        var first = LogFiles.FirstWholeDay(logs);
        var whole = logs.Count(log => log.Of.WorkingDay >= first);
        yield return FormattableString.Invariant($"{whole} installations have a log: all that built a pile on {SiteTime.Iso(first)} and {SiteTime.Iso(logs.Max(log => log.Of.WorkingDay))}; and {logs.Count - whole} of other days with a fault");
        yield return "planted into their record, for which the log tells what was true. A log tells the pile of the as-built record: the same casing, begin and";
        yield return "end within a minute, tip and top, and sand within 2 % (true sand within 1 %). Tern logs heights of the sand above the tip every two seconds";
        yield return "(tip within 0.010 m, sand 0.04 m, charges 0.5 %). Plover logs the level of the sand; its gauge follows 6 s late and reads nothing within 0.8 m of";
        yield return "the tip. Curlew logs the tip below water every two and a half seconds, in steps, without inclination, and now and then no sand. On Tern's last";
        yield return "day a fault of each kind is planted into a log of which the record says nothing:";
        yield return "";
        yield return "| code | what | pile |";
        yield return "| --- | --- | --- |";
        foreach (var log in logs.Where(log => log.Fault is not null)) yield return $"| {log.Fault!.Code} | {log.Fault.What} | {log.Of.RecordedPile} |";
    }

    /// <summary>What should come of the rows when the as-built files come in, from oldest to newest, and nobody has decided anything.</summary>
    private static IEnumerable<string> Intake(DemoSite site, IReadOnlyList<AsBuiltFile> files)
    {
        var rows = files.Sum(file => file.Rows.Count);
        var trials = site.Installations.Count(each => each.Planned is null);
        var wrongFrame = site.Installations.Count(each => each.WrittenInWrongFrame);
        var swapped = site.Installations.Count(each => each.RecordedPile != each.Truth.Pile);
        var repeated = site.Planting.Repeats.Count;
        yield return "When all as-built files have come in and nobody has decided anything:";
        yield return "";
        yield return "| rows | what should come of them |";
        yield return "| --- | --- |";
        yield return FormattableString.Invariant($"| {rows} | read, none refused |");
        yield return FormattableString.Invariant($"| {rows - trials - wrongFrame - swapped - repeated} | number and position agree |");
        yield return FormattableString.Invariant($"| {swapped} | numbers swapped: each record lies at the pile the other one names |");
        yield return FormattableString.Invariant($"| {wrongFrame} | position written in another frame: the morning in the projected CRS, which lies at the piles named once read so |");
        yield return FormattableString.Invariant($"| {repeated} | repeat an earlier record |");
        yield return FormattableString.Invariant($"| {trials} | trial piles, whose numbers are in no schedule |");
    }

    private static string Where(IGrouping<string, PlantedFault> group)
    {
        var fault = group.First();
        if (group.Count() > 1) return $"{group.Count()} piles.";
        var days = fault.FirstDay is null ? "" : fault.FirstDay == fault.LastDay ? $", {fault.FirstDay}" : $", {fault.FirstDay} to {fault.LastDay}";
        var casing = fault.Casing is { } number ? FormattableString.Invariant($", casing {number}") : "";
        var piles = fault.Piles.Count is > 0 and <= 3 ? ": " + string.Join(", ", fault.Piles) : "";
        return (fault.Barge ?? "Zone A") + casing + days + piles + (fault.Records.Count > 3 ? FormattableString.Invariant($", {fault.Records.Count} records") : "") + ".";
    }
}
