using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>Puts the soundings of seabed surveys on the site grid, each by the adjustment its batch was recorded with.</summary>
public static class SeabedSurveys
{
    /// <summary>The surveys that count, the earliest first; soundings of one name and day are one survey, whatever batches they came in.</summary>
    /// <param name="site">The site.</param>
    public static IReadOnlyList<SeabedSurvey> Of(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Frames is { } frames ? Of(site.History, frames) : [];
    }

    /// <summary>The same for a history whose frames are at hand.</summary>
    public static IReadOnlyList<SeabedSurvey> Of(SiteHistory history, SiteFrames frames)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(frames);
        IReadOnlyDictionary<long, int> revisions = history.AdjustmentRevisions;
        return [.. history.Soundings
            .GroupBy(row => (Name: row.Value.Survey, row.Value.SurveyedOn))
            .OrderBy(survey => survey.Key.SurveyedOn).ThenBy(survey => survey.Key.Name, StringComparer.Ordinal)
            .Select(survey => new SeabedSurvey(survey.Key.Name, survey.Key.SurveyedOn, [.. survey.OrderBy(row => row.Sequence).SelectMany(row => Placed(row.Value, frames, revisions[row.Batch]))]))];
    }

    private static IEnumerable<Sounding> Placed(SeabedSoundings block, SiteFrames frames, int revision)
    {
        SiteCoordinate?[] at = frames.ToSite([.. block.Soundings.Select(one => (RecordedPosition?)new RecordedPosition(block.Frame, one[0], one[1]))], revision);
        return block.Soundings.Zip(at).Where(one => one.Second is not null).Select(one => new Sounding(one.Second!.Value, one.First[2]));
    }
}
