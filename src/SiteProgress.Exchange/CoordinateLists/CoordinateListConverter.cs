using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.CoordinateLists;

/// <summary>What came of a list of coordinates.</summary>
/// <param name="Points">Lines converted.</param>
/// <param name="ProblemCount">Lines that could not be.</param>
/// <param name="Problems">The first of them, each with its line, what stood there and what was expected.</param>
public sealed record CoordinateListResult(long Points, long ProblemCount, IReadOnlyList<ImportProblem> Problems);

/// <summary>
/// Converts a list of coordinates from any frame of a site to any other while it streams: two numbers a line, the rest of the line kept.
/// </summary>
/// <remarks>
/// Delimiter comma, semicolon or tab, as in the first line; a first line without a digit in its first two cells is a header. Site grid: first and second axis;
/// projected CRS: easting and northing; both metres. Geographic: latitude and longitude, decimal degrees or degrees, minutes and seconds.
/// Metres are written with 4 decimals, degrees with 10. A line that cannot be converted keeps its place with two empty cells.
/// Methods that run for every line are compiled to their best at once: a command is over before the run time would find them worth it.
/// </remarks>
public sealed class CoordinateListConverter
{
    private const int MostProblems = 20;
    private const int BlockLines = 512;
    private const int BufferBytes = 1 << 18;

    private readonly CoordinateService service;
    private readonly Frame from;
    private readonly Frame to;
    private readonly List<ImportProblem> problems = [];
    private readonly Line[] lines = new Line[BlockLines];
    private readonly (double First, double Second)[] values = new (double, double)[BlockLines];
    private byte[] output = new byte[BufferBytes];
    private int written;
    private int pending;
    private long lineNumber;
    private long points;
    private long problemCount;
    private byte delimiter;

    private CoordinateListConverter(CoordinateService service, Frame from, Frame to) => (this.service, this.from, this.to) = (service, from, to);

    private readonly record struct Line(int Start, int Rest, int End, bool IsRead);

