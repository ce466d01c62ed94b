using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using SiteProgress.Core.Piles;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.Piles;

/// <summary>Filter, order and columns of a list of piles, as the store understands them.</summary>
internal static class PileRows
{
    /// <summary>The piles a filter leaves.</summary>
    public static IQueryable<PileRow> Where(this IQueryable<PileRow> piles, PileFilter filter)
    {
        if (!string.IsNullOrWhiteSpace(filter.Number))
        {
            string part = "%" + filter.Number.Trim().Replace("\\", "\\\\", StringComparison.Ordinal)
                .Replace("%", "\\%", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal) + "%";
            piles = piles.Where(pile => EF.Functions.ILike(pile.Number, part, "\\"));
        }

        if (filter.Zones.Count > 0)
        {
            string[] zones = [.. filter.Zones];
            piles = piles.Where(pile => zones.Contains(pile.Zone));
        }

        if (filter.States.Count > 0)
        {
            short[] states = [.. filter.States.Select(state => (short)state)];
            piles = piles.Where(pile => states.Contains(pile.State));
        }

        if (filter.Barges.Count > 0)
        {
            string?[] barges = [.. filter.Barges];
            piles = piles.Where(pile => barges.Contains(pile.Barge));
        }

        if (filter.Day is { } day)
        {
            DateOnly on = day.ToDateOnly();
            piles = piles.Where(pile => pile.WorkingDay == on);
        }

        if (filter.Finding is { } finding)
        {
            string word = $" {finding} ";
            piles = piles.Where(pile => (" " + pile.Findings + " ").Contains(word));
        }

        if (filter.Lot is { } lot) piles = piles.Where(pile => pile.Lot == lot);
        if (filter.HeldBy is { } hold) piles = piles.Where(pile => pile.HeldBy == hold);
        if (filter.DesignChanged) piles = piles.Where(pile => pile.DesignChangeOpen);
        return filter.Reopened ? piles.Where(pile => pile.Reopened != null) : piles;
    }

    /// <summary>The piles in order; those without the number asked for come last either way.</summary>
    public static IQueryable<PileRow> InOrder(this IQueryable<PileRow> piles, PileOrder order, bool descending) => order switch
    {
        PileOrder.Zone => By(piles, pile => pile.Zone, descending),
        PileOrder.State => By(piles, pile => pile.State, descending),
        PileOrder.Built => By(piles.OrderBy(pile => pile.EndedAt == null), pile => pile.EndedAt, descending),
        PileOrder.Barge => By(piles.OrderBy(pile => pile.Barge == null), pile => pile.Barge + " " + pile.Casing, descending),
        PileOrder.Radial => By(piles.OrderBy(pile => pile.DeviationRadial == null), pile => pile.DeviationRadial, descending),
        PileOrder.East => By(piles.OrderBy(pile => pile.DeviationEast == null), pile => pile.DeviationEast, descending),
        PileOrder.North => By(piles.OrderBy(pile => pile.DeviationNorth == null), pile => pile.DeviationNorth, descending),
        PileOrder.Top => By(piles.OrderBy(pile => pile.AsBuiltTop == null), pile => pile.AsBuiltTop, descending),
        PileOrder.Tip => By(piles.OrderBy(pile => pile.AsBuiltTip == null), pile => pile.AsBuiltTip, descending),
        PileOrder.Length => By(piles.OrderBy(pile => pile.Length == null), pile => pile.Length, descending),
        PileOrder.Sand => By(piles.OrderBy(pile => pile.SandInPile == null), pile => pile.SandInPile, descending),
        _ => descending ? piles.OrderByDescending(pile => pile.Number) : piles.OrderBy(pile => pile.Number),
    };

    /// <summary>The columns of a line; the checks with their numbers stay in the store.</summary>
    public static IQueryable<PileLine> AsLines(this IQueryable<PileRow> piles) => piles.Select(pile => new PileLine
    {
        Number = pile.Number,
        Zone = pile.Zone,
        State = (PileState)pile.State,
        DesignXMetres = pile.DesignX,
        DesignYMetres = pile.DesignY,
        DesignDiameterMetres = pile.DesignDiameter,
        DesignTopLevelMetres = pile.DesignTop,
        DesignTipLevelMetres = pile.DesignTip,
        AsBuiltXMetres = pile.AsBuiltX,
        AsBuiltYMetres = pile.AsBuiltY,
        DeviationEastMetres = pile.DeviationEast,
        DeviationNorthMetres = pile.DeviationNorth,
        DeviationRadialMetres = pile.DeviationRadial,
        RadialLimitMetres = pile.RadialLimit,
        UncertaintyMetres = pile.Uncertainty,
        Comparable = pile.Comparable,
        AlongLimitMetres = pile.AlongLimit,
        AcrossLimitMetres = pile.AcrossLimit,
        BeyondAlert = pile.BeyondAlert,
        Alerts = Words(pile.Alerts),
        AsBuiltTopLevelMetres = pile.AsBuiltTop,
        AsBuiltTipLevelMetres = pile.AsBuiltTip,
        LengthMetres = pile.Length,
        SandInCasingCubicMetres = pile.SandInCasing,
        SandInPileCubicMetres = pile.SandInPile,
        SandDesignCubicMetres = pile.SandDesign,
        MeanDiameterMetres = pile.MeanDiameter,
        WorkingDay = pile.WorkingDay,
        Shift = pile.Shift,
        EndedAt = pile.EndedAt,
        Barge = pile.Barge,
        Casing = pile.Casing,
        SetUp = pile.SetUp,
        DesignChange = pile.DesignChange,
        DesignChangeOpen = pile.DesignChangeOpen,
        TakenOutByRevision = pile.TakenOutBy,
        NonConformance = pile.NonConformance,
        Lot = pile.Lot,
        HeldBy = pile.HeldBy,
        Reopened = pile.Reopened,
        ReplacedBy = pile.ReplacedBy,
        Attempts = pile.Attempts,
        Findings = Words(pile.Findings),
        NotJudged = Words(pile.NotJudged),
    });

    private static string[] Words(string words) => words.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static IOrderedQueryable<PileRow> By<TKey>(IQueryable<PileRow> piles, Expression<Func<PileRow, TKey>> key, bool descending)
        => (descending ? piles.OrderByDescending(key) : piles.OrderBy(key)).ThenBy(pile => pile.Number);

    private static IOrderedQueryable<PileRow> By<TKey>(IOrderedQueryable<PileRow> knownFirst, Expression<Func<PileRow, TKey>> key, bool descending)
        => (descending ? knownFirst.ThenByDescending(key) : knownFirst.ThenBy(key)).ThenBy(pile => pile.Number);
}
