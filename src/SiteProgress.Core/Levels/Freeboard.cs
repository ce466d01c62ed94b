namespace SiteProgress.Core.Levels;

/// <summary>
/// How a floating barge lies: its draught at the reference point, its list and its trim. The hull is taken as rigid.
/// </summary>
/// <param name="DraughtMetres">Keel below the water at the reference point, metres.</param>
/// <param name="ListDegrees">List, degrees, positive with starboard down.</param>
/// <param name="TrimDegrees">Trim, degrees, positive with the bow down.</param>
public readonly record struct Attitude(double DraughtMetres, double ListDegrees, double TrimDegrees)
{
    /// <summary>
    /// Draught at the reference point and trim from a fore and an aft reading, each with its mark's zero added: the keel is a
    /// straight line between the marks. (Geometry; common practice with draught marks, no source.)
    /// </summary>
    /// <param name="foreDraughtMetres">Fore draught, zero added, metres.</param>
    /// <param name="foreMarkMetres">Fore mark forward of the reference point, metres.</param>
    /// <param name="aftDraughtMetres">Aft draught, zero added, metres.</param>
    /// <param name="aftMarkMetres">Aft mark forward of the reference point, metres; negative where it lies aft.</param>
    /// <param name="listDegrees">List as stated, degrees, positive with starboard down.</param>
    /// <exception cref="ArgumentException">The marks stand at one place.</exception>
    public static Attitude FromMarks(
        double foreDraughtMetres, double foreMarkMetres, double aftDraughtMetres, double aftMarkMetres, double listDegrees)
    {
        double apart = foreMarkMetres - aftMarkMetres;
        if (apart == 0) throw new ArgumentException("The fore and the aft draught mark stand at one place.", nameof(foreMarkMetres));
        double slope = (foreDraughtMetres - aftDraughtMetres) / apart;
        return new Attitude(aftDraughtMetres - (slope * aftMarkMetres), listDegrees, Math.Atan(slope) * 180 / Math.PI);
    }
}

/// <summary>Height of the deck above the water at a casing.</summary>
public static class Freeboard
{
    /// <summary>
    /// Deck above keel less draught, less what list and trim lower the deck at the casing: x sin(trim) + y sin(list) cos(trim) for
    /// a casing x forward and y to starboard of the reference point. (Rotation of a rigid deck about the reference point, trim
    /// after list; worked from geometry.)
    /// </summary>
    /// <param name="deckAboveKeelMetres">Deck above the keel at the reference point, metres.</param>
    /// <param name="attitude">How the barge lies.</param>
    /// <param name="forwardMetres">Casing forward of the reference point, metres.</param>
    /// <param name="starboardMetres">Casing to starboard of the reference point, metres.</param>
    /// <returns>Freeboard at the casing, metres; negative where the deck is under water.</returns>
    public static double AtCasingMetres(double deckAboveKeelMetres, Attitude attitude, double forwardMetres, double starboardMetres)
    {
        double trim = attitude.TrimDegrees * Math.PI / 180, list = attitude.ListDegrees * Math.PI / 180;
        return deckAboveKeelMetres - attitude.DraughtMetres
            - (forwardMetres * Math.Sin(trim)) - (starboardMetres * Math.Sin(list) * Math.Cos(trim));
    }
}