    /// <summary>Converts all of a stream.</summary>
    /// <param name="input">UTF-8 text.</param>
    /// <param name="target">Gets UTF-8 text; neither flushed nor closed.</param>
    /// <param name="service">The ways between the frames.</param>
    /// <param name="from">The frame of the list.</param>
    /// <param name="to">The frame wanted.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static async Task<CoordinateListResult> ConvertAsync(
        Stream input, Stream target, CoordinateService service, Frame from, Frame to, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(service);
        var work = new CoordinateListConverter(service, from, to);
        var buffer = new byte[BufferBytes];
        var held = 0;
        while (true)
        {
            if (held == buffer.Length) Array.Resize(ref buffer, buffer.Length * 2); // a line longer than the buffer
            var read = await input.ReadAsync(buffer.AsMemory(held), cancellation);
            held += read;
            var used = work.Consume(buffer.AsSpan(0, held), isLast: read == 0);
            await target.WriteAsync(work.output.AsMemory(0, work.written), cancellation);
            work.written = 0;
            if (read == 0) return new(work.points, work.problemCount, work.problems);
            buffer.AsSpan(used, held - used).CopyTo(buffer);
            held -= used;
        }
    }

    /// <summary>Converts the whole lines of a buffer and returns how many bytes they were.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private int Consume(ReadOnlySpan<byte> text, bool isLast)
    {
        var at = lineNumber == 0 && text.StartsWith(Encoding.UTF8.Preamble) ? Encoding.UTF8.Preamble.Length : 0;
        while (at < text.Length)
        {
            var length = text[at..].IndexOf((byte)'\n');
            if (length < 0 && !isLast) break;
            var end = length < 0 ? text.Length : at + length;
            Take(text, at, end > at && text[end - 1] == '\r' ? end - 1 : end);
            at = Math.Min(end + 1, text.Length);
            if (pending == BlockLines) Flush(text);
        }

        Flush(text);
        return at;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Take(ReadOnlySpan<byte> text, int start, int end)
    {
        lineNumber++;
        var line = text[start..end];
        if (lineNumber == 1)
        {
            delimiter = line.Contains((byte)'\t') ? (byte)'\t' : line.Contains((byte)';') ? (byte)';' : (byte)',';
            if (line.Length > 0 && !TrySplit(line, out _, out _, out var headerRest) && !line[..headerRest].ContainsAnyInRange((byte)'0', (byte)'9'))
            {
                Flush(text);
                WriteHeader(line[headerRest..]);
                return;
            }
        }

        var isRead = TrySplit(line, out var first, out var second, out var rest);
        if (!isRead && line.Length > 0)
            Problem(lineNumber, Encoding.UTF8.GetString(line[..Math.Min(line.Length, 200)]), Expected);
        values[pending] = isRead ? (first, second) : (double.NaN, double.NaN);
        lines[pending++] = new(start, start + rest, end, isRead);
    }

    /// <summary>The two numbers of a line and where its rest begins (with its delimiter).</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private bool TrySplit(ReadOnlySpan<byte> line, out double first, out double second, out int rest)
    {
        second = first = 0;
        rest = line.Length;
        var middle = line.IndexOf(delimiter);
        if (middle < 0) return false;
        var tail = line[(middle + 1)..].IndexOf(delimiter);
        rest = tail < 0 ? line.Length : middle + 1 + tail;
        return TryNumber(line[..middle], isFirst: true, out first) && TryNumber(line[(middle + 1)..rest], isFirst: false, out second);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private bool TryNumber(ReadOnlySpan<byte> cell, bool isFirst, out double value)
    {
        if (DecimalBytes.TryRead(cell, out value)) return from != Frame.Geographic || Math.Abs(value) <= (isFirst ? 90 : 360);
        if (from != Frame.Geographic || cell.Length > 40) return false;
        var text = Encoding.UTF8.GetString(cell);
        var angle = isFirst ? DegreesMinutesSeconds.ParseLatitude(text) : DegreesMinutesSeconds.ParseLongitude(text);
        value = angle.Degrees ?? 0;
        return angle.Degrees is not null;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Flush(ReadOnlySpan<byte> text)
    {
        if (pending == 0) return;
        Span<ProjectedCoordinate> projected = stackalloc ProjectedCoordinate[pending];
        Span<GeographicCoordinate> geographic = stackalloc GeographicCoordinate[pending];
        Span<SiteCoordinate> site = stackalloc SiteCoordinate[pending];
        ToProjected(projected, geographic, site);
        if (to == Frame.Geographic) service.ProjectedToGeographic(projected, geographic);
        if (to == Frame.SiteGrid) service.ProjectedToSite(projected, site);
        var checksArea = service.Crs.AreaOfUse is not null && (from == Frame.Geographic || to == Frame.Geographic);
        for (var i = 0; i < pending; i++)
        {
            var line = lines[i];
            if (output.Length - written < 128 + line.End - line.Rest) Array.Resize(ref output, output.Length * 2 + line.End - line.Rest);
            var (first, second) = to switch
            {
                Frame.SiteGrid => (site[i].XMetres, site[i].YMetres),
                Frame.ProjectedCrs => (projected[i].EastingMetres, projected[i].NorthingMetres),
                _ => (geographic[i].LatitudeDegrees, geographic[i].LongitudeDegrees),
            };
            if (line.End > line.Start) WriteLine(first, second, line, checksArea ? geographic[i] : null, lineNumber - pending + i + 1);
            text[line.Rest..line.End].CopyTo(output.AsSpan(written));
            written += line.End - line.Rest;
            output[written++] = (byte)'\n';
        }

        pending = 0;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void ToProjected(Span<ProjectedCoordinate> projected, Span<GeographicCoordinate> geographic, Span<SiteCoordinate> site)
    {
        for (var i = 0; i < pending; i++)
        {
            projected[i] = new(values[i].First, values[i].Second);
            geographic[i] = new(values[i].First, values[i].Second);
            site[i] = new(values[i].First, values[i].Second);
        }

        if (from == Frame.Geographic) service.GeographicToProjected(geographic, projected);
        if (from == Frame.SiteGrid) service.SiteToProjected(site, projected);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void WriteLine(double first, double second, Line line, GeographicCoordinate? place, long number)
    {
        var outside = place is { } position && double.IsFinite(first) ? service.Crs.AreaOfUse!.DistanceOutsideMetres(position) : 0;
        if (!double.IsFinite(first) || outside > 0)
        {
            if (line.IsRead) Problem(number, double.IsFinite(first)
                ? string.Create(CultureInfo.InvariantCulture, $"a point {outside / 1000:0.0} km outside the area of use")
                : "a point that cannot be projected", $"a point inside the area in which {service.Crs.Name} may be used");
            output[written++] = delimiter;
            return;
        }

        var decimals = to == Frame.Geographic ? 10 : 4;
        written += DecimalBytes.Write(first, decimals, output.AsSpan(written));
        output[written++] = delimiter;
        written += DecimalBytes.Write(second, decimals, output.AsSpan(written));
        points++;
    }

    private void WriteHeader(ReadOnlySpan<byte> rest)
    {
        var (first, second) = to switch
        {
            Frame.SiteGrid => ("X [m]", "Y [m]"),
            Frame.ProjectedCrs => ("Easting [m]", "Northing [m]"),
            _ => ("Latitude [deg]", "Longitude [deg]"),
        };
        var title = Encoding.UTF8.GetBytes($"{first}{(char)delimiter}{second}");
        if (output.Length - written < title.Length + rest.Length + 1) Array.Resize(ref output, output.Length * 2 + rest.Length);
        title.CopyTo(output, written);
        rest.CopyTo(output.AsSpan(written + title.Length));
        written += title.Length + rest.Length;
        output[written++] = (byte)'\n';
    }

    private string Expected => from == Frame.Geographic
        ? "latitude and longitude in the first two cells"
        : "two numbers with a decimal point in the first two cells";

    private void Problem(long line, string found, string expected)
    {
        problemCount++;
        if (problems.Count < MostProblems) problems.Add(new(line, null, found, expected, WholeFile: false));
    }
}
