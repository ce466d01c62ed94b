using System.Globalization;
using SiteProgress.Jobs.Planning;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Planning;

/// <summary>What the address of a plan asks for.</summary>
public sealed record PlanQuery(
    string? Barge, string? Zones, string? Headings, string? Along, string? Across, string? AnchorHours, string? SetUpMinutes, string? Clearance, string? Direction, string? Forbidden, string? Pinned)
{
    /// <summary>Seconds the solver has.</summary>
    public static double SolverSeconds => 8;

    /// <summary>The request; null where a part cannot be read, with the reason.</summary>
    public (PlanBarge.Request? Request, string? Unread) Read()
    {
        PlanBarge.Request request = new(Barge is { Length: > 0 } ? Barge : null);
        (string Name, string? Text, Func<PlanBarge.Request, double, PlanBarge.Request> Set)[] numbers =
        [
            ("reach along", Along, (one, value) => one with { AlongMetres = value }), ("reach across", Across, (one, value) => one with { AcrossMetres = value }),
            ("hours for the anchors", AnchorHours, (one, value) => one with { AnchorHours = value }), ("minutes for a set-up", SetUpMinutes, (one, value) => one with { SetUpMinutes = value }),
            ("distance from structures", Clearance, (one, value) => one with { ClearanceMetres = value }), ("direction", Direction, (one, value) => one with { DirectionDegrees = value }),
        ];
        foreach (var (name, text, set) in numbers)
        {
            if (string.IsNullOrWhiteSpace(text)) continue;
            if (Number(text) is not { } value) return (null, $"\"{text}\" is no {name}; expected a number with a decimal point.");
            request = set(request, value);
        }

        double?[] headings = [.. Words(Headings).Select(Number)];
        if (headings.Contains(null)) return (null, $"\"{Headings}\" are no headings; expected degrees parted by commas, such as 0, 90.");
        return (request with
        {
            Zones = Words(Zones),
            HeadingsDegrees = [.. headings.Select(one => one!.Value)],
            Forbidden = Words(Forbidden),
            Pinned = [.. (Pinned ?? "").Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(Words)],
        }, null);
    }

    /// <summary>The address that asks for exactly this at a path.</summary>
    public string At(string path) => new PageAddress(path).With("barge", Barge).With("zones", Zones).With("headings", Headings).With("along", Along).With("across", Across)
        .With("anchor-hours", AnchorHours).With("set-up-minutes", SetUpMinutes).With("clearance", Clearance).With("direction", Direction).With("forbidden", Forbidden).With("pinned", Pinned).ToString();

    private static string[] Words(string? text) => (text ?? "").Split([',', ' '], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    private static double? Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value) ? value : null;
}
