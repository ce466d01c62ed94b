using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace SiteProgress.Core.Bias;

/// <summary>What the comparison of causes needs of matrices of a dozen rows.</summary>
internal static class SmallMatrices
{
    /// <summary>Directions whose information is a smaller share of the largest than this are taken for rounding.</summary>
    private const double Nothing = 1e-8;

    /// <summary>Some rows and columns of a matrix.</summary>
    public static Matrix<double> Part(Matrix<double> whole, int[] rows, int[] columns)
        => Matrix<double>.Build.Dense(rows.Length, columns.Length, (row, column) => whole[rows[row], columns[column]]);

    /// <summary>Some components of a vector.</summary>
    public static Vector<double> Part(Vector<double> whole, int[] places) => Vector<double>.Build.Dense(places.Length, index => whole[places[index]]);

    /// <summary>Inverse of a symmetric matrix; directions without information are left out (pseudo-inverse).</summary>
    public static Matrix<double> Inverse(Matrix<double> symmetric, out int rank)
    {
        (Vector<double> values, Matrix<double> vectors) = Parts(symmetric);
        double least = Nothing * Math.Max(values.Maximum(), double.Epsilon);
        rank = values.Count(value => value > least);
        return vectors * Matrix<double>.Build.DenseDiagonal(values.Count, values.Count, index => values[index] > least ? 1 / values[index] : 0) * vectors.Transpose();
    }

    /// <summary>Directions in which a matrix of the information left (scaled to 1 for each column alone) has any; null when there is none.</summary>
    public static Matrix<double>? Directions(Matrix<double> left)
    {
        (Vector<double> values, Matrix<double> vectors) = Parts(left);
        int[] kept = Enumerable.Range(0, values.Count).Where(index => values[index] > Nothing).ToArray();
        return kept.Length == 0 ? null : Matrix<double>.Build.Dense(values.Count, kept.Length, (row, column) => vectors[row, kept[column]]);
    }

    private static (Vector<double> Values, Matrix<double> Vectors) Parts(Matrix<double> matrix)
    {
        Evd<double> parts = ((matrix + matrix.Transpose()) / 2).Evd(Symmetricity.Symmetric);
        return (parts.EigenValues.Real(), parts.EigenVectors);
    }
}

/// <summary>One cause fitted alone.</summary>
/// <param name="Own">Places of its columns.</param>
/// <param name="Scaled">Its numbers times <paramref name="Size"/>.</param>
/// <param name="ScaledCovariance">Their covariance.</param>
/// <param name="Explained">How much of the sum of squares it explains, in units of the error.</param>
/// <param name="Rank">How many of its numbers the data tell apart.</param>
/// <param name="ChanceOfRest">Chance that so much is left for the other columns.</param>
/// <param name="Size">Scale of every column.</param>
internal sealed record Fit(
    int[] Own, Vector<double> Scaled, Matrix<double> ScaledCovariance, double Explained, int Rank, double ChanceOfRest, double[] Size)
{
    /// <summary>True when the data tell all its numbers apart.</summary>
    public bool IsDetermined => Rank == Own.Length;

    public double Value(int index) => Scaled[index] / Size[Own[index]];

    public double StandardError(int index) => Math.Sqrt(Math.Max(0, ScaledCovariance[index, index])) / Size[Own[index]];

    public double Covariance(int one, int other) => ScaledCovariance[one, other] / (Size[Own[one]] * Size[Own[other]]);
}
