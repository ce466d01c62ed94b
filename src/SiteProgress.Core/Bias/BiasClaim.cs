using System.Text.Json.Serialization;
using NodaTime;

namespace SiteProgress.Core.Bias;

/// <summary>What a claim says is wrong. Deviations alone cannot tell; check measurements can.</summary>
public enum ClaimStanding
{
    /// <summary>No check measurement speaks to it: the record or the piles may be wrong.</summary>
    Suspected = 1,

    /// <summary>Check measurements show the offset: the record is wrong, the piles stand elsewhere than recorded.</summary>
    RecordWrong,

    /// <summary>Check measurements show no offset: the record is right, the piles stand where it says.</summary>
    PilesWrong,

    /// <summary>There are check measurements, and they fit neither, or both.</summary>
    Unsettled,
}

/// <summary>What check measurements say to a claim.</summary>
/// <param name="Standing">What follows.</param>
/// <param name="Measurements">How many of them lie in the claim's scope.</param>
/// <param name="Visits">At how many set-ups they were made.</param>
/// <param name="First">Mean of recorded minus measured, in the axes of the claim, metres; null where there is none.</param>
/// <param name="Second">The same, second axis.</param>
/// <param name="StandardError">Standard error of each, metres.</param>
public sealed record CheckSupport(ClaimStanding Standing, int Measurements, int Visits, double? First, double? Second, double? StandardError)
{
    /// <summary>Nothing was measured.</summary>
    public static CheckSupport None { get; } = new(ClaimStanding.Suspected, 0, 0, null, null, null);
}

/// <summary>What a claim means for the piles it touches.</summary>
/// <param name="Piles">How many piles.</param>
/// <param name="WithinNow">How many of them are within their limit as recorded.</param>
/// <param name="WithinThen">How many would be, were the record corrected.</param>
/// <param name="MedianNowMetres">Median radial deviation as recorded, metres.</param>
/// <param name="MedianThenMetres">Median radial deviation, were the record corrected, metres.</param>
public sealed record TouchedPiles(int Piles, int WithinNow, int WithinThen, double MedianNowMetres, double MedianThenMetres);

/// <summary>One bias that was found, with the single causes that may be behind it.</summary>
/// <param name="Named">The cause that explains it best.</param>
/// <param name="FromDay">First working day; null where records have no day.</param>
/// <param name="ToDay">Last working day.</param>
/// <param name="From">End of the first pile of it; null where the record does not say.</param>
/// <param name="To">End of the last pile of it.</param>
/// <param name="LastsToEnd">True when it goes on to the last record.</param>
/// <param name="SizeMetres">Length of the offset, or its largest effect at a pile, metres.</param>
/// <param name="SizeStandardError">Its standard error, metres.</param>
/// <param name="SetUps">Set-ups it rests on.</param>
/// <param name="Factor">By this many standard errors an end of the 95 % interval lies from a value (Student's t).</param>
/// <param name="Chance">Bound on the chance that a site without bias shows anything like it.</param>
/// <param name="Others">Every other cause that was compared, those not excluded first.</param>
/// <param name="Touched">What it means for the piles.</param>
/// <param name="Support">What check measurements say.</param>
/// <param name="Sentence">All of it as a sentence.</param>
/// <param name="Remarks">What keeps causes from being told apart, as sentences.</param>
/// <param name="PileNumbers">The piles it touches.</param>
public sealed record BiasClaim(
    CauseFit Named,
    LocalDate? FromDay,
    LocalDate? ToDay,
    Instant? From,
    Instant? To,
    bool LastsToEnd,
    double SizeMetres,
    double SizeStandardError,
    int SetUps,
    double Factor,
    double Chance,
    IReadOnlyList<CauseFit> Others,
    TouchedPiles Touched,
    CheckSupport Support,
    string Sentence,
    IReadOnlyList<string> Remarks,
    [property: JsonIgnore] IReadOnlyList<string> PileNumbers)
{
    /// <summary>Half the 95 % interval of a value of the named cause.</summary>
    public double HalfWidth(CauseValue value)
    {
        ArgumentNullException.ThrowIfNull(value);
        return Factor * value.StandardError;
    }
}

/// <summary>What a group of set-ups shows in Hotelling's test.</summary>
/// <param name="Kind">What the group is made by: "barge", "casing", "week", "heading".</param>
/// <param name="Name">Which group.</param>
/// <param name="Axes">Axes of the means: "forward, starboard" or "east, north".</param>
/// <param name="SetUps">Set-ups in it.</param>
/// <param name="First">Mean along the first axis, metres.</param>
/// <param name="Second">Mean along the second axis, metres.</param>
/// <param name="Test">The test.</param>
/// <param name="Adjusted">Smallest false-discovery bound at which it is singled out (Benjamini and Hochberg).</param>
/// <param name="StandsOut">True when that is at most 5 % and the mean at least the least size that is named.</param>
public sealed record GroupTest(string Kind, string Name, string Axes, int SetUps, double First, double Second, Hotelling Test, double Adjusted, bool StandsOut)
{
    /// <summary>Share of false ones that is put up with among the groups singled out.</summary>
    public static double Bound => 0.05;
}

/// <summary>All that the search for bias gives.</summary>
/// <param name="Claims">What was found, the most certain first.</param>
/// <param name="Groups">Hotelling's test of every group.</param>
/// <param name="Remarks">What the data cannot show at all, as sentences.</param>
/// <param name="Piles">Piles that were looked at.</param>
/// <param name="SetUps">Their set-ups.</param>
/// <param name="LeftOutFar">Piles left out because their deviation tells of a wrong record, not of a bias.</param>
/// <param name="LeftOutMissing">Piles left out because a number is missing.</param>
/// <param name="OwnSpreadMetres">Spread of a casing about its set-up, per axis, metres.</param>
/// <param name="SharedSpreadMetres">Spread that the casings of a set-up share, per axis, metres.</param>
public sealed record BiasFindings(
    IReadOnlyList<BiasClaim> Claims,
    IReadOnlyList<GroupTest> Groups,
    IReadOnlyList<string> Remarks,
    int Piles,
    int SetUps,
    int LeftOutFar,
    int LeftOutMissing,
    double OwnSpreadMetres,
    double SharedSpreadMetres);
