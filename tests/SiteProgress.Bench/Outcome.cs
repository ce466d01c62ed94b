using System.Globalization;

namespace SiteProgress.Bench;

/// <summary>What came out against one goal.</summary>
/// <param name="Name">The measurement's name, with more words where it has several goals.</param>
/// <param name="Ratio">The peer's figure divided by ours: larger is better.</param>
/// <param name="Goal">The least ratio that is wanted.</param>
public sealed record Outcome(string Name, double Ratio, double Goal)
{
    /// <summary>Whether the ratio reaches the goal. A ratio that is no number does not.</summary>
    public bool Met => Ratio >= Goal;

    /// <summary>The closing line, for instance <c>intake ratio 3.20 goal 2 met</c>. The ratio is cut, not rounded, so that no line contradicts itself.</summary>
    public string ClosingLine => string.Create(
        CultureInfo.InvariantCulture,
        $"{Name} ratio {Math.Floor(Ratio * 100) / 100:0.00} goal {Goal:0.##} {(Met ? "met" : "short")}");
}
