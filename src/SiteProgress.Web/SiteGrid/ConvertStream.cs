using System.Buffers;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Exchange;
using SiteProgress.Exchange.CoordinateLists;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Web.Shell;
using Frame = SiteProgress.Core.Piles.Frame;

namespace SiteProgress.Web.SiteGrid;

/// <summary>
/// Lists of coordinates through the interface for programs, as they stream: neither the request nor the answer is ever whole in
/// memory. A sender must read the answer while it sends, as the answer begins before the request ends.
/// </summary>
internal sealed class ConvertStream : IEndpoints
{
    /// <summary>Longest request, bytes.</summary>
    public const long LongestRequestBytes = 4L << 30;

    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api) => api.MapPost("/sites/{site}/convert/stream", RunAsync)
        .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(LongestRequestBytes))
        .WithName("ConvertStream")
        .WithSummary("Converts a list of any length from one frame of the site to another while it streams: text/csv with two numbers in the first cells of a line, or application/json with an array of pairs.")
        .WithDescription(
            "from and to: siteGrid, projectedCrs, geographic, or otherDatum with shift, the EPSG code of a published shift. Metres, and degrees with latitude first; "
            + "CSV also takes degrees, minutes and seconds, and keeps the rest of each line. The answer has the form of the request. A CSV line that cannot be converted keeps its place with two empty cells and gets one more that says why; "
            + "a JSON point becomes an object with a refusal, and a body that breaks off ends with an object that says where. "
            + "At most 4 GiB a request and 1 MiB a line. Read the answer while you send: it begins before the request ends.")
        .Accepts<double[][]>("application/json", "text/csv")
        .Produces(StatusCodes.Status200OK, contentType: "text/csv").ProducesProblem(400).ProducesProblem(404).ProducesProblem(415);

    private static Task<IResult> RunAsync(HttpContext http, string site, string? from, string? to, int? shift, OpenFrameChange job)
        => Api.AskAsync(http, site, async (permit, cancellation) =>
        {
            if (ConvertRequest.FrameOf(from) is not { } source || ConvertRequest.FrameOf(to) is not { } target)
                return Results.Problem(statusCode: 400, detail: "Say from which frame to which: from and to are siteGrid, projectedCrs, geographic or otherDatum.");
            bool isCsv = Is(http, "text/csv"), isJson = Is(http, "application/json");
            if (!isCsv && !isJson) return Results.Problem(statusCode: 415, detail: "Send text/csv or application/json.");
            FrameWay way = await job.RunAsync(permit, source, target, shift, from == ConvertRequest.OtherDatum, to == ConvertRequest.OtherDatum, cancellation);
            return way.Refusal is { } refusal ? Results.Problem(statusCode: 400, detail: refusal)
                : new Streamed(way.Service!, way.Change!, isCsv);
        });

    private static bool Is(HttpContext http, string type)
        => http.Request.ContentType?.Split(';')[0].Trim().Equals(type, StringComparison.OrdinalIgnoreCase) == true;

    private sealed class Streamed(CoordinateService service, FrameChange change, bool isCsv) : IResult
    {
        private static readonly JsonSerializerOptions Pairs = new() { MaxDepth = 8, DefaultBufferSize = 1 << 16 };

        public async Task ExecuteAsync(HttpContext http)
        {
            http.Response.ContentType = isCsv ? "text/csv; charset=utf-8" : "application/json; charset=utf-8";
            await (isCsv ? CsvAsync(http) : JsonAsync(http));
        }

        private async Task CsvAsync(HttpContext http)
        {
            CoordinateListResult result = await CoordinateListConverter.ConvertAsync(http.Request.Body, http.Response.Body, service, change, tellInPlace: true, http.RequestAborted);
            if (result.Stopped is { } stopped) await http.Response.WriteAsync($",,\"{stopped.Sentence}\"\n", http.RequestAborted);
        }

        private async Task JsonAsync(HttpContext http)
        {
            await using JsonPointWriter writer = new(http.Response, service, change);
            try
            {
                await foreach (Pair point in JsonSerializer.DeserializeAsyncEnumerable<Pair>(http.Request.Body, Pairs, http.RequestAborted))
                    await writer.AddAsync(point, http.RequestAborted);
            }
            catch (JsonException broken)
            {
                await writer.StopAsync($"After point {writer.Taken}: expected an array of pairs of numbers (line {(broken.LineNumber ?? 0) + 1} of the body); nothing from here on was read.", http.RequestAborted);
            }

            await writer.EndAsync(http.RequestAborted);
        }
    }

    /// <summary>An element of the array sent: two numbers, or something else, which is told in its place and ends nothing.</summary>
    [JsonConverter(typeof(PairReader))]
    private readonly record struct Pair(bool IsPair, double First, double Second);

    private sealed class PairReader : JsonConverter<Pair>
    {
        public override bool HandleNull => true;

        public override Pair Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            if (reader.TokenType != JsonTokenType.StartArray)
            {
                reader.TrySkip(); // the whole element is buffered; Skip would ask for the whole body
                return default;
            }

            int count = 0;
            bool isNumbers = true;
            double first = 0, second = 0;
            while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
            {
                if (reader.TokenType == JsonTokenType.Number) (first, second) = count == 0 ? (reader.GetDouble(), second) : (first, reader.GetDouble());
                else isNumbers = false;
                reader.TrySkip(); // the whole element is buffered; Skip would ask for the whole body
                count++;
            }

            return new Pair(isNumbers && count == 2, first, second);
        }

        public override void Write(Utf8JsonWriter writer, Pair value, JsonSerializerOptions options) => throw new NotSupportedException("Points are read, not written.");
    }

    /// <summary>Takes points one by one, converts them by the block and writes them as the elements of an array.</summary>
    private sealed class JsonPointWriter : IAsyncDisposable
    {
        private const int FlushBytes = 1 << 16;

        private readonly (double First, double Second)[] points = new (double, double)[FrameChange.MostPoints];
        private readonly bool[] isPair = new bool[FrameChange.MostPoints];
        private readonly double[] outside = new double[FrameChange.MostPoints];
        private readonly ArrayBufferWriter<byte> bytes = new(FlushBytes * 2);
        private readonly HttpResponse response;
        private readonly CoordinateService service;
        private readonly FrameChange change;
        private readonly Utf8JsonWriter json;
        private int pending;

        public JsonPointWriter(HttpResponse response, CoordinateService service, FrameChange change)
        {
            (this.response, this.service, this.change) = (response, service, change);
            json = new Utf8JsonWriter(bytes);
            json.WriteStartArray();
        }

        public long Taken { get; private set; }

        public ValueTask DisposeAsync() => json.DisposeAsync();

        public async Task AddAsync(Pair point, CancellationToken cancellation)
        {
            Taken++;
            isPair[pending] = point.IsPair;
            points[pending++] = point.IsPair ? (point.First, point.Second) : (double.NaN, double.NaN);
            if (pending == points.Length) await WriteBlockAsync(cancellation);
        }

        public async Task StopAsync(string why, CancellationToken cancellation)
        {
            await WriteBlockAsync(cancellation);
            json.WriteStartObject();
            json.WriteString("stopped", why);
            json.WriteEndObject();
        }

        public async Task EndAsync(CancellationToken cancellation)
        {
            await WriteBlockAsync(cancellation);
            json.WriteEndArray();
            await FlushAsync(cancellation);
        }

        private async Task WriteBlockAsync(CancellationToken cancellation)
        {
            change.Convert(service, points.AsSpan(0, pending), points.AsSpan(0, pending), outside.AsSpan(0, pending));
            for (int index = 0; index < pending; index++) Write(index);
            pending = 0;
            if (json.BytesPending + bytes.WrittenCount > FlushBytes) await FlushAsync(cancellation);
        }

        private void Write(int index)
        {
            (double first, double second) = points[index];
            if (isPair[index] && double.IsFinite(first) && double.IsFinite(second) && !(outside[index] > 0))
            {
                int decimals = change.To == Frame.Geographic ? 10 : 4;
                json.WriteStartArray();
                json.WriteNumberValue(Math.Round(first, decimals));
                json.WriteNumberValue(Math.Round(second, decimals));
                json.WriteEndArray();
                return;
            }

            json.WriteStartObject();
            json.WriteString("refusal", !isPair[index] ? "The point does not have two numbers."
                : outside[index] > 0 && double.IsFinite(outside[index]) ? string.Create(CultureInfo.InvariantCulture, $"The point lies {outside[index] / 1000:0.0} km outside the area in which {service.Crs.Name} may be used.")
                : $"The point cannot be projected with {service.Crs.Name}.");
            json.WriteEndObject();
        }

        private async Task FlushAsync(CancellationToken cancellation)
        {
            await json.FlushAsync(cancellation);
            await response.Body.WriteAsync(bytes.WrittenMemory, cancellation);
            bytes.ResetWrittenCount();
        }
    }
}
