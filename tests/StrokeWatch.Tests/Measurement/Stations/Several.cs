using System.Numerics;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Tests.Measurement.Stations;

/// <summary>Seeded signals of several sensors, each known order by order, and what the meter makes of them.</summary>
internal sealed class Several : IWindowSink
{
    public const double Rate = 3200;
    public const double Drive = 50;
    public const double LineDegrees = 25;

    /// <summary>Gets the main windows with the sensors' own readings.</summary>
    public List<(WindowReading Window, StationReading[] Sensors, RelativeReading Relative)> Windows { get; } = [];

    private (StationReading[] Sensors, RelativeReading Relative) last;

    /// <summary>One sensor: stroke of the fundamental in metres, its phase in degrees, further orders as displacement relative to the fundamental and phase, and axes.</summary>
    public sealed record Source(SensorPlace Place, double Stroke, double PhaseDegrees, (int Order, double Share, double Degrees)[] Orders)
    {
        public Axis[] Axes { get; init; } = [Axis.X, Axis.Y, Axis.Z];

        public double Sign { get; init; } = 1;

        public double Noise { get; init; } = 0.1;

        public double? FullScale { get; init; }

        /// <summary>Changes a sample of a channel (from 0 within the sensor) at a time before it is read.</summary>
        public Func<int, double, double, double> Read { get; init; } = (_, _, value) => value;

        /// <summary>Gives the displacement along the line at a phase of the drive in radians, in metres.</summary>
        public double Displacement(double phase)
        {
            var sum = Math.Cos(phase + PhaseDegrees * Math.PI / 180);
            foreach (var (order, share, degrees) in Orders)
            {
                sum += share * Math.Cos(order * phase + degrees * Math.PI / 180);
            }

            return 0.5 * Stroke * sum;
        }

        /// <summary>Gives the acceleration along the line in m/s².</summary>
        public double Acceleration(double phase, double hertz)
        {
            var omega = 2 * Math.PI * hertz;
            var sum = Math.Cos(phase + PhaseDegrees * Math.PI / 180);
            foreach (var (order, share, degrees) in Orders)
            {
                sum += order * order * share * Math.Cos(order * phase + degrees * Math.PI / 180);
            }

            return -0.5 * Stroke * omega * omega * sum;
        }

        /// <summary>Gives the peak-to-peak stroke of the whole waveform, by brute force.</summary>
        public double PeakToPeak => Extent(Displacement);
    }

    /// <summary>Gives the extent of a periodic function, by brute force.</summary>
    public static double Extent(Func<double, double> wave)
    {
        List<double> values = [.. Enumerable.Range(0, 20_000).Select(i => wave(2 * Math.PI * i / 20_000))];
        return values.Max() - values.Min();
    }

    public static MeterSettings Settings(params Source[] sources)
    {
        var first = 0;
        var stations = new List<StationSettings>();
        foreach (var source in sources)
        {
            stations.Add(new(source.Place, first, source.Axes.Length, source.FullScale, new StrokeContributions()));
            first += source.Axes.Length;
        }

        return new() { Axes = [.. sources.SelectMany(source => source.Axes)], Stations = stations, RateHz = Rate, NominalHz = Drive };
    }

    /// <summary>Gives the blocks of a capture of all sensors; the drive's frequency may be off and so may the clock.</summary>
    public static List<SampleBlock> Blocks(Source[] sources, double seconds, int seed, double hertz = Drive, double clock = 0)
    {
        var random = new Random(seed);
        var (sin, cos) = Math.SinCos(LineDegrees * Math.PI / 180);
        var channels = sources.Sum(source => source.Axes.Length);
        var total = (int)(seconds * Rate);
        var blocks = new List<SampleBlock>();
        for (var begin = 0; begin < total; begin += 400)
        {
            var block = new SampleBlock(channels, Math.Min(400, total - begin)) { RateHz = Rate, StartSeconds = begin / Rate };
            for (var n = 0; n < block.Capacity; n++)
            {
                var time = (begin + n) / (Rate * (1 + clock));
                var channel = 0;
                foreach (var source in sources)
                {
                    var along = source.Acceleration(2 * Math.PI * hertz * time + 0.4, hertz);
                    for (var a = 0; a < source.Axes.Length; a++)
                    {
                        var value = source.Axes[a] switch { Axis.X => cos * along, Axis.Z => sin * along + Gravity.Standard, _ => 0 };
                        block.Fill(channel++)[n] = source.Read(a, time, source.Sign * value + source.Noise * Signal.Gauss(random));
                    }
                }
            }

            block.SetCount(block.Capacity);
            blocks.Add(block);
        }

        return blocks;
    }

    /// <summary>Measures the sensors.</summary>
    public static Several Measure(Source[] sources, double seconds = 3, int seed = 1, double hertz = Drive, double clock = 0, Func<MeterSettings, MeterSettings>? change = null)
    {
        var sink = new Several();
        var settings = Settings(sources);
        var meter = new StrokeMeter(change is null ? settings : change(settings));
        foreach (var block in Blocks(sources, seconds, seed, hertz, clock))
        {
            meter.Add(block, sink);
        }

        meter.Finish(sink);
        return sink;
    }

    /// <summary>Gives the median of something over the windows in degrees, about the direction of their sum.</summary>
    public double PhaseDegrees(int sensor, int against)
    {
        var sum = Windows.Aggregate(Complex.Zero, (all, window) =>
            all + Complex.FromPolarCoordinates(1, window.Sensors[sensor].PhaseRadians!.Value - window.Sensors[against].PhaseRadians!.Value));
        return sum.Phase * 180 / Math.PI;
    }

    void IWindowSink.Several(in SeveralReading reading) => last = (reading.Sensors.ToArray(), reading.Relative);

    public void Window(in WindowReading reading) => Windows.Add((reading, last.Sensors, last.Relative));

    public void Decay(in DecayReading reading)
    {
    }
}
