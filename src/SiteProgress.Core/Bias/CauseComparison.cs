using MathNet.Numerics.LinearAlgebra;
using static SiteProgress.Core.Bias.SmallMatrices;

namespace SiteProgress.Core.Bias;

/// <summary>Least squares over all causes at once, with an error shared by the casings of a set-up and one of each casing.</summary>
/// <remarks>
/// Mixed model y = Xb + set-up + casing: Laird and Ware, Random-effects models for longitudinal data, Biometrics 38 (1982) 963-974. Standard
/// errors and tests take each set-up as one observation, so they hold where the spreads are not as assumed: Liang and Zeger,
/// Longitudinal data analysis using generalized linear models, Biometrika 73 (1986) 13-22.
/// </remarks>
internal sealed class CauseComparison
{
    private readonly ReviewData data;
    private readonly CauseColumns effects;
    private readonly CauseColumn[] columns;
    private readonly int[] setUps;
    private readonly double lasting;
    private readonly Matrix<double> normal;
    private readonly Vector<double> right;
    private readonly double[] size;

    public CauseComparison(ReviewData data, CauseColumns effects, CauseColumn[] columns, int[] setUps, double lasting)
    {
        (this.data, this.effects, this.columns, this.lasting) = (data, effects, columns, lasting);
        int[] barges = columns.Where(column => column.NeedsHeading).Select(column => column.Barge).Distinct().ToArray();
        this.setUps = Array.FindAll(setUps, place => !barges.Contains(data.SetUps[place].Barge) || data.HasHeading(data.SetUps[place].First));
        normal = Matrix<double>.Build.Dense(columns.Length, columns.Length);
        right = Vector<double>.Build.Dense(columns.Length);
        Accumulate();
        size = normal.Diagonal().Select(value => value > 0 ? Math.Sqrt(value) : 1).ToArray();
        for (int row = 0; row < columns.Length; row++)
        {
            right[row] /= size[row];
            for (int column = 0; column < columns.Length; column++) normal[row, column] /= size[row] * size[column];
        }
    }

    /// <summary>How many set-ups it rests on.</summary>
    public int Count => setUps.Length;

    /// <summary>What one fit leaves for a fuller one to explain, metres: root mean square over the set-ups.</summary>
    public double RestMetres(Fit fit, Fit fuller)
    {
        (double own, double shared) = (data.OwnSpread * data.OwnSpread, data.SharedSpread * data.SharedSpread);
        double information = setUps.Sum(place => data.SetUps[place].Count / (own + (data.SetUps[place].Count * shared)));
        return information > 0 ? Math.Sqrt(Math.Max(0, fuller.Explained - fit.Explained) * lasting / information) : 0;
    }

    /// <summary>Fits some of the columns, and tests whether the others would explain more.</summary>
    public Fit FitOf(int[] own)
    {
        Matrix<double> inverse = Inverse(Part(normal, own, own), out int rank);
        Vector<double> values = inverse * Part(right, own);
        int[] rest = Enumerable.Range(0, columns.Length).Except(own).DefaultIfEmpty(own[0]).ToArray();
        Matrix<double> across = Part(normal, own, rest);
        Matrix<double> predicted = inverse * across;
        Matrix<double>? directions = Directions(Part(normal, rest, rest) - across.TransposeThisAndMultiply(predicted));
        (Matrix<double> ownScores, Matrix<double>? restScores) = Scores(own, values, rest, predicted, directions);
        double correction = lasting * Count / Math.Max(1.0, Count - rank);
        return new Fit(
            own,
            values,
            inverse * ownScores * inverse * correction,
            Part(right, own).DotProduct(values) / lasting,
            rank,
            ChanceOfRest(values, own, rest, across, directions, restScores),
            size);
    }

    private double ChanceOfRest(Vector<double> values, int[] own, int[] rest, Matrix<double> across, Matrix<double>? directions, Matrix<double>? scores)
    {
        if (directions is null || scores is null || Count <= directions.ColumnCount + own.Length + 1) return 1;
        Vector<double> score = directions.TransposeThisAndMultiply(Part(right, rest) - across.TransposeThisAndMultiply(values));
        Matrix<double> inverse = Inverse(scores, out int rank);
        double statistic = score.DotProduct(inverse * score) / lasting;
        int within = Count - rank - own.Length;
        return rank == 0 ? 1 : Hotelling.UpperTail(rank, within, statistic * within / (rank * (double)Count));
    }

