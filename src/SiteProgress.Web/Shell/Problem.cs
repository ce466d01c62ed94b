namespace SiteProgress.Web.Shell;

/// <summary>One problem as it is shown: where, what was found, what was expected.</summary>
/// <param name="Where">Line and column, or the field.</param>
/// <param name="Found">The value that was found, as text.</param>
/// <param name="Expected">What was expected, or what to do.</param>
public sealed record Problem(string Where, string Found, string Expected);
