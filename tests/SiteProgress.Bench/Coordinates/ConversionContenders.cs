using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using ProjNet.CoordinateSystems;
using ProjNet.CoordinateSystems.Transformations;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Bench.Coordinates;

/// <summary>Ours and the peers, each turning the same points from the site grid to latitude and longitude and back, on one thread.</summary>
public sealed class ConversionContenders : IDisposable
{
    /// <summary>Ours.</summary>
    public const string Ours = "ours";

    /// <summary>PROJ's library with the algorithm it takes by itself.</summary>
    public const string Proj = "PROJ";

    /// <summary>PROJ's library told to approximate.</summary>
    public const string ProjApproximate = "PROJ approx";

    private const string ProjNetName = "ProjNET", Proj4 = "npm proj4";
    private const string Definition = "+proj=utm +zone=31 +ellps=WGS84";
    private readonly ProjPeer peer;
    private readonly string file;
    private readonly CoordinateService service;
    private readonly SiteCoordinate[] site;
    private readonly MathTransform projNet;

    /// <summary>Prepares the points and the peers.</summary>
    public ConversionContenders(ProjPeer peer, CoordinateService service, SiteCoordinate[] site)
    {
        this.peer = peer;
        this.service = service;
        this.site = site;
        file = Path.Combine(peer.Folder, Path.GetRandomFileName());
        File.WriteAllBytes(file, MemoryMarshal.AsBytes(site.AsSpan()));
        var projected = ProjectedCoordinateSystem.WGS84_UTM(31, true);
        projNet = new CoordinateTransformationFactory()
            .CreateFromCoordinateSystems(projected, projected.GeographicCoordinateSystem).MathTransform;
        var folder = Proj4Folder();
        if (!File.Exists(Path.Combine(folder, "node_modules", ".package-lock.json")))
            ProjPeer.Run("npm", ["ci", "--prefix", folder, "--ignore-scripts", "--no-fund", "--no-audit", "--loglevel=error"], _ => { });
    }

    /// <summary>All contenders' names.</summary>
    public static IReadOnlyList<string> Names { get; } = [Ours, Proj, ProjApproximate, ProjNetName, Proj4];

    /// <summary>Measures one contender once.</summary>
    public ConversionTimes Measure(string name) => name switch
    {
        Ours => MeasureOurs(),
        Proj => MeasureProcess(words => peer.Ask(["time", .. words], _ => { }), Definition),
        ProjApproximate => MeasureProcess(words => peer.Ask(["time", .. words], _ => { }), Definition + " +approx"),
        Proj4 => MeasureProcess(words => ProjPeer.Run("node", [Path.Combine(Proj4Folder(), "time.mjs"), .. words], _ => { }), Definition),
        _ => MeasureProjNet(),
    };

    /// <inheritdoc/>
    public void Dispose() => File.Delete(file);

    private ConversionTimes MeasureOurs()
    {
        var values = new double[4 * site.Length];
        var geographic = MemoryMarshal.Cast<double, GeographicCoordinate>(values.AsSpan(0, 2 * site.Length));
        var back = MemoryMarshal.Cast<double, SiteCoordinate>(values.AsSpan(2 * site.Length));
        geographic.Clear();
        back.Clear();
        var start = Stopwatch.GetTimestamp();
        service.SiteToGeographic(site, geographic);
        var middle = Stopwatch.GetTimestamp();
        service.GeographicToSite(geographic, back);
        return new(Milliseconds(start, middle), Milliseconds(middle, Stopwatch.GetTimestamp()), values);
    }

    private ConversionTimes MeasureProjNet()
    {
        var values = new double[4 * site.Length];
        var inverse = projNet.Inverse();
        double[] x = new double[site.Length], y = new double[site.Length];
        x.AsSpan().Fill(1); // touched once, as for every contender, so that the system hands over its memory before the clock runs
        y.AsSpan().Fill(1);
        values.AsSpan().Fill(1);
        var start = Stopwatch.GetTimestamp();
        for (var i = 0; i < site.Length; i++) (x[i], y[i]) = ToProjected(site[i]);
        projNet.Transform(x, y);
        for (var i = 0; i < site.Length; i++) (values[2 * i], values[2 * i + 1]) = (y[i], x[i]);
        var middle = Stopwatch.GetTimestamp();
        for (var i = 0; i < site.Length; i++) (x[i], y[i]) = (values[2 * i + 1], values[2 * i]);
        inverse.Transform(x, y);
        for (var i = 0; i < site.Length; i++)
        {
            var there = service.ToSite(new ProjectedCoordinate(x[i], y[i]));
            (values[2 * site.Length + 2 * i], values[2 * site.Length + 2 * i + 1]) = (there.XMetres, there.YMetres);
        }

        return new(Milliseconds(start, middle), Milliseconds(middle, Stopwatch.GetTimestamp()), values);
    }

    private (double East, double North) ToProjected(SiteCoordinate point)
    {
        var there = service.ToProjected(point);
        return (there.EastingMetres, there.NorthingMetres);
    }

    private ConversionTimes MeasureProcess(Func<IReadOnlyList<string>, string> run, string definition)
    {
        var a = service.Adjustment;
        var numbers = new[]
        {
            a.SiteOrigin.XMetres, a.SiteOrigin.YMetres, a.ProjectedOrigin.EastingMetres, a.ProjectedOrigin.NorthingMetres, a.EastPerX, a.NorthPerX,
        };
        var answer = run([file, .. numbers.Select(v => v.ToString("R", CultureInfo.InvariantCulture)), definition]).Split(' ');
        var values = MemoryMarshal.Cast<byte, double>(File.ReadAllBytes(file + ".out")).ToArray();
        return new(double.Parse(answer[0], CultureInfo.InvariantCulture), double.Parse(answer[1], CultureInfo.InvariantCulture), values);
    }

    private static double Milliseconds(long start, long end) => Stopwatch.GetElapsedTime(start, end).TotalMilliseconds;

    private static string Proj4Folder([CallerFilePath] string file = "") => Path.Combine(Path.GetDirectoryName(file)!, "..", "proj4");
}
