namespace SiteProgress.Core.Ground;

/// <summary>N after improvement as it may be expected of sandy ground, with every step.</summary>
/// <param name="LargestVoidRatio">e_max by fines.</param>
/// <param name="SmallestVoidRatio">e_min by fines.</param>
/// <param name="DensityBeforePercent">Relative density before, percent.</param>
/// <param name="VoidRatioBefore">e before.</param>
/// <param name="VoidRatioAfter">e after: the sand takes the room of voids.</param>
/// <param name="DensityAfterPercent">Relative density after, percent.</param>
/// <param name="CleanBlows">N after, as in clean sand.</param>
/// <param name="FinesFactor">What fines leave of the gain, at most 1.</param>
/// <param name="Blows">N after.</param>
public sealed record ExpectedBlows(
    double LargestVoidRatio, double SmallestVoidRatio, double DensityBeforePercent, double VoidRatioBefore, double VoidRatioAfter, double DensityAfterPercent,
    double CleanBlows, double FinesFactor, double Blows)
{
    /// <summary>True where the relative density after would be above 100 %: the ground cannot take that much, and N is not to be relied on.</summary>
    public bool IsDenserThanCanBe => DensityAfterPercent > 100;

    /// <summary>
    /// Expects N by the void-ratio method with the reduction for fines, known as method C: e_max = 0.02 Fc + 1.0, e_min = 0.008 Fc + 0.6,
    /// Dr = 21 sqrt(N / (0.7 + σ'v / 98)), e after = e before - a_s (1 + e before), and of the gain the share 1.05 - 0.51 log10 Fc.
    /// (After Kitazume, The Sand Compaction Pile Method, 2005, chapter 3; from memory.)
    /// </summary>
    /// <param name="blowsBefore">N before, at least 0.</param>
    /// <param name="effectiveStressKilopascals">Effective vertical stress σ'v at the test, kPa, at least 0.</param>
    /// <param name="finesPercent">Fines below 75 µm, percent, above 0 to 100.</param>
    /// <param name="replacementRatio">Replacement ratio a_s, 0 to below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is beyond these.</exception>
    public static ExpectedBlows Of(double blowsBefore, double effectiveStressKilopascals, double finesPercent, double replacementRatio)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(blowsBefore);
        ArgumentOutOfRangeException.ThrowIfNegative(effectiveStressKilopascals);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(finesPercent);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(finesPercent, 100);
        ArgumentOutOfRangeException.ThrowIfNegative(replacementRatio);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(replacementRatio, 1);
        double largest = (0.02 * finesPercent) + 1.0, smallest = (0.008 * finesPercent) + 0.6, range = largest - smallest;
        double stress = 0.7 + (effectiveStressKilopascals / 98);
        double densityBefore = 21 * Math.Sqrt(blowsBefore / stress);
        double voidsBefore = largest - (densityBefore / 100 * range);
        double voidsAfter = voidsBefore - (replacementRatio * (1 + voidsBefore));
        double densityAfter = (largest - voidsAfter) / range * 100;
        double clean = densityAfter / 21 * (densityAfter / 21) * stress;
        double factor = Math.Clamp(1.05 - (0.51 * Math.Log10(finesPercent)), 0, 1);
        return new ExpectedBlows(largest, smallest, densityBefore, voidsBefore, voidsAfter, densityAfter, clean, factor, blowsBefore + (factor * (clean - blowsBefore)));
    }
}
