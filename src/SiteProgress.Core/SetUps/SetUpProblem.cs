using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.SetUps;

/// <summary>An outstanding pile a barge may build.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Position">Design position, site grid.</param>
/// <param name="Zone">Code of its zone; empty where it does not matter.</param>
public sealed record OpenPile(string Number, SiteCoordinate Position, string Zone = "");

/// <summary>Piles to be built by one barge, and how its casings stand.</summary>
/// <param name="Piles">Outstanding piles; a pile that stands is not among them, so no casing ever re-enters it.</param>
/// <param name="Casings">Casings of the barge with their offsets.</param>
/// <param name="HeadingsDegrees">Headings allowed, degrees clockwise from the second axis of the site grid.</param>
/// <param name="FitMetres">How far a casing may stand from a design position and still build it, metres.</param>
public sealed record SetUpProblem(
    IReadOnlyList<OpenPile> Piles, IReadOnlyList<Casing> Casings, IReadOnlyList<double> HeadingsDegrees, double FitMetres);

/// <summary>One barge position: which casing builds which pile. Casings that are not named stay raised.</summary>
/// <param name="HeadingDegrees">Heading, degrees clockwise from the second axis of the site grid.</param>
/// <param name="Reference">The barge's reference point, site grid.</param>
/// <param name="Builds">Casing numbers with the place of the pile in the problem.</param>
public sealed record SetUpCandidate(double HeadingDegrees, SiteCoordinate Reference, IReadOnlyList<CasingOverPile> Builds);

/// <summary>A casing over a pile.</summary>
/// <param name="Casing">Number of the casing.</param>
/// <param name="Pile">Place of the pile in the problem.</param>
public readonly record struct CasingOverPile(int Casing, int Pile);
