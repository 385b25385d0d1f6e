using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Stations;

/// <summary>The line of action of the sensor that leads, for all sensors; their axes are taken as parallel.</summary>
internal sealed class SharedLine(double? givenDegrees)
{
    private const double LeastAlong = 0.02;
    private const double LeastCosine = 0.1;
    private readonly double[] line = new double[3];

    /// <summary>Takes the line from the sensor that leads.</summary>
    public void Take(Station lead)
    {
        Array.Clear(line);
        if (givenDegrees is { } degrees)
        {
            (line[(int)Axis.Z], line[(int)Axis.X]) = Math.SinCos(degrees * Math.PI / 180);
            return;
        }

        for (var a = 0; a < lead.Axes.Count; a++)
        {
            line[(int)lead.Axes[a]] = lead.Analysis.Path.Direction[a];
        }
    }

    /// <summary>Gives the sign by which a sensor's own line points the same way; null where the two share no axis that could tell.</summary>
    public double? Sign(Station station)
    {
        double cosine = 0, norm = 0;
        for (var a = 0; a < station.Axes.Count; a++)
        {
            var own = station.Analysis.Path.Direction[a];
            cosine += own * line[(int)station.Axes[a]];
            norm += own * own;
        }

        return Math.Abs(cosine) > LeastCosine * Math.Sqrt(norm) ? Math.Sign(cosine) : null;
    }

    /// <summary>Gives the weights of a sensor's axes by which their sum is the motion along the line, by least squares; false where they stand square to it.</summary>
    public bool Weights(IReadOnlyList<Axis> axes, Span<double> weights)
    {
        var along = 0.0;
        for (var a = 0; a < axes.Count; a++)
        {
            weights[a] = line[(int)axes[a]];
            along += weights[a] * weights[a];
        }

        for (var a = 0; a < axes.Count; a++)
        {
            weights[a] /= along;
        }

        return along >= LeastAlong;
    }
}
