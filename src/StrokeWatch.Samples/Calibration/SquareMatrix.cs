namespace StrokeWatch.Samples.Calibration;

/// <summary>Three by three numbers, row by row.</summary>
public static class SquareMatrix
{
    /// <summary>Gives the inverse by cofactors; null where the determinant is too small against the rows to tell it from 0.</summary>
    public static double[]? Inverse(IReadOnlyList<double> m)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(m.Count, 9, nameof(m));
        double[] cofactors =
        [
            m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
            m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
            m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3],
        ];
        var determinant = m[0] * cofactors[0] + m[1] * cofactors[3] + m[2] * cofactors[6];
        var size = Row(m, 0) * Row(m, 3) * Row(m, 6);
        return double.IsFinite(determinant) && Math.Abs(determinant) > 1e-9 * size && size > 0
            ? Array.ConvertAll(cofactors, value => value / determinant)
            : null;
    }

    private static double Row(IReadOnlyList<double> m, int at) => Math.Sqrt(m[at] * m[at] + m[at + 1] * m[at + 1] + m[at + 2] * m[at + 2]);
}
