using System.Globalization;
using SiteProgress.Jobs.Ground;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Ground;

/// <summary>What is asked of the ground, as the address holds it. What cannot be read is told on the page and refused to programs.</summary>
public sealed record GroundQuery(string? Share, string? Square, string? Step, string? Before, string? After, string? Weight, string? Fines, string? Around)
{
    private static (string Name, double Least, double Most, string Expected) OfShare => ("share", 1, 200, "a percentage of the design's a_s, 1 to 200");

    private static (string Name, double Least, double Most, string Expected) OfSquare => ("square", 0.5, 100, "metres, 0.5 to 100");

    private static (string Name, double Least, double Most, string Expected) OfStep => ("step", 0.1, 50, "metres, 0.1 to 50");

    private static (string Name, double Least, double Most, string Expected) OfWeight => ("weight", 1, 20, "kilonewtons per cubic metre under water, 1 to 20");

    private static (string Name, double Least, double Most, string Expected) OfFines => ("fines", 0.1, 100, "percent below 75 µm, 0.1 to 100");

    private IEnumerable<(string Name, string? Sent, double? Value, string Expected)> Numbers =>
    [
        Of(OfShare, Share), Of(OfSquare, Square), Of(OfStep, Step), Of(OfWeight, Weight), Of(OfFines, Fines),
    ];

    /// <summary>What was sent and not understood, as sentences.</summary>
    public IReadOnlyList<string> Misunderstood => [.. Numbers.Where(one => !string.IsNullOrWhiteSpace(one.Sent) && one.Value is null)
        .Select(one => $"{one.Name}: \u201C{(one.Sent!.Length > 40 ? one.Sent[..40] + "…" : one.Sent)}\u201D was not understood; expected {one.Expected}.")];

    /// <summary>A refusal for programs; null where all is understood.</summary>
    public IResult? Refusal => Misunderstood is [{ } first, ..] ? Results.Problem(statusCode: StatusCodes.Status400BadRequest, detail: first) : null;

    /// <summary>The request; what was not understood is not asked.</summary>
    public GroundRequest Request => new(
        Of(OfShare, Share).Value / 100 ?? GroundRequest.UsualShareRatio, Of(OfSquare, Square).Value ?? GroundRequest.UsualSquareMetres, Of(OfStep, Step).Value ?? GroundRequest.UsualStepMetres,
        Before, After, Of(OfWeight, Weight).Value, Of(OfFines, Fines).Value, Around);

    /// <summary>The address of the page that asks this.</summary>
    public PageAddress Address(string site) => new PageAddress($"/sites/{site}/ground")
        .With("share", Share).With("square", Square).With("step", Step).With("before", Before).With("after", After).With("weight", Weight).With("fines", Fines).With("around", Around);

    private static (string Name, string? Sent, double? Value, string Expected) Of((string Name, double Least, double Most, string Expected) asked, string? sent)
        => (asked.Name, sent, double.TryParse(sent, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value >= asked.Least && value <= asked.Most ? value : null, asked.Expected);
}
