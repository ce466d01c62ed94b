using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>A place of the pattern that lies inside.</summary>
/// <param name="Row">Row, counted from the row of the origin across the rows.</param>
/// <param name="Column">Column, counted from the origin along the row.</param>
/// <param name="Position">Site grid.</param>
internal readonly record struct GridPlace(int Row, int Column, SiteCoordinate Position);

/// <summary>
/// Finds the places of a pattern inside an outline, row by row. Coordinates are turned so that rows run along the first of them; of each
/// row, places come from the stretches inside and those along the boundary, and each is then decided by its distance to the boundary.
/// </summary>
internal sealed class LayoutGrid
{
    private readonly (double AlongA, double AcrossA, double AlongB, double AcrossB)[] sides;
    private readonly LayoutInputs inputs;
    private readonly double spacing, rowSpacing, cosine, sine;

    /// <param name="polygon">The outline.</param>
    /// <param name="inputs">Origin, direction, edge distance, pattern.</param>
    /// <param name="spacing">Spacing along the row, metres.</param>
    /// <param name="rowSpacing">From row to row, metres.</param>
    public LayoutGrid(SitePolygon polygon, LayoutInputs inputs, double spacing, double rowSpacing)
    {
        (this.inputs, this.spacing, this.rowSpacing) = (inputs, spacing, rowSpacing);
        (sine, cosine) = Turn(inputs.RotationDegrees);
        sides = [.. polygon.Rings.SelectMany(ring => ring.Select((corner, index) => Side(corner, ring[(index + 1) % ring.Count])))];
        double low = sides.Min(side => side.AcrossA);
        double high = sides.Max(side => side.AcrossA);
        FirstRow = (long)Math.Ceiling((low - SitePolygon.OnBoundaryMetres) / rowSpacing);
        LastRow = (long)Math.Floor((high + SitePolygon.OnBoundaryMetres) / rowSpacing);
    }

    /// <summary>The first row that may hold a place.</summary>
    public long FirstRow { get; }

    /// <summary>The last row that may.</summary>
    public long LastRow { get; }

    /// <summary>The places inside, row by row, along each row.</summary>
    public IEnumerable<GridPlace> Places()
    {
        List<(double From, double To)> stretches = [];
        List<double> crossings = [];
        List<int> near = [];
        for (long row = FirstRow; row <= LastRow; row++)
        {
            double across = row * rowSpacing;
            double shift = inputs.Pattern == Piles.Pattern.Triangular && (row & 1) == 1 ? spacing / 2 : 0;
            Look(across, crossings, stretches, near);
            long next = long.MinValue;
            foreach ((double from, double to) in stretches)
            {
                long last = (long)Math.Floor((to - shift) / spacing);
                for (long column = Math.Max(next, (long)Math.Ceiling((from - shift) / spacing)); column <= last; column++)
                {
                    next = column + 1;
                    double along = (column * spacing) + shift;
                    if (IsInside(along, across, crossings, near)) yield return new GridPlace((int)row, (int)column, At(along, across));
                }
            }
        }
    }

    /// <summary>Sine and cosine, exact where the rows run along an axis.</summary>
    private static (double Sine, double Cosine) Turn(double degrees)
    {
        double turn = degrees % 360;
        return (turn < 0 ? turn + 360 : turn) switch
        {
            0 => (0, 1),
            90 => (1, 0),
            180 => (0, -1),
            270 => (-1, 0),
            _ => Math.SinCos(degrees * Math.PI / 180),
        };
    }

    private SiteCoordinate At(double along, double across)
        => new(inputs.Origin.XMetres + (along * cosine) - (across * sine), inputs.Origin.YMetres + (along * sine) + (across * cosine));

    private (double, double, double, double) Side(SiteCoordinate from, SiteCoordinate to)
    {
        (double alongA, double acrossA) = Turned(from);
        (double alongB, double acrossB) = Turned(to);
        return (alongA, acrossA, alongB, acrossB);
    }

    private (double Along, double Across) Turned(SiteCoordinate at)
    {
        (double x, double y) = (at.XMetres - inputs.Origin.XMetres, at.YMetres - inputs.Origin.YMetres);
        return ((x * cosine) + (y * sine), (y * cosine) - (x * sine));
    }

    /// <summary>Of one row: where it crosses the boundary, the stretches that may hold places, and the sides near enough to matter.</summary>
    private void Look(double across, List<double> crossings, List<(double From, double To)> stretches, List<int> near)
    {
        crossings.Clear();
        stretches.Clear();
        near.Clear();
        double slack = SitePolygon.OnBoundaryMetres;
        double reach = inputs.EdgeMetres + slack;
        for (int index = 0; index < sides.Length; index++)
        {
            (double alongA, double acrossA, double alongB, double acrossB) = sides[index];
            (double least, double most) = acrossA < acrossB ? (acrossA, acrossB) : (acrossB, acrossA);
            if (least > across + reach || most < across - reach) continue;
            near.Add(index);
            if (acrossA > across != acrossB > across) crossings.Add(alongA + ((across - acrossA) / (acrossB - acrossA) * (alongB - alongA)));
            if (least <= across + slack && most >= across - slack) stretches.Add(AlongRow(sides[index], across, slack));
        }

        crossings.Sort();
        for (int index = 0; index + 1 < crossings.Count; index += 2) stretches.Add((crossings[index] - slack, crossings[index + 1] + slack));
        stretches.Sort();
    }

    /// <summary>The part of a side that lies within the slack of a row.</summary>
    private static (double From, double To) AlongRow((double AlongA, double AcrossA, double AlongB, double AcrossB) side, double across, double slack)
    {
        double rise = side.AcrossB - side.AcrossA;
        (double one, double other) = rise == 0 ? (0, 1)
            : (Math.Clamp((across - slack - side.AcrossA) / rise, 0, 1), Math.Clamp((across + slack - side.AcrossA) / rise, 0, 1));
        (double from, double to) = (side.AlongA + (one * (side.AlongB - side.AlongA)), side.AlongA + (other * (side.AlongB - side.AlongA)));
        return (Math.Min(from, to) - slack, Math.Max(from, to) + slack);
    }

    private bool IsInside(double along, double across, List<double> crossings, List<int> near)
    {
        int before = crossings.BinarySearch(along);
        bool inside = ((before < 0 ? ~before : before) & 1) == 1;
        double nearest = double.PositiveInfinity;
        SiteCoordinate at = new(along, across);
        foreach (int index in near)
        {
            (double alongA, double acrossA, double alongB, double acrossB) = sides[index];
            nearest = Math.Min(nearest, SitePolygon.ToSide(at, new SiteCoordinate(alongA, acrossA), new SiteCoordinate(alongB, acrossB)));
        }

        return (inside ? nearest : -nearest) >= inputs.EdgeMetres - SitePolygon.OnBoundaryMetres;
    }
}
