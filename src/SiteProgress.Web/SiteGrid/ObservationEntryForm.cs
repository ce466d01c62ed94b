using Microsoft.AspNetCore.Http;

namespace SiteProgress.Web.SiteGrid;

/// <summary>An observation of a control point as the form sends it; also the withdrawal of one.</summary>
public sealed class ObservationEntryForm
{
    /// <summary>Name of the mark.</summary>
    public string? Mark { get; set; }

    /// <summary>Frame, as in addresses.</summary>
    public string? Frame { get; set; }

    /// <summary>Easting or latitude.</summary>
    public string? First { get; set; }

    /// <summary>Northing or longitude.</summary>
    public string? Second { get; set; }

    /// <summary>Standard deviation of one coordinate, metres.</summary>
    public string? Deviation { get; set; }

    /// <summary>The day.</summary>
    public string? Day { get; set; }

    /// <summary>How it was observed.</summary>
    public string? Method { get; set; }

    /// <summary>Several observations as a table.</summary>
    public string? List { get; set; }

    /// <summary>A file that takes the place of the table.</summary>
    public IFormFile? File { get; set; }

    /// <summary>Sequence of the observation to be withdrawn.</summary>
    public string? Observation { get; set; }

    /// <summary>Why it is withdrawn.</summary>
    public string? Reason { get; set; }
}
