using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Ground;

/// <summary>
/// Soundings of one seabed survey, as they came in. A large survey comes as several of these under one name and day.
/// </summary>
/// <param name="Survey">Name of the survey.</param>
/// <param name="SurveyedOn">Day it was made, or its last day.</param>
/// <param name="Frame">Frame of the positions.</param>
/// <param name="Soundings">Each as the two coordinates in that frame, metres or degrees, and the level of the seabed, metres above the site's level datum.</param>
public sealed record SeabedSoundings(string Survey, LocalDate SurveyedOn, Frame Frame, IReadOnlyList<double[]> Soundings);
