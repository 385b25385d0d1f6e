namespace StrokeWatch.Measurement.CoastDown;

/// <summary>Minimises a function of a few variables without derivatives. Source: Nelder and Mead, The Computer Journal 7 (1965) 308-313.</summary>
internal static class Simplex
{
    private const int MostEvaluations = 600;

    /// <summary>Moves a point to the nearest minimum and gives the value there.</summary>
    /// <param name="function">The function; infinite where it is not defined.</param>
    /// <param name="point">The start, and on return the minimum.</param>
    /// <param name="steps">How far from the start to look first, one a variable.</param>
    public static double Minimise(Func<ReadOnlySpan<double>, double> function, Span<double> point, ReadOnlySpan<double> steps)
    {
        var size = point.Length;
        var corners = new double[size + 1][];
        var values = new double[size + 1];
        for (var i = 0; i <= size; i++)
        {
            corners[i] = point.ToArray();
            corners[i][Math.Max(0, i - 1)] += i == 0 ? 0 : steps[i - 1];
            values[i] = function(corners[i]);
        }

        double[] centre = new double[size], trial = new double[size], further = new double[size];
        for (var count = size + 1; count < MostEvaluations;)
        {
            Array.Sort(values, corners);
            if (Small(corners, steps))
            {
                break;
            }

            Array.Clear(centre);
            for (var i = 0; i < size; i++)
            {
                for (var k = 0; k < size; k++)
                {
                    centre[k] += corners[i][k] / size;
                }
            }

            var reflected = Along(function, centre, corners[size], 1, trial);
            count++;
            if (reflected < values[0])
            {
                count++;
                var expanded = Along(function, centre, corners[size], 2, further);
                Replace(corners[size], expanded < reflected ? further : trial);
                values[size] = Math.Min(expanded, reflected);
                continue;
            }

            if (reflected < values[size - 1])
            {
                Replace(corners[size], trial);
                values[size] = reflected;
                continue;
            }

            count++;
            var inside = reflected >= values[size];
            var contracted = Along(function, centre, corners[size], inside ? -0.5 : 0.5, further);
            if (contracted < Math.Min(reflected, values[size]))
            {
                Replace(corners[size], further);
                values[size] = contracted;
                continue;
            }

            for (var i = 1; i <= size; i++)
            {
                for (var k = 0; k < size; k++)
                {
                    corners[i][k] = 0.5 * (corners[0][k] + corners[i][k]);
                }

                values[i] = function(corners[i]);
                count++;
            }
        }

        Array.Sort(values, corners);
        corners[0].CopyTo(point);
        return values[0];
    }

    private static bool Small(double[][] corners, ReadOnlySpan<double> steps)
    {
        for (var k = 0; k < steps.Length; k++)
        {
            for (var i = 1; i < corners.Length; i++)
            {
                if (Math.Abs(corners[i][k] - corners[0][k]) > 1e-4 * Math.Abs(steps[k]))
                {
                    return false;
                }
            }
        }

        return true;
    }

    private static double Along(Func<ReadOnlySpan<double>, double> function, double[] centre, double[] worst, double factor, double[] trial)
    {
        for (var k = 0; k < trial.Length; k++)
        {
            trial[k] = centre[k] + factor * (centre[k] - worst[k]);
        }

        return function(trial);
    }

    private static void Replace(double[] corner, double[] by) => by.CopyTo(corner, 0);
}
