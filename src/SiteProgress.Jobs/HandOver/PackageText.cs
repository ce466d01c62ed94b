using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.HandOver;

/// <summary>The read-me file of a hand-over package.</summary>
internal static class PackageText
{
    /// <summary>Its text.</summary>
    /// <param name="site">The site as derived.</param>
    /// <param name="last">The last record of the package.</param>
    public static string Of(DerivedSite site, RecordEntry last)
    {
        SiteSettings settings = site.History.Settings!;
        string invented = settings.Invented ? "\nThis site is invented for demonstration. Nothing in this package was built.\n" : "";
        return string.Create(CultureInfo.InvariantCulture, $"""
            {settings.Name} ({settings.Code}): the as-built record
            {invented}
            Records 1 to {last.Sequence}, the last of them recorded {last.RecordedAt}.
            Head of the chain: {last.Hash}
            Rules by which it was judged: version {SiteDerivation.RulesVersion}.

            This package informs. It does not design or certify; local codes and the licensed engineer decide.

            HOW TO CHECK IT
            1. sha256sum -c sha256sums.txt        every file is as it was packed
            2. python3 check.py                   the chain of records holds, every raw file is the one the records speak of,
                                                  every signed sheet is the one that was signed
            3. Compare the head above with one you were given by another way, for example on a printed daily report (a later
               head follows from an earlier one; check.py prints the last).

            FRAMES
            Site grid: axes {settings.GridAxes.First} and {settings.GridAxes.Second}, metres.{Adjustment(site)}
            Levels: metres above {settings.LevelDatum.Name} ({settings.LevelDatum.Description}), up positive.
            Times: with their offset, time zone {settings.TimeZone}. A working day begins at {settings.WorkingDayBegins:HH:mm}.
            dE, dN: as-built minus planned, along the grid of the projected CRS.
            Sand in casing is loose volume; sand in pile is that volume times the volume-change factor of its source.

            WHAT IS IN IT
            tables/as-built.csv                  every pile: planned, built, judged, decided, signed
            tables/checks.csv                    every check with the numbers behind it; "not judged" is not "met"
            tables/installations.csv             every attempt, and the pile it was taken for
            tables/non-conformances.csv, lots.csv, hold-points.csv, daily-reports.csv
            tables/files.csv, files/             every file that came in, byte for byte
            tables/people.csv                    who stands behind the names in the records
            sheets/                              the sheet of every pile that stands: what is put before the person who signs
            as-built.dxf                         plan in site-grid metres: layers DESIGN, AS-BUILT, DEVIATION, NUMBER
            as-built.geojson                     as-built positions, degrees{Datum(site)}
            settings.json                        settings in force: zones, limits, barges, sand sources
            records/records.jsonl                every record; how its hash is taken stands in check.py

            """);
    }

    private static string Datum(DerivedSite site) => site.Frames is { } frames ? $" on {frames.Current.Crs.DatumName}" : "";

    private static string Adjustment(DerivedSite site)
    {
        if (site.Frames is not { } frames) return "";
        Adjustment one = frames.Current.Adjustment;
        return string.Create(CultureInfo.InvariantCulture, $"""

            Site grid to {frames.Current.Crs.Name}, adjustment revision {one.Revision}:
              easting  = {one.Forward(default).EastingMetres:F4} + {one.EastPerX:F12} {site.History.Settings!.GridAxes.First} + {one.EastPerY:F12} {site.History.Settings!.GridAxes.Second}
              northing = {one.Forward(default).NorthingMetres:F4} + {one.NorthPerX:F12} {site.History.Settings!.GridAxes.First} + {one.NorthPerY:F12} {site.History.Settings!.GridAxes.Second}
            """);
    }
}
