using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>One accelerometer with its own filter, decimation, noise and rails.</summary>
internal sealed class SimulatedStation
{
    private const int FirstFurtherStream = 16;
    private readonly SensorFilter[] filters;
    private readonly Decimator decimator;
    private readonly double step;
    private readonly int index;
    private LooseSensor? loose;

    /// <summary>Makes the sensor of an index; the first has the noise of a single sensor.</summary>
    public SimulatedStation(FeederScenario scenario, int index, int factor, double corner, double step)
    {
        (this.index, this.step) = (index, step);
        filters = [.. Enumerable.Range(0, 3).Select(_ => new SensorFilter(scenario.Sensor.Poles, corner, step))];
        decimator = new Decimator(factor);
        Element = Become(scenario);
    }

    /// <summary>Gets how it sits and reads.</summary>
    public SensorElement Element { get; private set; }

    /// <summary>Gets how many steps after an acceleration went in its filtered value comes out.</summary>
    public int Delay => decimator.Delay;

    /// <summary>Goes on as the sensor of a scenario with other faults; of several sensors only the first has sensor faults.</summary>
    public SensorElement Become(FeederScenario scenario)
    {
        var turned = index < scenario.Sensors.Count && scenario.Sensors[index].Reversed ? 180 : 0;
        var faults = index == 0 ? scenario.Physics : null;
        loose = faults?.Loose is { } mounting ? new(mounting, step) : null;
        return Element = new SensorElement(
            scenario.Sensor with { TurnedDegrees = scenario.Sensor.TurnedDegrees + turned }, scenario.Seed, index == 0 ? SensorElement.Stream : FirstFurtherStream + index,
            faults, Element);
    }

    /// <summary>Takes the acceleration of one step.</summary>
    public void Push((double X, double Y, double Z) acceleration)
    {
        acceleration = loose?.Next(acceleration) ?? acceleration;
        decimator.Push((filters[0].Next(acceleration.X), filters[1].Next(acceleration.Y), filters[2].Next(acceleration.Z)));
    }

    /// <summary>Gives the next sample, and whether an axis stands at its rail.</summary>
    public bool Read(Span<double> into)
    {
        (into[0], into[1], into[2], var clipped) = Element.Read(decimator.Value());
        return clipped;
    }
}
