using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Unicode;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Web.Commands;

/// <summary>Reads outside files against a design and prints what they hold and how they match, as JSON; no store is needed.</summary>
internal sealed class ReadFilesCommand : ICommand
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Encoder = JavaScriptEncoder.Create(UnicodeRanges.All),
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    private const string DesignPrefix = "design.";

    public string Name => "read-files";

    public string Arguments => "SITE.json MARKS.csv CRS.wkt DESIGN FILE...";

    public string Summary => "reads and matches files without a store and prints JSON; --content, --frame and the other words of the upload page's address say what files do not, --design.content and so on what the design does not";

    public async Task<int> RunAsync(CommandCall call)
    {
        if (call.Words.Count < 4) call.Take(5);
        (string Name, string Value)[] choices = [.. Choices(call.Settings)];
        IEnumerable<(string, string)> ofDesign = choices.Where(one => one.Name.StartsWith(DesignPrefix, StringComparison.Ordinal)).Select(one => (one.Name[DesignPrefix.Length..], one.Value));
        (IReadOnlyList<FileRead>? files, string? refusal) = new ReadFiles(TimeProvider.System).Run(
            call.Words[0], call.Words[1], call.Words[2], call.Words[3], ChoicePairs.Read(ofDesign), [.. call.Words.Skip(4)], ChoicePairs.Read(choices), CancellationToken.None);
        if (files is null) throw new CommandFailedException(refusal!);
        await call.Output.WriteLineAsync(JsonSerializer.Serialize(files, Options));
        return files.Any(file => file.IsRefused || file.ProblemCount > 0) ? 1 : 0;
    }

    private static IEnumerable<(string Name, string Value)> Choices(string[] settings)
    {
        for (int at = 0; at < settings.Length; at++)
        {
            string name = settings[at].TrimStart('-');
            int equals = name.IndexOf('=', StringComparison.Ordinal);
            if (equals > 0)
                yield return (name[..equals], name[(equals + 1)..]);
            else if (at + 1 < settings.Length)
                yield return (name, settings[++at]);
        }
    }
}
