using System.Globalization;
using SiteProgress.DemoGenerator;
using SiteProgress.DemoGenerator.Files;

// Writes the demo's files into a folder: FOLDER [--seed NUMBER].
if (args.Length is not (1 or 3) || (args.Length == 3 && args[1] != "--seed"))
{
    Console.Error.WriteLine("use: dotnet run --project tests/SiteProgress.DemoGenerator -- FOLDER [--seed NUMBER]");
    return 2;
}

var seed = DemoSite.StandardSeed;
if (args.Length == 3 && !int.TryParse(args[2], NumberStyles.Integer, CultureInfo.InvariantCulture, out seed))
{
    Console.Error.WriteLine("the seed must be a whole number, not '" + args[2] + "'");
    return 2;
}

var files = DemoFiles.Make(new DemoSite(seed));
foreach (var (name, bytes) in files)
{
    var path = Path.Combine(args[0], name);
    Directory.CreateDirectory(Path.GetDirectoryName(path)!);
    File.WriteAllBytes(path, bytes);
}

Console.WriteLine(FormattableString.Invariant($"{files.Count} files, {files.Values.Sum(bytes => bytes.Length)} bytes, seed {seed}"));
return 0;
