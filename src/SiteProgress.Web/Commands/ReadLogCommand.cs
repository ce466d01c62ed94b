using System.Globalization;
using System.IO.Compression;
using System.Text.Json;
using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.PileLogs;

namespace SiteProgress.Web.Commands;

/// <summary>Reads a log from a CSV and writes what it tells as JSON, without a store or a site.</summary>
internal sealed class ReadLogCommand : ICommand
{
    /// <summary>A packed file may hold this many bytes.</summary>
    private const int MostBytes = 1 << 30;

    // The bodies of records leave out what is only read; an answer is made of nothing else.
    private static readonly JsonSerializerOptions Json =
        new(RecordJson.Options) { WriteIndented = true, IgnoreReadOnlyProperties = false, NumberHandling = System.Text.Json.Serialization.JsonNumberHandling.AllowNamedFloatingPointLiterals };

    private static readonly string[] Known =
        ["casing-diameter", "casing-length", "volume-factor", "design-diameter", "cut-off", "design-tip", "stop-rate", "gauge-zero", "time-zone", "constants"];

    public string Name => "read-log";

    public string Arguments => "LOG.csv --casing-diameter METRES";

    public string Summary => $"reads piles' logs and writes what they tell as JSON (a hang-up that begins and ends while the sand gauge reads nothing may stay unseen); options: {string.Join(", ", Known)}";

    public async Task<int> RunAsync(CommandCall call)
    {
        string file = call.Take(1)[0];
        LogContext context = Context(call);
        string zone = call.Configuration["time-zone"] ?? "UTC";
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone) is null) throw new CommandFailedException($"There is no IANA time zone '{zone}'.");
        ReadingChoices choices = new()
        {
            Zones = [], Barges = [], GridAxes = new GridAxes("X", "Y"), PileNumberCharacters = "A-Za-z0-9._/-", TimeZone = zone, Now = SystemClock.Instance.GetCurrentInstant(),
        };
        await using Stream bytes = Open(file);
        TableReading<ReadLog> reading = PileLogReader.Read(bytes, choices);
        foreach (ImportProblem problem in reading.Problems) await call.Error.WriteLineAsync(problem.Sentence);
        if (reading.Rows.Count == 0) return 1;
        await call.Output.WriteLineAsync(JsonSerializer.Serialize(
            reading.Rows.Select(row => new
            {
                row.Line,
                row.Value.PileNumber,
                row.Value.Barge,
                row.Value.Casing,
                row.Value.RecordId,
                FirstSample = row.Value.Log.FirstSample,
                Sha256 = LogBytes.Hash(LogBytes.Write(row.Value.Log)),
                Interpretation = LogInterpreter.Read(row.Value.Log, context),
            }),
            Json));
        return reading.ProblemCount == 0 ? 0 : 1;
    }

    private static LogContext Context(CommandCall call)
    {
        double? Of(string name)
        {
            if (call.Configuration[name] is not { } text) return null;
            return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
                ? value
                : throw new CommandFailedException($"--{name} must be a number with a decimal point, not '{text}'.", CommandLine.Misused);
        }

        double diameter = Of("casing-diameter") is { } given and > 0 and < 10
            ? given
            : throw new CommandFailedException("--casing-diameter, the inner diameter of the casing in metres, must be given.", CommandLine.Misused);
        return new LogContext(
            diameter, Of("casing-length"), Of("volume-factor"), Of("design-diameter"), Of("cut-off"), Of("design-tip"), Of("stop-rate"),
            LogConstants.Standard.With(Constants(call.Configuration["constants"])), Of("gauge-zero") ?? 0);
    }

    /// <summary>Numbers of the interpretation, as <c>name=value,name=value</c>.</summary>
    private static Dictionary<string, double>? Constants(string? text)
    {
        if (text is null) return null;
        Dictionary<string, double> set = [];
        foreach (string one in text.Split(',', StringSplitOptions.RemoveEmptyEntries))
        {
            string[] parts = one.Split('=');
            if (parts.Length != 2 || !double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out double value))
                throw new CommandFailedException($"--constants takes name=value,name=value; '{one}' is not that.", CommandLine.Misused);
            set[parts[0].Trim()] = value;
        }

        return LogConstants.Unknown(set).FirstOrDefault() is { } unknown
            ? throw new CommandFailedException($"--constants: there is no number '{unknown}'.", CommandLine.Misused)
            : set;
    }

    private static Stream Open(string file)
    {
        try
        {
            FileStream raw = File.OpenRead(file);
            bool packed = raw.ReadByte() == 0x1F && raw.ReadByte() == 0x8B;
            raw.Position = 0;
            return packed ? Inflated(raw) : raw;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            throw new CommandFailedException($"{file} cannot be read: is the name right, and is it a CSV or a gzip of one?");
        }
    }

    private static MemoryStream Inflated(FileStream raw)
    {
        using GZipStream gzip = new(raw, CompressionMode.Decompress);
        MemoryStream whole = new();
        byte[] piece = new byte[1 << 16];
        for (int read; (read = gzip.Read(piece)) > 0;)
        {
            if (whole.Length + read > MostBytes) throw new CommandFailedException($"The file holds more than {MostBytes >> 20} MB when unpacked.");
            whole.Write(piece, 0, read);
        }

        whole.Position = 0;
        return whole;
    }
}
