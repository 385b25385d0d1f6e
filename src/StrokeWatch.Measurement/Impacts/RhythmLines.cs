using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>The half and third orders of a window, from its cycles' sums in six classes.</summary>
internal static class RhythmLines
{
    /// <summary>Classes into which cycles are told off in turn: enough for every second and every third.</summary>
    public const int Classes = 6;

    /// <summary>Gives the energy in the two strongest lines of what differs in a rhythm.</summary>
    public static double Strongest(ReadOnlySpan<double> sums, int bins, int period, int count)
    {
        double first = 0, second = 0;
        for (var k = 0; k < bins; k++)
        {
            var energy = 0.0;
            for (var sign = -1; sign <= (period == 2 ? -1 : 1); sign += 2)
            {
                double re = 0, im = 0;
                for (var c = 0; c < Classes; c++)
                {
                    var (cycleSin, cycleCos) = Math.SinCos(2 * Math.PI * sign * c / period);
                    var (sumRe, sumIm) = Line(sums.Slice(c * bins, bins), k + (sign / (double)period));
                    re += sumRe * cycleCos + sumIm * cycleSin;
                    im += sumIm * cycleCos - sumRe * cycleSin;
                }

                energy += (re * re + im * im) / (count * (double)bins);
            }

            (first, second) = energy > first ? (energy, first) : (first, Math.Max(second, energy));
        }

        return first + second;
    }

    private static (double Re, double Im) Line(ReadOnlySpan<double> sum, double order)
    {
        var (stepSin, stepCos) = Math.SinCos(-2 * Math.PI * order / sum.Length);
        double cos = 1, sin = 0, re = 0, im = 0;
        foreach (var value in sum)
        {
            re += value * cos;
            im += value * sin;
            (cos, sin) = (cos * stepCos - sin * stepSin, sin * stepCos + cos * stepSin);
        }

        return (re, im);
    }

    /// <summary>Gives the sum of the squares.</summary>
    public static double Square(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value * value;
        }

        return sum;
    }

    /// <summary>Gives the largest value without its sign.</summary>
    public static double Peak(ReadOnlySpan<double> values)
    {
        var (least, most) = Lanes.Extremes(values);
        return Math.Max(most, -least);
    }
}
