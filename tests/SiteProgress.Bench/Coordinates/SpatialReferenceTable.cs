using System.Globalization;
using System.Text;

namespace SiteProgress.Bench.Coordinates;

/// <summary>One row of the table of reference systems that PostGIS brings.</summary>
public sealed record SpatialReferenceRow(int Srid, string Authority, int Code, string WellKnownText);

/// <summary>Reads spatial_ref_sys from the SQL file that the PostGIS package installs, so that no server is needed to look at it.</summary>
public static class SpatialReferenceTable
{
    private static readonly string[] Places = ["/usr/share/postgresql"];

    /// <summary>The rows that define a projected system, in the order of the file.</summary>
    public static IEnumerable<SpatialReferenceRow> ProjectedRows()
    {
        foreach (var line in File.ReadLines(InstalledFile()))
        {
            if (!line.StartsWith('(') || Fields(line) is not [var srid, var authority, var code, var text, ..]) continue;
            if (text.StartsWith("PROJCS", StringComparison.Ordinal))
                yield return new(Number(srid), authority, Number(code), text);
        }
    }

    private static string InstalledFile() => Places.Where(Directory.Exists)
        .SelectMany(place => Directory.EnumerateFiles(place, "spatial_ref_sys.sql", SearchOption.AllDirectories))
        .OrderDescending(StringComparer.Ordinal).FirstOrDefault()
        ?? throw new FileNotFoundException("No spatial_ref_sys.sql below /usr/share/postgresql; it comes with Debian's package postgresql-15-postgis-3-scripts.");

    /// <summary>The comma-separated SQL values of a line that begins with a bracket; texts without their quotation marks.</summary>
    private static List<string> Fields(string line)
    {
        var fields = new List<string>();
        var at = 1;
        while (at < line.Length)
        {
            while (at < line.Length && line[at] is ' ' or ',') at++;
            if (at >= line.Length || line[at] == ')') break;
            if (line[at] == '\'') fields.Add(Quoted(line, ref at));
            else
            {
                var start = at;
                while (at < line.Length && line[at] is not (',' or ')')) at++;
                fields.Add(line[start..at].Trim());
            }
        }

        return fields;
    }

    private static string Quoted(string line, ref int at)
    {
        var value = new StringBuilder();
        for (at++; at < line.Length; at++)
        {
            if (line[at] == '\'')
            {
                if (at + 1 >= line.Length || line[at + 1] != '\'') break;
                at++;
            }

            value.Append(line[at]);
        }

        at++;
        return value.ToString();
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
