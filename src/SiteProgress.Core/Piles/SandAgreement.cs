namespace SiteProgress.Core.Piles;

/// <summary>How far the site lets two accounts of one sand differ before it is a finding. Common practice asks 5 to 15 %; no source.</summary>
/// <param name="PileRatio">Of one pile: sand by the log against sand on the record, and charges against what the gauge saw of them; null where none is asked.</param>
/// <param name="WeekRatio">From one measured stock to the next: sand used by deliveries and stocks against sand used by the records; null where none is asked.</param>
public sealed record SandAgreement(double? PileRatio = null, double? WeekRatio = null);
