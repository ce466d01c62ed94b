namespace SiteProgress.DemoGenerator.Records;

/// <summary>One planted fault, as truth-faults.json tells it. What a fault does not have is null.</summary>
public sealed record PlantedFault(string Code, string What)
{
    public string? Barge { get; init; }
    public int? Casing { get; init; }
    public string? FirstDay { get; init; }
    public string? LastDay { get; init; }
    public double? ForwardMetres { get; init; }
    public double? StarboardMetres { get; init; }
    public double? SizeMetres { get; init; }
    public double? SizeRatio { get; init; }
    public string? SteersBy { get; init; }
    public IReadOnlyList<string> Records { get; init; } = [];
    public IReadOnlyList<string> Piles { get; init; } = [];
}
