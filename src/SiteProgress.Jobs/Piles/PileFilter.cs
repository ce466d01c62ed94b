using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Piles;

/// <summary>Which piles a list holds. An empty list of words means: any.</summary>
public sealed record PileFilter
{
    /// <summary>All piles.</summary>
    public static PileFilter All { get; } = new();

    /// <summary>Part of the pile number, in any case.</summary>
    public string? Number { get; init; }

    /// <summary>Zones.</summary>
    public IReadOnlyList<string> Zones { get; init; } = [];

    /// <summary>States.</summary>
    public IReadOnlyList<PileState> States { get; init; } = [];

    /// <summary>Barges that completed the pile.</summary>
    public IReadOnlyList<string> Barges { get; init; } = [];

    /// <summary>Working day of completion.</summary>
    public LocalDate? Day { get; init; }

    /// <summary>A check that is not met.</summary>
    public CheckName? Finding { get; init; }

    /// <summary>A lot the pile waits or was accepted in.</summary>
    public int? Lot { get; init; }

    /// <summary>A hold point the pile waits for.</summary>
    public int? HeldBy { get; init; }

    /// <summary>True for built piles whose design was changed afterwards, and of which nothing is decided.</summary>
    public bool DesignChanged { get; init; }

    /// <summary>True for piles whose acceptance no longer holds.</summary>
    public bool Reopened { get; init; }
}

/// <summary>What a list of piles can be ordered by.</summary>
public enum PileOrder
{
    /// <summary>Pile number.</summary>
    Number,

    /// <summary>Zone, then number.</summary>
    Zone,

    /// <summary>State in the order of the legend.</summary>
    State,

    /// <summary>When the casing left the pile.</summary>
    Built,

    /// <summary>Barge and casing.</summary>
    Barge,

    /// <summary>Radial deviation.</summary>
    Radial,

    /// <summary>dE.</summary>
    East,

    /// <summary>dN.</summary>
    North,

    /// <summary>As-built top level.</summary>
    Top,

    /// <summary>As-built tip level.</summary>
    Tip,

    /// <summary>As-built length.</summary>
    Length,

    /// <summary>Sand in the pile.</summary>
    Sand,
}
