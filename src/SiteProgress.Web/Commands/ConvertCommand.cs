using System.Globalization;
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

    private const string OtherDatum = "otherDatum:";

    public string Name => "convert";

    public string Arguments => "SITE|DEFINITION.wkt FROM TO [IN.csv OUT.csv]";

    public string Summary => $"converts a list of coordinates, two numbers a line; frames: {string.Join(", ", Frames.Keys)}, {OtherDatum}CODE of a shift";

    public async Task<int> RunAsync(CommandCall call)
    {
        if (call.Words.Count is not (3 or 5)) call.Take(3);
        AskedFrame from = FrameOf(call.Words[1]), to = FrameOf(call.Words[2]);
        (CoordinateService service, FrameChange change) = File.Exists(call.Words[0]) ? FromDefinition(call.Words[0], from, to) : await FromSiteAsync(call, from, to);
        await using Stream input = call.Words.Count == 5 ? Open(call.Words[3], File.OpenRead) : Console.OpenStandardInput();
        await using Stream output = call.Words.Count == 5 ? Open(call.Words[4], File.Create) : Console.OpenStandardOutput();
        CoordinateListResult result = await CoordinateListConverter.ConvertAsync(input, output, service, change);
        await output.FlushAsync();
        foreach (ImportProblem problem in result.Problems) await call.Error.WriteLineAsync(problem.Sentence);
        if (result.ProblemCount > result.Problems.Count) await call.Error.WriteLineAsync($"and {result.ProblemCount - result.Problems.Count} lines more.");
        return result.ProblemCount == 0 ? 0 : 1;
    }

    private static async Task<(CoordinateService Service, FrameChange Change)> FromSiteAsync(CommandCall call, AskedFrame from, AskedFrame to)
    {
        if (from.Shift is { } one && to.Shift is { } other && one != other) throw new CommandFailedException("Between two other datums the site's own lies in between: convert twice.");
        using IServiceScope work = call.Work();
        FrameWay way = await work.ServiceProvider.GetRequiredService<OpenConversion>()
            .RunAsync(call.Words[0], from.Frame, to.Frame, from.Shift ?? to.Shift, from.Shift is not null, to.Shift is not null, CancellationToken.None);
        return way.Refusal is { } refusal ? throw new CommandFailedException(refusal) : (way.Service!, way.Change!);
    }

    private static (CoordinateService Service, FrameChange Change) FromDefinition(string file, AskedFrame from, AskedFrame to)
    {
        if (from.Frame == Frame.SiteGrid || to.Frame == Frame.SiteGrid) throw new CommandFailedException("A definition alone has no site grid; name a site instead.");
        if ((from.Shift ?? to.Shift) is not null) throw new CommandFailedException("Whether a published shift may be used depends on the place; name a site instead of a definition.");
        ProjectedCrsResult crs = ProjectedCrs.FromWkt(0, File.ReadAllText(file));
        Adjustment none = new(AdjustmentKind.Similarity, 0, 1, 0, 0, 1, default, default);
        return crs.IsMade ? (new CoordinateService(none, crs.Crs), new FrameChange(from.Frame, to.Frame)) : throw new CommandFailedException(crs.Refusal);
    }

    private static AskedFrame FrameOf(string word)
    {
        if (Frames.TryGetValue(word, out Frame frame)) return new AskedFrame(frame, null);
        if (word.StartsWith(OtherDatum, StringComparison.OrdinalIgnoreCase) && int.TryParse(word.AsSpan(OtherDatum.Length), NumberStyles.None, CultureInfo.InvariantCulture, out int shift))
            return new AskedFrame(Frame.Geographic, shift);
        throw new CommandFailedException($"'{word}' is no frame; the frames are {string.Join(", ", Frames.Keys)} and {OtherDatum}CODE with the EPSG code of a published shift.");
    }

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

    /// <summary>A frame as it was asked for.</summary>
    /// <param name="Frame">The frame.</param>
    /// <param name="Shift">EPSG code of the shift to the other datum; null on the site's own.</param>
    private readonly record struct AskedFrame(Frame Frame, int? Shift);
}
