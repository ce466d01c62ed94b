using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;
using SiteProgress.Exchange.CoordinateLists;
using SiteProgress.Jobs.SiteGrid;

namespace SiteProgress.Web.Commands;

/// <summary>Converts a list of coordinates between the frames of a site, or of a projected CRS alone, from a shell.</summary>
internal sealed class ConvertCommand : ICommand
{
    private static readonly Dictionary<string, Frame> Frames = new(StringComparer.OrdinalIgnoreCase)
    {
        ["siteGrid"] = Frame.SiteGrid,
        ["projectedCrs"] = Frame.ProjectedCrs,
        ["geographic"] = Frame.Geographic,
    };

    public string Name => "convert";

    public string Arguments => "SITE|DEFINITION.wkt FROM TO [IN.csv OUT.csv]";

    public string Summary => $"converts a list of coordinates, two numbers a line; frames: {string.Join(", ", Frames.Keys)}";

    public async Task<int> RunAsync(CommandCall call)
    {
        if (call.Words.Count is not (3 or 5)) call.Take(3);
        Frame from = FrameOf(call.Words[1]), to = FrameOf(call.Words[2]);
        CoordinateService service = File.Exists(call.Words[0]) ? FromDefinition(call.Words[0], from, to) : await FromSiteAsync(call);
        await using Stream input = call.Words.Count == 5 ? Open(call.Words[3], File.OpenRead) : Console.OpenStandardInput();
        await using Stream output = call.Words.Count == 5 ? Open(call.Words[4], File.Create) : Console.OpenStandardOutput();
        CoordinateListResult result = await CoordinateListConverter.ConvertAsync(input, output, service, new FrameChange(from, to));
        await output.FlushAsync();
        foreach (ImportProblem problem in result.Problems) await call.Error.WriteLineAsync(problem.Sentence);
        if (result.ProblemCount > result.Problems.Count) await call.Error.WriteLineAsync($"and {result.ProblemCount - result.Problems.Count} lines more.");
        return result.ProblemCount == 0 ? 0 : 1;
    }

    private static async Task<CoordinateService> FromSiteAsync(CommandCall call)
    {
        using IServiceScope work = call.Work();
        (CoordinateService? service, string? refusal) = await work.ServiceProvider.GetRequiredService<OpenConversion>()
            .RunAsync(call.Words[0], CancellationToken.None);
        return service ?? throw new CommandFailedException(refusal!);
    }

    private static CoordinateService FromDefinition(string file, Frame from, Frame to)
    {
        if (from == Frame.SiteGrid || to == Frame.SiteGrid) throw new CommandFailedException("A definition alone has no site grid; name a site instead.");
        ProjectedCrsResult crs = ProjectedCrs.FromWkt(0, File.ReadAllText(file));
        Adjustment none = new(AdjustmentKind.Similarity, 0, 1, 0, 0, 1, default, default);
        return crs.IsMade ? new CoordinateService(none, crs.Crs) : throw new CommandFailedException(crs.Refusal);
    }

    private static Frame FrameOf(string word) => Frames.TryGetValue(word, out Frame frame)
        ? frame
        : throw new CommandFailedException($"'{word}' is no frame; the frames are {string.Join(", ", Frames.Keys)}.");

    private static FileStream Open(string file, Func<string, FileStream> open)
    {
        try
        {
            return open(file);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailedException($"{file} cannot be opened: is the name right, and may this account use it?");
        }
    }
}
