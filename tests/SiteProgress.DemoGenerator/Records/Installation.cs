using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Records;

/// <summary>What one attempt truly was: positions on the site grid, levels above the level datum, loose sand in the casing (m3).</summary>
public sealed class Truth
{
    public required string Pile { get; init; }
    public PlanePoint TouchDown { get; set; }
    public PlanePoint End { get; set; }
    public double? Top { get; set; }
    public double Tip { get; set; }
    public double Sand { get; set; }
}

/// <summary>One attempt at one pile: the truth, and what the crew's system recorded of it.</summary>
public sealed class Installation
{
    public required Barge Barge { get; init; }
    public required int Casing { get; init; }
    public required int SetUp { get; init; }
    public required double HeadingOnSite { get; init; }
    public required DateTime Start { get; init; }
    public required DateTime EndOfPenetration { get; init; }
    public required DateTime End { get; init; }
    public required Truth Truth { get; init; }

    /// <summary>The design of the pile; the zone next door where it is a trial pile.</summary>
    public required ZoneDesign Zone { get; init; }

    /// <summary>Null for a trial pile, which stands outside the design.</summary>
    public PlannedPile? Planned { get; init; }

    public int Attempt { get; init; } = 1;
    public string Record { get; set; } = "";
    public string RecordedPile { get; set; } = "";
    public PlanePoint RecordedTouchDown { get; set; }
    public PlanePoint RecordedEnd { get; set; }
    public double RecordedHeadingOnSite { get; set; }
    public double? RecordedTop { get; set; }
    public double RecordedTip { get; set; }
    public double RecordedSand { get; set; }
    public double? Inclination { get; set; }
    public double? StopRate { get; set; }
    public string Fix { get; set; } = "RTK fixed";
    public double Uncertainty { get; set; } = 0.04;
    public string Outcome { get; set; } = "complete";
    public string Remark { get; set; } = "";

    /// <summary>Positions were written as easting and northing under the site grid's headers.</summary>
    public bool WrittenInWrongFrame { get; set; }

    /// <summary>Codes of the planted faults that touch this record.</summary>
    public List<string> Faults { get; } = [];

    /// <summary>The casing left the pile on this working day.</summary>
    public DateOnly WorkingDay => SiteTime.WorkingDayOf(End);

    /// <summary>The attempt built its pile up to the top; a pile stands once one of its attempts did.</summary>
    public bool ReachedTop => Outcome is "complete" or "refused" or "offset by instruction";

    public string SetUpName => FormattableString.Invariant($"{Barge.Code}-{SetUp:0000}");
}
