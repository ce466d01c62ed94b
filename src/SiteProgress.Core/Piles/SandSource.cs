using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>Where sand comes from, with its volume-change factor C.</summary>
/// <param name="Name">Name of the source.</param>
/// <param name="VolumeChangeFactor">C: volume in the pile divided by loose volume in the casing, a ratio below 1.</param>
/// <param name="ApprovedOn">Day on which C was approved.</param>
/// <param name="Evidence">The trial that C comes from.</param>
public sealed record SandSource(string Name, double VolumeChangeFactor, LocalDate ApprovedOn, string Evidence);
