namespace SiteProgress.Web.Shell;

/// <summary>Shows the limits of a position.</summary>
public static class ShowLimit
{
    /// <summary>Such as <c>150</c>, <c>150; 100 along; 120 across</c> or <c>100 along; 120 across</c>, whole millimetres.</summary>
    /// <param name="radialMetres">Radial limit; null where none is set.</param>
    /// <param name="alongMetres">Limit along the first axis of the site grid; null where none is set.</param>
    /// <param name="acrossMetres">Limit along the second axis; null where none is set.</param>
    public static string Of(double? radialMetres, double? alongMetres, double? acrossMetres) => string.Join("; ", new[]
    {
        radialMetres is { } radial ? Show.Millimetres(radial) : null,
        alongMetres is { } along ? $"{Show.Millimetres(along)} along" : null,
        acrossMetres is { } across ? $"{Show.Millimetres(across)} across" : null,
    }.OfType<string>());
}
