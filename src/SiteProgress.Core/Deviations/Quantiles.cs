namespace SiteProgress.Core.Deviations;

/// <summary>Sample quantiles without sorting: only as much order is made as the answer needs.</summary>
internal static class Quantiles
{
    /// <summary>The value below which a share of the values lies, between neighbours in proportion.</summary>
    /// <param name="values">Values, at least one; their order is changed.</param>
    /// <param name="shareRatio">The share, 0 to 1.</param>
    /// <remarks>Type 7 of Hyndman and Fan, Sample quantiles in statistical packages, The American Statistician 50 (1996) 4:
    /// position (n - 1) p counted from zero. Selection after Hoare, Algorithm 65: FIND, Communications of the ACM 4 (1961) 7.</remarks>
    public static double Of(Span<double> values, double shareRatio)
    {
        double position = (values.Length - 1) * shareRatio;
        int below = (int)Math.Floor(position);
        double lower = Select(values, below);
        if (below + 1 >= values.Length || position <= below) return lower;
        double upper = Least(values[(below + 1)..]);
        return lower + ((position - below) * (upper - lower));
    }

    /// <summary>The median.</summary>
    /// <param name="values">Values, at least one; their order is changed.</param>
    public static double Median(Span<double> values) => Of(values, 0.5);

    /// <summary>The value at a place of the ascending order; afterwards none before it is larger and none after it smaller.</summary>
    private static double Select(Span<double> values, int place)
    {
        int left = 0;
        int right = values.Length - 1;
        while (left < right)
        {
            double pivot = Middle(values[left], values[(left + right) >>> 1], values[right]);
            (int low, int high) = Part(values, left, right, pivot);
            if (place <= high) right = high;
            else if (place >= low) left = low;
            else return values[place];
        }

        return values[place];
    }

    private static (int Low, int High) Part(Span<double> values, int left, int right, double pivot)
    {
        int low = left;
        int high = right;
        while (low <= high)
        {
            while (values[low] < pivot) low++;
            while (values[high] > pivot) high--;
            if (low > high) break;
            (values[low], values[high]) = (values[high], values[low]);
            low++;
            high--;
        }

        return (low, high);
    }

    private static double Middle(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));

    private static double Least(ReadOnlySpan<double> values)
    {
        double least = double.PositiveInfinity;
        foreach (double value in values) least = Math.Min(least, value);
        return least;
    }
}
