using NodaTime;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Ground;

/// <summary>A seabed survey with its soundings on the site grid.</summary>
/// <param name="Name">Its name.</param>
/// <param name="SurveyedOn">Day it was made, or its last day.</param>
/// <param name="Soundings">Its soundings.</param>
public sealed record SeabedSurvey(string Name, LocalDate SurveyedOn, IReadOnlyList<Sounding> Soundings);

/// <summary>One sounding.</summary>
/// <param name="At">Where, site grid, metres.</param>
/// <param name="LevelMetres">Level of the seabed, metres above the site's level datum.</param>
public readonly record struct Sounding(SiteCoordinate At, double LevelMetres);