    private void Accumulate()
    {
        int n = columns.Length;
        double[] sums = new double[n * n];
        double[] products = new double[n];
        ForEachAxis(null, (rows, count, shared, values) =>
        {
            double[] total = new double[n];
            double all = 0;
            for (int pile = 0; pile < count; pile++)
            {
                ReadOnlySpan<double> row = rows.AsSpan(pile * n, n);
                all += values[pile];
                for (int one = 0; one < n; one++)
                {
                    double value = row[one];
                    if (value == 0) continue;
                    total[one] += value;
                    products[one] += value * values[pile];
                    for (int other = 0; other <= one; other++) sums[(one * n) + other] += value * row[other];
                }
            }

            for (int one = 0; one < n; one++)
            {
                products[one] -= shared * total[one] * all;
                for (int other = 0; other <= one; other++) sums[(one * n) + other] -= shared * total[one] * total[other];
            }
        });
        double weight = 1 / (data.OwnSpread * data.OwnSpread);
        for (int one = 0; one < n; one++)
        {
            right[one] = products[one] * weight;
            for (int other = 0; other <= one; other++) normal[one, other] = normal[other, one] = sums[(one * n) + other] * weight;
        }
    }

    /// <summary>Sums over set-ups of the squares of each set-up's share in the normal equations, of the fitted columns and of the rest.</summary>
    private (Matrix<double> Own, Matrix<double>? Others) Scores(int[] own, Vector<double> values, int[] rest, Matrix<double> predicted, Matrix<double>? directions)
    {
        int n = columns.Length;
        double[] given = new double[n];
        for (int index = 0; index < own.Length; index++) given[own[index]] = values[index] / size[own[index]];
        Matrix<double> ofOwn = Matrix<double>.Build.Dense(own.Length, own.Length);
        Matrix<double>? ofRest = directions is null ? null : Matrix<double>.Build.Dense(directions.ColumnCount, directions.ColumnCount);
        double[] score = new double[n];
        double weight = 1 / (data.OwnSpread * data.OwnSpread);
        int axis = 0;
        ForEachAxis(given, (rows, count, shared, left) =>
        {
            double all = 0;
            for (int pile = 0; pile < count; pile++) all += left[pile];
            for (int pile = 0; pile < count; pile++)
            {
                double weighed = (left[pile] - (shared * all)) * weight;
                for (int one = 0; one < n; one++) score[one] += rows[(pile * n) + one] * weighed;
            }

            if (++axis % 2 != 0) return;
            Vector<double> mine = Vector<double>.Build.Dense(own.Length, index => score[own[index]] / size[own[index]]);
            ofOwn.Add(mine.OuterProduct(mine), ofOwn);
            if (directions is not null && ofRest is not null)
            {
                Vector<double> others = Vector<double>.Build.Dense(rest.Length, index => score[rest[index]] / size[rest[index]]);
                Vector<double> along = directions.TransposeThisAndMultiply(others - predicted.TransposeThisAndMultiply(mine));
                ofRest.Add(along.OuterProduct(along), ofRest);
            }

            Array.Clear(score);
        });
        return (ofOwn, ofRest);
    }

    /// <summary>Calls back for east and for north of each set-up: rows of the columns, how many piles, the share they have in common, what is left.</summary>
    private void ForEachAxis(double[]? taken, Action<double[], int, double, double[]> use)
    {
        int n = columns.Length;
        int most = setUps.Length == 0 ? 0 : setUps.Max(place => data.SetUps[place].Count);
        (double[] east, double[] north) = (new double[most * n], new double[most * n]);
        (double[] leftEast, double[] leftNorth) = (new double[most], new double[most]);
        (double own, double together) = (data.OwnSpread * data.OwnSpread, data.SharedSpread * data.SharedSpread);
        foreach (int place in setUps)
        {
            SetUpSpan setUp = data.SetUps[place];
            for (int index = 0; index < setUp.Count; index++)
            {
                int pile = setUp.First + index;
                (leftEast[index], leftNorth[index]) = (data.East[pile], data.North[pile]);
                for (int column = 0; column < n; column++)
                {
                    (double e, double s) = effects.Of(columns[column], pile, setUp.Barge);
                    (east[(index * n) + column], north[(index * n) + column]) = (e, s);
                    if (taken is null || taken[column] == 0) continue;
                    (leftEast[index], leftNorth[index]) = (leftEast[index] - (taken[column] * e), leftNorth[index] - (taken[column] * s));
                }
            }

            double shared = together / (own + (setUp.Count * together));
            use(east, setUp.Count, shared, leftEast);
            use(north, setUp.Count, shared, leftNorth);
        }
    }
}
