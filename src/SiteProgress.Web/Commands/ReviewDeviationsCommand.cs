using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Unicode;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Bias;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;
using SiteProgress.Exchange.Deviations;

namespace SiteProgress.Web.Commands;

/// <summary>Reviews the deviations of an outside table, without a site and without a store, and prints figures and claims as JSON.</summary>
internal sealed class ReviewDeviationsCommand : ICommand
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.Create(UnicodeRanges.All),
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase), new Dates(), new Instants() },
    };

    public string Name => "review-deviations";

    public string Arguments => "FILE.csv [LIMIT-MM [LEAST-SIZE-MM]]";

    public string Summary => "reviews a table of deviations (pile, barge, casing, set-up, end, heading grid, dE, dN or both positions) and prints figures and claims as JSON; no store is needed";

    public async Task<int> RunAsync(CommandCall call)
    {
        if (call.Words.Count is < 1 or > 3) call.Take(1);
        double? limit = call.Words.Count > 1 ? Metres(call.Words[1], "limit") : null;
        double least = call.Words.Count > 2 ? Metres(call.Words[2], "least size") : BiasSite.UsualLeastSizeMetres;
        TableReading<BiasPile> reading;
        try
        {
            await using FileStream file = File.OpenRead(call.Words[0]);
            reading = DeviationRowReader.Read(file, Choices(), limit);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailedException($"{call.Words[0]} cannot be opened: is the name right, and may this account use it?");
        }

        foreach (ImportProblem problem in reading.Problems) await call.Error.WriteLineAsync(problem.Sentence);
        if (reading.ProblemCount > reading.Problems.Count) await call.Error.WriteLineAsync($"and {reading.ProblemCount - reading.Problems.Count} more.");
        if (reading.IsRefused) return 1;
        BiasPile[] piles = reading.Rows.Select(row => row.Value).ToArray();
        BiasFindings findings = BiasReview.Run(piles, [], new BiasSite([], 0, least));
        var answer = new { rowsRead = reading.RowsRead, rowsLeftOut = reading.LinesLeftOut.Count, reading.Assumptions, figures = Figures(piles), findings };
        await call.Output.WriteLineAsync(JsonSerializer.Serialize(answer, Options));
        return reading.ProblemCount == 0 ? 0 : 1;
    }

    private static DeviationFigures? Figures(BiasPile[] piles)
    {
        Dictionary<(string, string), int> setUps = [];
        int[] numbers = Array.ConvertAll(piles, pile =>
        {
            (string, string) key = (pile.Barge, pile.SetUp ?? "\u0000" + pile.Number);
            return setUps.TryGetValue(key, out int number) ? number : setUps[key] = setUps.Count;
        });
        // An outside table has one grid; what would be along and across it is east and north.
        return DeviationFigures.Of(
            Array.ConvertAll(piles, pile => new JudgedDeviation(
                new PositionDeviation(pile.JudgedEastMetres, pile.JudgedNorthMetres, pile.JudgedEastMetres, pile.JudgedNorthMetres), pile.Limit)),
            numbers);
    }

    private static ReadingChoices Choices() => new()
    {
        Zones = [],
        Barges = [],
        GridAxes = new GridAxes("X", "Y"),
        PileNumberCharacters = "A-Z0-9-",
        TimeZone = "Etc/UTC",
        Now = Instant.MaxValue - Duration.FromDays(400),
    };

    private static double Metres(string millimetres, string what)
        => double.TryParse(millimetres, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && number > 0
            ? number / 1000
            : throw new CommandFailedException($"'{millimetres}' is no {what} in millimetres.");

    private sealed class Dates : JsonConverter<LocalDate>
    {
        public override LocalDate Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => LocalDatePattern.Iso.Parse(reader.GetString()!).GetValueOrThrow();

        public override void Write(Utf8JsonWriter writer, LocalDate value, JsonSerializerOptions options) => writer.WriteStringValue(LocalDatePattern.Iso.Format(value));
    }

    private sealed class Instants : JsonConverter<Instant>
    {
        public override Instant Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => InstantPattern.ExtendedIso.Parse(reader.GetString()!).GetValueOrThrow();

        public override void Write(Utf8JsonWriter writer, Instant value, JsonSerializerOptions options) => writer.WriteStringValue(InstantPattern.ExtendedIso.Format(value));
    }
}
