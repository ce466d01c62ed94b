namespace SiteProgress.Core.Piles;

/// <summary>A position exactly as it was recorded, in the frame it was recorded in. It is never overwritten by a derived one.</summary>
/// <param name="Frame">Which of the three frames the two numbers belong to.</param>
/// <param name="First">X, easting or latitude: metres, metres or degrees by the frame.</param>
/// <param name="Second">Y, northing or longitude: metres, metres or degrees by the frame.</param>
public readonly record struct RecordedPosition(Frame Frame, double First, double Second);
