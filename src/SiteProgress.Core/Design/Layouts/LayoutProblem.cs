namespace SiteProgress.Core.Design.Layouts;

/// <summary>Why a layout cannot be, in words for a person.</summary>
/// <param name="Where">What it is about, such as the outline or the spacing.</param>
/// <param name="Found">What was given.</param>
/// <param name="Expected">What was expected, or what to do.</param>
public sealed record LayoutProblem(string Where, string Found, string Expected);
