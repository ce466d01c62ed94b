using System.Globalization;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Progress;

/// <summary>Records a revision of the plan of work: zones with dates, barges that come and go, days without work.</summary>
public sealed class ReviseWorkPlan(SiteRecorder recorder)
{
    /// <summary>Longest reason, characters.</summary>
    public static int MostReasonCharacters => ReasonText.MostCharacters;

    /// <summary>Records a plan.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="plan">The plan, whole; it replaces the one before.</param>
    /// <param name="reason">Why.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.ReviseDesign)]
    public async Task<string?> RunAsync(Permit permit, WorkPlan plan, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.ReviseDesign);
        ArgumentNullException.ThrowIfNull(plan);
        if (ReasonText.WhyNot(reason) is { } why) return why;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.ReviseDesign,
            history =>
            {
                refusal = history.Settings is { } settings ? Problem(plan, settings) : "The site has no settings yet.";
                return refusal is null ? [new WorkPlanBody(plan, reason.Trim())] : [];
            },
            cancellation);
        return refusal;
    }

    private static string? Problem(WorkPlan plan, SiteSettings settings)
    {
        string zones = string.Join(", ", settings.Zones.Select(zone => zone.Code));
        string barges = string.Join(", ", settings.Barges.Select(barge => barge.Name));
        foreach (ZonePlan zone in plan.Zones)
        {
            if (settings.FindZone(zone.Zone) is null) return $"There is no zone \"{zone.Zone}\"; the site has {zones}.";
            if (zone.Ends is null == (zone.PilesPerDay is null)) return $"Zone {zone.Zone} needs a last day or a rate of piles per day, one of the two.";
            if (zone.Ends < zone.Begins) return Say($"Zone {zone.Zone} ends on {zone.Ends:uuuu-MM-dd}, before it begins on {zone.Begins:uuuu-MM-dd}.");
            if (zone.PilesPerDay <= 0) return Say($"The rate of zone {zone.Zone} is {zone.PilesPerDay}; expected a number above zero.");
            if (zone.Weight <= 0) return Say($"The weight of zone {zone.Zone} is {zone.Weight}; expected a number above zero.");
        }

        foreach (BargePlan barge in plan.Barges)
        {
            if (settings.FindBarge(barge.Barge) is null) return $"There is no barge \"{barge.Barge}\"; the site has {barges}.";
            if (barge.Until < barge.From) return Say($"{barge.Barge} leaves on {barge.Until:uuuu-MM-dd}, before it comes on {barge.From:uuuu-MM-dd}.");
            if (barge.Zones.FirstOrDefault(zone => settings.FindZone(zone) is null) is { } unknown) return $"There is no zone \"{unknown}\" for {barge.Barge}; the site has {zones}.";
        }

        if (plan.RestWeekdays.Distinct().Count() == 7) return "Every day of the week is a rest day; nobody could work.";
        foreach (RestrictedWindow window in plan.Restricted)
        {
            if (window.To < window.From) return Say($"A restricted window ends on {window.To:uuuu-MM-dd}, before it begins on {window.From:uuuu-MM-dd}.");
            if (window.Zone is { } named && settings.FindZone(named) is null) return $"There is no zone \"{named}\"; the site has {zones}.";
            if (window.Barge is { } of && settings.FindBarge(of) is null) return $"There is no barge \"{of}\"; the site has {barges}.";
        }

        foreach (SlackWindow window in plan.Windows ?? [])
        {
            if (window.To <= window.From) return Say($"A window of slack water ends at {window.To:uuuu-MM-dd HH:mm} UTC, not after it begins at {window.From:uuuu-MM-dd HH:mm} UTC.");
            if (window.Barge is { } of && settings.FindBarge(of) is null) return $"There is no barge \"{of}\" for a window of slack water; the site has {barges}.";
        }

        return Repeated(plan.Zones.Select(zone => zone.Zone)) is { } twice ? $"Zone {twice} stands in the plan twice."
            : Repeated(plan.Barges.Select(barge => barge.Barge)) is { } again ? $"{again} stands in the plan twice." : null;
    }

    private static string? Repeated(IEnumerable<string> names)
        => names.GroupBy(name => name, StringComparer.OrdinalIgnoreCase).FirstOrDefault(same => same.Count() > 1)?.Key;

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
