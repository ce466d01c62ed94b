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
/// <param name="Stopped">What ended the work before the end of the list; null where all of it was read.</param>
public sealed record CoordinateListResult(long Points, long ProblemCount, IReadOnlyList<ImportProblem> Problems, ImportProblem? Stopped);

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
    private readonly FrameChange change;
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

    private readonly string?[]? reasons;

    private CoordinateListConverter(CoordinateService service, FrameChange change, bool tellInPlace)
    {
        (this.service, this.change, from, to) = (service, change, change.From, change.To);
        reasons = tellInPlace ? new string?[BlockLines] : null;
    }

    private readonly record struct Line(int Start, int Rest, int End, bool IsRead);

    /// <summary>Longest line, bytes: a longer one is no list of coordinates, and would have to be held whole.</summary>
    public static int LongestLineBytes => 1 << 20;

    /// <summary>Converts all of a stream.</summary>
    /// <param name="input">UTF-8 text.</param>
    /// <param name="target">Gets UTF-8 text; neither flushed nor closed.</param>
    /// <param name="service">The ways between the frames.</param>
    /// <param name="change">The frame of the list and the frame wanted.</param>
    /// <param name="tellInPlace">True where a line that cannot be converted gets one more cell that says why.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>What came of it; a line longer than <see cref="LongestLineBytes"/> ends the work and is the last problem.</returns>
    public static async Task<CoordinateListResult> ConvertAsync(
        Stream input, Stream target, CoordinateService service, FrameChange change, bool tellInPlace = false, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(service);
        ArgumentNullException.ThrowIfNull(change);
        var work = new CoordinateListConverter(service, change, tellInPlace);
        var buffer = new byte[BufferBytes];
        var held = 0;
        while (true)
        {
            if (held == buffer.Length)
            {
                if (buffer.Length >= LongestLineBytes) return work.StopAtLongLine();
                Array.Resize(ref buffer, buffer.Length * 2); // a line longer than the buffer
            }

            var read = await input.ReadAsync(buffer.AsMemory(held), cancellation);
            held += read;
            var used = work.Consume(buffer.AsSpan(0, held), isLast: read == 0);
            await target.WriteAsync(work.output.AsMemory(0, work.written), cancellation);
            work.written = 0;
            if (read == 0) return work.Result();
            buffer.AsSpan(used, held - used).CopyTo(buffer);
            held -= used;
        }
    }

    private CoordinateListResult Result(ImportProblem? stopped = null) => new(points, problemCount, problems, stopped);

    private CoordinateListResult StopAtLongLine()
    {
        ImportProblem stopped = new(lineNumber + 1, null, null, string.Create(CultureInfo.InvariantCulture, $"a line of at most {LongestLineBytes} bytes; nothing from here on was read"), WholeFile: false);
        problemCount++;
        problems.Add(stopped);
        return Result(stopped);
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
            Problem(lineNumber, pending, Encoding.UTF8.GetString(line[..Math.Min(line.Length, 200)]), Expected);
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
        Span<double> outside = stackalloc double[pending];
        change.Convert(service, values.AsSpan(0, pending), values.AsSpan(0, pending), outside);
        for (var i = 0; i < pending; i++)
        {
            var line = lines[i];
            if (output.Length - written < 128 + line.End - line.Rest) Array.Resize(ref output, output.Length * 2 + line.End - line.Rest);
            var (first, second) = values[i];
            if (line.End > line.Start) WriteLine(first, second, line, outside[i], i);
            text[line.Rest..line.End].CopyTo(output.AsSpan(written));
            written += line.End - line.Rest;
            if (reasons is not null) TellInPlace(i);
            output[written++] = (byte)'\n';
        }

        pending = 0;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void WriteLine(double first, double second, Line line, double outside, int place)
    {
        if (!double.IsFinite(first) || outside > 0)
        {
            if (line.IsRead) Problem(lineNumber - pending + place + 1, place, double.IsFinite(first)
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

    private void TellInPlace(int place)
    {
        if (reasons![place] is not { } reason) return;
        reasons[place] = null;
        var cell = Encoding.UTF8.GetBytes($"{(char)delimiter}\"{reason.Replace("\"", "\"\"", StringComparison.Ordinal)}\"");
        if (output.Length - written < cell.Length + 1) Array.Resize(ref output, output.Length * 2 + cell.Length);
        cell.CopyTo(output, written);
        written += cell.Length;
    }

    private string Expected => from == Frame.Geographic
        ? "latitude and longitude in the first two cells"
        : "two numbers with a decimal point in the first two cells";

    /// <param name="line">Line, from 1.</param>
    /// <param name="place">Its place in the block.</param>
    /// <param name="found">What stood there.</param>
    /// <param name="expected">What was expected.</param>
    private void Problem(long line, int place, string found, string expected)
    {
        problemCount++;
        if (problems.Count >= MostProblems && reasons is null) return;
        var problem = new ImportProblem(line, null, found, expected, WholeFile: false);
        if (problems.Count < MostProblems) problems.Add(problem);
        if (reasons is not null) reasons[place] = problem.Sentence;
    }
}
