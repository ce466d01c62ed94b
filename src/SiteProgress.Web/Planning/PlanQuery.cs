using System.Globalization;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Planning;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Planning;

/// <summary>What the address of a plan asks for: parts by name, those that are empty left out.</summary>
public sealed class PlanQuery : IEquatable<PlanQuery>
{
    private readonly PageAddress _address;
    private readonly Dictionary<string, string> _parts;

    /// <summary>Keeps the parts of an address.</summary>
    public PlanQuery(params ReadOnlySpan<(string Name, string? Text)> parts)
    {
        _address = new PageAddress("/");
        _parts = [];
        foreach ((string name, string? text) in parts)
        {
            if (string.IsNullOrWhiteSpace(text)) continue;
            _address = _address.With(name, text);
            _parts[name] = text.Trim();
        }
    }

    /// <summary>Seconds the solver has.</summary>
    public static double SolverSeconds => 8;

    /// <summary>A part as it was typed; null where it is not there.</summary>
    public string? this[string name] => _parts.GetValueOrDefault(name);

    /// <summary>True where days, water, spacings or weather are asked about; parts that only fill such a question in do not count.</summary>
    public bool AsksTimes => Array.Exists(Asking, _parts.ContainsKey);

    private static readonly string[] Asking = ["begins", "slack", "draught", "spacings", "sea", "workable"];

    private static (string Part, string Name, Func<PlanBarge.Request, double, PlanBarge.Request> Set)[] Numbers =>
    [
        ("along", "reach along", (one, value) => one with { AlongMetres = value }), ("across", "reach across", (one, value) => one with { AcrossMetres = value }),
        ("anchor-hours", "hours for the anchors", (one, value) => one with { AnchorHours = value }), ("set-up-minutes", "minutes for a set-up", (one, value) => one with { SetUpMinutes = value }),
        ("clearance", "distance from structures", (one, value) => one with { ClearanceMetres = value }), ("direction", "direction", (one, value) => one with { DirectionDegrees = value }),
    ];

    private static (string Part, string Name, Func<PlanTimes, double, PlanTimes> Set)[] TimeNumbers =>
    [
        ("hours-a-day", "hours worked a day", (one, value) => one with { HoursPerDay = value }), ("slack", "minutes of slack water", (one, value) => one with { SlackMinutes = value }),
        ("slack-lag", "minutes after high and low water", (one, value) => one with { SlackLagMinutes = value }), ("in-slack", "minutes that need slack water", (one, value) => one with { InWindowMinutes = value }),
        ("draught", "draught", (one, value) => one with { DraughtMetres = value }), ("keel", "water under the keel", (one, value) => one with { KeelMetres = value }),
        ("change-hours", "hours for a change of the spacing", (one, value) => one with { ChangeHours = value }), ("sea", "wave height", (one, value) => one with { SeaMetres = value }),
        ("unforeseen", "hours for the unforeseen", (one, value) => one with { UnforeseenHours = value }), ("workable", "share of the time", (one, value) => one with { WorkableRatio = value / 100 }),
    ];

    /// <summary>The request; null where a part cannot be read, with the reason.</summary>
    public (PlanBarge.Request? Request, string? Unread) Read()
    {
        PlanBarge.Request request = new(this["barge"]);
        foreach ((string part, string name, Func<PlanBarge.Request, double, PlanBarge.Request> set) in Numbers)
        {
            if (this[part] is not { } text) continue;
            if (Number(text) is not { } value) return (null, NoNumber(text, name));
            request = set(request, value);
        }

        double?[] headings = [.. Words(this["headings"]).Select(Number)];
        if (headings.Contains(null)) return (null, $"\"{this["headings"]}\" are no headings; expected degrees parted by commas, such as 0, 90.");
        (PlanTimes? times, string? unread) = ReadTimes();
        return times is null ? (null, unread) : (request with
        {
            Zones = Words(this["zones"]),
            HeadingsDegrees = [.. headings.Select(one => one!.Value)],
            Forbidden = Words(this["forbidden"]),
            Pinned = [.. (this["pinned"] ?? "").Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(Words)],
            Times = times,
        }, null);
    }

    private (PlanTimes? Times, string? Unread) ReadTimes()
    {
        PlanTimes times = new();
        foreach ((string part, string name, Func<PlanTimes, double, PlanTimes> set) in TimeNumbers)
        {
            if (this[part] is not { } text) continue;
            if (Number(text) is not { } value) return (null, NoNumber(text, name));
            times = set(times, value);
        }

        LocalDate? begins = ShowDay.LocalFromAddress(this["begins"]);
        if (this["begins"] is { } day && begins is null) return (null, $"\"{day}\" is no day on which the plan begins; expected year-month-day, such as 2026-06-01.");
        SlackUse? use = this["slack-for"] switch { null or "anchors" => SlackUse.Anchors, "set-ups" => SlackUse.SetUps, "both" => SlackUse.Both, _ => null };
        if (use is null) return (null, $"\"{this["slack-for"]}\" needs no slack water; expected anchors, set-ups or both.");
        double?[] spacings = [.. Words(this["spacings"]).Select(Number)];
        if (spacings.Contains(null)) return (null, $"\"{this["spacings"]}\" are no spacings; expected metres parted by commas, such as 4.2, 6.3.");
        Dictionary<string, double> seabeds = new(StringComparer.OrdinalIgnoreCase);
        foreach (string one in (this["seabed"] ?? "").Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            string[] words = Words(one.Replace('\u2212', '-'));
            if (words.Length != 2 || Number(words[1]) is not { } level || !seabeds.TryAdd(words[0], level)) return (null, $"\"{one}\" is no seabed of a zone; expected each zone once with its level in metres, such as A -11.5; B -12.");
        }

        return (times with { Begins = begins, SlackUse = use.Value, SpacingsMetres = [.. spacings.Select(one => one!.Value)], Seabeds = seabeds }, null);
    }

    /// <summary>The address that asks for exactly this at a path.</summary>
    public string At(string path) => _address.At(path).ToString();

    /// <inheritdoc />
    public bool Equals(PlanQuery? other) => other is not null && At("") == other.At("");

    /// <inheritdoc />
    public override bool Equals(object? obj) => Equals(obj as PlanQuery);

    /// <inheritdoc />
    public override int GetHashCode() => At("").GetHashCode(StringComparison.Ordinal);

    private static string NoNumber(string text, string name) => $"\"{text}\" is no {name}; expected a number with a decimal point.";

    private static string[] Words(string? text) => (text ?? "").Split([',', ' '], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    private static double? Number(string text)
        => double.TryParse(text.Replace('\u2212', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value) ? value : null;
}
