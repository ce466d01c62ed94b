namespace SiteProgress.Core.Levels;

/// <summary>One number that went into a level, by its name.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Value">The number, in <paramref name="Unit"/>.</param>
/// <param name="Unit">Its unit: m or deg.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record LevelInput(string Name, double Value, string Unit, string Source);

/// <summary>A level derived from a recorded depth, with all that went into it.</summary>
/// <param name="LevelMetres">The level, metres on the site's datum; null where something is missing.</param>
/// <param name="Formula">The formula in words.</param>
/// <param name="Inputs">What went into it, as far as it is there.</param>
/// <param name="Missing">What is missing, as a sentence.</param>
public sealed record DerivedLevel(double? LevelMetres, string Formula, IReadOnlyList<LevelInput> Inputs, string? Missing);

/// <summary>Levels of one installation derived from its depths.</summary>
/// <param name="Tip">Tip level; null where no depth of the tip is recorded.</param>
/// <param name="Top">Top level; null where no depth of the top is recorded.</param>
public sealed record DerivedLevels(DerivedLevel? Tip, DerivedLevel? Top);
