using MathNet.Numerics.RootFinding;

namespace StrokeWatch.Assessment.Trends;

/// <summary>Finds the limit of a chart that gives a stated run length.</summary>
internal static class RunLengthRoot
{
    /// <summary>Solves for the limit; the logarithm of the run length is all but a straight line in it, and rises with it.</summary>
    /// <param name="runLength">The run length wanted, above 1.</param>
    /// <param name="guess">A limit near the solution.</param>
    /// <param name="most">The largest limit to be tried.</param>
    /// <param name="lengthAt">The run length at a limit.</param>
    /// <exception cref="ArgumentOutOfRangeException">No limit up to the largest gives that run length.</exception>
    public static double Solve(double runLength, double guess, double most, Func<double, double> lengthAt)
    {
        if (!(runLength > 1 && runLength <= 1e7))
        {
            throw new ArgumentOutOfRangeException(nameof(runLength), runLength, "An in-control run length is above 1 and at most 10 million readings.");
        }

        double Miss(double limit) => Math.Log(lengthAt(limit) / runLength);
        double low = guess, high = guess;
        if (Miss(guess) > 0)
        {
            while (Miss(low) > 0)
            {
                high = low;
                low *= 0.8;
            }
        }
        else
        {
            while (Miss(high) <= 0)
            {
                low = high;
                high *= 1.25;
                if (high > most)
                {
                    throw new ArgumentOutOfRangeException(nameof(runLength), runLength, $"No limit up to {most} gives this run length.");
                }
            }
        }

        return Brent.FindRoot(Miss, low, high, 1e-9, 100);
    }
}
