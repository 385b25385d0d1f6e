using System.Numerics;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Measurement.Stations;

/// <summary>
/// The stroke of the tray relative to the body: order by order the difference of the two displacements along the tray's line of action, all sensors at the
/// same frequency about the same instant, then the extent of the sum. Several tray sensors count with their mean.
/// </summary>
internal sealed class RelativeMotion
{
    private const string NoBody = "no sensor on the body is listed";
    private const string NoTray = "no sensor on the tray gives a stroke";
    private const string Square = "the body's sensor has no axis along the tray's line of action";
    private readonly double[] cosine = new double[WindowAnalysis.MostOrders + 1];
    private readonly double[] sine = new double[WindowAnalysis.MostOrders + 1];
    private readonly DisplacementPath path = new(1, WindowAnalysis.MostOrders);
    private readonly Complex[] parts;
    private double noiseSquare;

    /// <summary>Makes it for a number of sensors.</summary>
    public RelativeMotion(int sensors) => parts = new Complex[sensors];

    /// <summary>Works the window out, and puts each sensor's part into its reading.</summary>
    /// <param name="stations">The sensors.</param>
    /// <param name="readings">Their readings.</param>
    /// <param name="lead">The index of the sensor that leads.</param>
    /// <param name="line">Its line of action.</param>
    public RelativeReading Work(Station[] stations, StationReading[] readings, int lead, SharedLine line)
    {
        var body = Array.FindIndex(stations, station => !station.OnTray);
        if (body < 0 || !stations[lead].OnTray || !readings[lead].Counts)
        {
            return new(null, null, body < 0 ? NoBody : !stations[lead].OnTray ? NoTray : readings[lead].Reading.Reason ?? NoTray);
        }

        var own = readings[body].Reading;
        if (own.Motion == MotionState.Unknown || own.ClippedSamples > 0 || own.Quality == WindowQuality.Transient)
        {
            return new(null, null, own.Reason);
        }

        var omega = 2 * Math.PI * readings[lead].Reading.FrequencyHz!.Value;
        var tray = 0;
        for (var i = 0; i < stations.Length; i++)
        {
            tray += Joins(readings, i, lead) && stations[i].OnTray ? 1 : 0;
        }

        Array.Clear(cosine);
        Array.Clear(sine);
        noiseSquare = 0;
        for (var i = 0; i < stations.Length; i++)
        {
            parts[i] = Complex.Zero;
            if (i == body ? !Add(stations[i], i, line, -1) : stations[i].OnTray && Joins(readings, i, lead) && !Add(stations[i], i, line, 1.0 / tray))
            {
                return new(null, null, Square);
            }
        }

        var orders = stations[lead].Analysis.Fit.Orders;
        var smear = stations[lead].Analysis.Smear;
        var extent = smear * path.ExtentOf(cosine.AsSpan(0, orders + 1), sine.AsSpan(0, orders + 1), omega);
        Share(readings, smear / (omega * omega));
        return new(extent, 2 * Math.Sqrt(noiseSquare) / (omega * omega), null);
    }

    /// <summary>A tray sensor that moves against the one that leads is mounted the other way round: its axes are not parallel, so it is left out.</summary>
    private static bool Joins(StationReading[] readings, int i, int lead) => i == lead || readings[i].Counts
        && readings[i].PhaseRadians - readings[lead].PhaseRadians is { } apart && Math.Cos(apart) > 0;

    private bool Add(Station station, int index, SharedLine line, double factor)
    {
        Span<double> weights = stackalloc double[station.Axes.Count];
        if (!line.Weights(station.Axes, weights))
        {
            return false;
        }

        var fit = station.Analysis.Fit;
        var norm = 0.0;
        for (var a = 0; a < weights.Length; a++)
        {
            var weight = factor * weights[a];
            norm += weight * weight;
            for (var k = 1; k <= fit.Orders; k++)
            {
                cosine[k] += weight * fit.Cosine(a)[k];
                sine[k] += weight * fit.Sine(a)[k];
            }

            parts[index] += weight * new Complex(fit.Cosine(a)[1], -fit.Sine(a)[1]);
        }

        noiseSquare += fit.ResidualDeviation * fit.ResidualDeviation * norm * 2 / fit.Count;
        return true;
    }

    /// <summary>Splits the difference's fundamental up: each sensor's part is its projection on the whole, peak to peak.</summary>
    private void Share(StationReading[] readings, double perAcceleration)
    {
        var whole = new Complex(cosine[1], -sine[1]);
        var size = whole.Magnitude;
        for (var i = 0; i < readings.Length; i++)
        {
            if (parts[i] != Complex.Zero && size > 0)
            {
                readings[i] = readings[i] with { RelativePartMetres = 2 * perAcceleration * (Complex.Conjugate(whole) * parts[i]).Real / size };
            }
        }
    }
}
