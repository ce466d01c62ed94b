namespace SiteProgress.Storage.Derived;

/// <summary>Findings under treatment.</summary>
public sealed class NonConformanceRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Number, counted on the site.</summary>
    public int Number { get; set; }

    /// <summary>How far it is, the number of <see cref="Core.Treatment.Stage"/>.</summary>
    public short Stage { get; set; }

    /// <summary>Disposition in force, the number of <see cref="Core.Piles.Disposition"/>.</summary>
    public short? Disposition { get; set; }

    /// <summary>Piles it speaks of.</summary>
    public required string[] Piles { get; set; }

    /// <summary>Day by which it is to be closed.</summary>
    public DateOnly? DueOn { get; set; }

    /// <summary>Who made the proposal in force.</summary>
    public string? ProposedBy { get; set; }

    /// <summary>All of it, as JSON of <see cref="Core.Treatment.NonConformance"/>.</summary>
    public required string Detail { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>Piles submitted together.</summary>
public sealed class LotRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Number, counted on the site.</summary>
    public int Number { get; set; }

    /// <summary>How far it is, the number of <see cref="Core.Treatment.LotStage"/>.</summary>
    public short Stage { get; set; }

    /// <summary>Number of its piles.</summary>
    public int Piles { get; set; }

    /// <summary>Who submitted it.</summary>
    public required string SubmittedBy { get; set; }

    /// <summary>All of it, as JSON of <see cref="Core.Treatment.Lot"/>.</summary>
    public required string Detail { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>A point at which work waits.</summary>
public sealed class HoldPointRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Number, counted on the site.</summary>
    public int Number { get; set; }

    /// <summary>True while work waits for it.</summary>
    public bool Waits { get; set; }

    /// <summary>How many piles wait for it.</summary>
    public int PilesWaiting { get; set; }

    /// <summary>All of it, as JSON of <see cref="Core.Treatment.HoldPoint"/>.</summary>
    public required string Detail { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}
