namespace SiteProgress.Bench;

/// <summary>One thing of ours that is timed against its peers in the same run, each peer at its best setting.</summary>
/// <param name="Name">What one writes after <c>./bench</c>.</param>
/// <param name="Summary">What is timed against what, in one line.</param>
/// <param name="RunAsync">Measures, writes its table, and gives what came out against each goal.</param>
public sealed record Measurement(string Name, string Summary, Func<TextWriter, Task<IReadOnlyList<Outcome>>> RunAsync);
