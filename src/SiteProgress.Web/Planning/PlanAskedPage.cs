using Microsoft.AspNetCore.Components;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Planning;

/// <summary>A page whose address asks for a plan; which parts there are.</summary>
public abstract class PlanAskedPage : SitePage
{
    [SupplyParameterFromQuery(Name = "barge")] private string? Barge { get; set; }
    [SupplyParameterFromQuery(Name = "zones")] private string? Zones { get; set; }
    [SupplyParameterFromQuery(Name = "headings")] private string? Headings { get; set; }
    [SupplyParameterFromQuery(Name = "along")] private string? Along { get; set; }
    [SupplyParameterFromQuery(Name = "across")] private string? Across { get; set; }
    [SupplyParameterFromQuery(Name = "anchor-hours")] private string? AnchorHours { get; set; }
    [SupplyParameterFromQuery(Name = "set-up-minutes")] private string? SetUpMinutes { get; set; }
    [SupplyParameterFromQuery(Name = "clearance")] private string? Clearance { get; set; }
    [SupplyParameterFromQuery(Name = "direction")] private string? Direction { get; set; }
    [SupplyParameterFromQuery(Name = "forbidden")] private string? Forbidden { get; set; }
    [SupplyParameterFromQuery(Name = "pinned")] private string? Pinned { get; set; }
    [SupplyParameterFromQuery(Name = "begins")] private string? Begins { get; set; }
    [SupplyParameterFromQuery(Name = "hours-a-day")] private string? HoursADay { get; set; }
    [SupplyParameterFromQuery(Name = "slack")] private string? Slack { get; set; }
    [SupplyParameterFromQuery(Name = "slack-lag")] private string? SlackLag { get; set; }
    [SupplyParameterFromQuery(Name = "slack-for")] private string? SlackFor { get; set; }
    [SupplyParameterFromQuery(Name = "in-slack")] private string? InSlack { get; set; }
    [SupplyParameterFromQuery(Name = "draught")] private string? Draught { get; set; }
    [SupplyParameterFromQuery(Name = "keel")] private string? Keel { get; set; }
    [SupplyParameterFromQuery(Name = "seabed")] private string? Seabed { get; set; }
    [SupplyParameterFromQuery(Name = "spacings")] private string? Spacings { get; set; }
    [SupplyParameterFromQuery(Name = "change-hours")] private string? ChangeHours { get; set; }
    [SupplyParameterFromQuery(Name = "sea")] private string? Sea { get; set; }
    [SupplyParameterFromQuery(Name = "unforeseen")] private string? Unforeseen { get; set; }
    [SupplyParameterFromQuery(Name = "workable")] private string? Workable { get; set; }

    /// <summary>What the address asks for.</summary>
    protected PlanQuery Query => new(
        ("barge", Barge), ("zones", Zones), ("headings", Headings), ("along", Along), ("across", Across), ("anchor-hours", AnchorHours), ("set-up-minutes", SetUpMinutes),
        ("clearance", Clearance), ("direction", Direction), ("forbidden", Forbidden), ("pinned", Pinned), ("begins", Begins), ("hours-a-day", HoursADay), ("slack", Slack),
        ("slack-lag", SlackLag), ("slack-for", SlackFor), ("in-slack", InSlack), ("draught", Draught), ("keel", Keel), ("seabed", Seabed), ("spacings", Spacings),
        ("change-hours", ChangeHours), ("sea", Sea), ("unforeseen", Unforeseen), ("workable", Workable));
}
