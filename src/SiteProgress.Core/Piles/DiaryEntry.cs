using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>Hours that one barge spent on one activity of one working day, as its crew wrote them down.</summary>
/// <param name="WorkingDay">Working day.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Activity">What was done, in the site's own words: installing, moving, standby.</param>
/// <param name="Cause">Why, or more closely what: weather, laying anchors.</param>
/// <param name="BorneBy">Who bears the time: contractor, owner, shared, none.</param>
/// <param name="Hours">Hours, above zero.</param>
/// <param name="Remark">The crew's remark.</param>
public sealed record DiaryEntry(
    LocalDate WorkingDay, string Barge, string Activity, string? Cause, string? BorneBy, decimal Hours, string? Remark = null);
