namespace SiteProgress.Core.Piles;

/// <summary>What a daily report says that no figure says, in the words of whoever keeps the diary.</summary>
/// <param name="WeatherAndSea">Wind, sea, visibility.</param>
/// <param name="CrewAndPlant">Who and what was on site.</param>
/// <param name="Instructions">Instructions received.</param>
/// <param name="Incidents">Incidents.</param>
/// <param name="PlanForTomorrow">What is meant to be done the next working day.</param>
public sealed record DayNotes(string? WeatherAndSea, string? CrewAndPlant, string? Instructions, string? Incidents, string? PlanForTomorrow);
