namespace SiteProgress.Core.Coordinates;

/// <summary>
/// A map projection between geographic positions and the plane, both on one datum. Works on whole spans; one point is a span of one.
/// </summary>
/// <remarks>
/// Geographic positions are degrees on the projection's own datum, longitudes counted from Greenwich whatever the definition's prime
/// meridian. Projected positions are metres, east and north positive, whatever unit, order and sense the definition writes them in.
/// A point that the method cannot project gives NaN in both values; nothing throws for a value.
/// </remarks>
public interface IProjection
{
    /// <summary>The projection method, as a surveyor names it.</summary>
    string MethodName { get; }

    /// <summary>Geographic to projected, point by point. The two spans have the same length.</summary>
    void Forward(ReadOnlySpan<GeographicCoordinate> geographic, Span<ProjectedCoordinate> projected);

    /// <summary>Projected to geographic, point by point. The two spans have the same length. Longitudes come out in (-180, 180].</summary>
    void Inverse(ReadOnlySpan<ProjectedCoordinate> projected, Span<GeographicCoordinate> geographic);
}
