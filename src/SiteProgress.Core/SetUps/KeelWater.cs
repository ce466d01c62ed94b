using System.Collections.Concurrent;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Levels;

namespace SiteProgress.Core.SetUps;

/// <summary>The seabed below a barge.</summary>
/// <param name="LevelMetres">Level with its heave, metres on the site's datum.</param>
/// <param name="From">What the level comes from.</param>
public sealed record SeabedBelow(double LevelMetres, string From);

/// <summary>Water under the keel at a set-up.</summary>
/// <param name="SeabedMetres">Level of the seabed taken, metres on the site's datum; null where it is not known.</param>
/// <param name="From">What it comes from, or why it is not known.</param>
/// <param name="NeedsLevelMetres">Water level that gives the wanted room, metres on the site's datum; null where the seabed is not known.</param>
/// <param name="LeastRoomMetres">Least water under the keel by the tide taken while the set-up lasts, metres; null where seabed, tide or time is not known.</param>
public sealed record KeelRoom(double? SeabedMetres, string From, double? NeedsLevelMetres, double? LeastRoomMetres);

/// <summary>
/// When there is water enough under a barge: the tide told from the readings, lowered by twice their spread, as weather can keep the
/// water that much below it, against seabed, draught and the room wanted. What is not known is said, never taken for enough.
/// </summary>
public sealed class KeelWater
{
    private static readonly Duration Step = Duration.FromMinutes(6);

    private readonly Instant _from;
    private readonly double[] _levels;
    private readonly ConcurrentDictionary<int, OpenTimes> _enough = new();

    /// <summary>Makes it.</summary>
    /// <param name="draughtMetres">Draught of the barge, metres.</param>
    /// <param name="roomMetres">Water wanted under the keel, metres.</param>
    /// <param name="tide">The tide; null where it is not known.</param>
    /// <param name="from">Beginning of the time looked at.</param>
    /// <param name="to">Its end.</param>
    /// <param name="seabed">The seabed below the barge at a heading and reference point over piles of some zones; null where it is not known.</param>
    public KeelWater(double draughtMetres, double roomMetres, TidePrediction? tide, Instant from, Instant to, Func<double, SiteCoordinate, IReadOnlyCollection<string>, SeabedBelow?> seabed)
    {
        (DraughtMetres, RoomMetres, Seabed, IsTideKnown, _from) = (draughtMetres, roomMetres, seabed, tide is not null, from);
        _levels = tide is null ? [] : [.. Enumerable.Range(0, (int)((to - from) / Step) + 1).Select(step => tide.AtMetres(from + (Step * step)) - (2 * tide.SpreadMetres))];
    }

    /// <summary>Draught, metres.</summary>
    public double DraughtMetres { get; }

    /// <summary>Water wanted under the keel, metres.</summary>
    public double RoomMetres { get; }

    /// <summary>The seabed below the barge; null where it is not known.</summary>
    public Func<double, SiteCoordinate, IReadOnlyCollection<string>, SeabedBelow?> Seabed { get; }

    /// <summary>True where the tide is known.</summary>
    public bool IsTideKnown { get; }

    /// <summary>Highest level taken in the time looked at, metres on the site's datum; null where the tide is not known.</summary>
    public double? HighestMetres => _levels.Length == 0 ? null : _levels.Max();

    /// <summary>Times in which the water stands at a level or above it; levels are taken up to the next centimetre.</summary>
    public OpenTimes Enough(double levelMetres) => _enough.GetOrAdd((int)Math.Ceiling((levelMetres * 100) - 1e-6), centimetres =>
    {
        List<Interval> spans = [];
        double need = centimetres / 100.0;
        for (int step = 0; step + 1 < _levels.Length; step++)
        {
            // A step counts where the water is high enough at both its ends; a tide does not fall and rise again within six minutes.
            if (_levels[step] >= need && _levels[step + 1] >= need) spans.Add(new Interval(_from + (Step * step), _from + (Step * (step + 1))));
        }

        return OpenTimes.Of(spans);
    });

    /// <summary>Lowest level taken between two moments, metres on the site's datum; null where the tide is not known there.</summary>
    public double? LowestMetres(Instant begins, Instant ends)
    {
        int first = (int)Math.Floor((begins - _from) / Step), last = (int)Math.Ceiling((ends - _from) / Step);
        return first < 0 || last >= _levels.Length ? null : _levels[first..(last + 1)].Min();
    }
}
