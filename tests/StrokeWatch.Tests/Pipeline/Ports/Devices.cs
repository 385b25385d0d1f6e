using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Ports;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Tests.Pipeline.Ports;

/// <summary>A sand feeder with sensors on devices of their own, each with its own error of clock, played in time steps of 10 ms; and what is heard of it.</summary>
internal sealed class Devices : IChainListener
{
    private const double Rate = 4000;
    private const double Step = 0.01;
    private readonly List<Device> devices;
    private readonly JointMeasurement joint;
    private double now;

    public Devices(params Device[] devices)
    {
        Feeder = new()
        {
            Name = "Sand feeder",
            Drive = new(50, 1, false),
            Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
            Sensors = [.. devices.SelectMany(device => device.Strokes.Keys).Order().Select(place => new PlacedSensor(place, [], new()))],
        };
        joint = new(Feeder, new(), this);
        this.devices = [.. devices];
        foreach (var device in devices)
        {
            device.Port = new(joint, Feeder, device.Strokes.Keys, new(), new InlineDesk());
            joint.Add(device.Port);
        }
    }

    public FeederDescription Feeder { get; }

    public List<AlarmTransition> Alarms { get; } = [];

    public List<AssessedWindow> Windows { get; } = [];

    public List<(StationReading[] Sensors, RelativeReading Relative)> Shown { get; } = [];

    public List<DecayReading> Decays { get; } = [];

    /// <summary>Gets when each window was heard, by the host's clock.</summary>
    public List<double> HeardAt { get; } = [];

    /// <summary>Sums up what was heard as a capture is.</summary>
    public AssessmentReport Report()
    {
        var builder = new ReportBuilder(Feeder);
        foreach (var (window, shown) in Windows.Where(window => window.Reading.Quality != WindowQuality.Gap).Zip(Shown))
        {
            builder.Add(window);
            builder.Add(new SeveralReading(shown.Sensors, shown.Relative));
        }

        return builder.Build(joint.Settings!.Contributions, joint.Settings.Stations);
    }

    /// <summary>Lets time pass; a silent device sends nothing, and its quiet is told as the daemon tells it.</summary>
    public void Play(double seconds)
    {
        for (var until = now + seconds; now < until - 1e-9;)
        {
            now += Step;
            foreach (var device in devices)
            {
                if (device.Silent)
                {
                    device.Quiet += Step;
                    device.Port!.Silence(device.Quiet);
                }
                else
                {
                    Send(device);
                }
            }
        }
    }

    void IChainListener.Window(in AssessedWindow window)
    {
        Windows.Add(window);
        HeardAt.Add(now);
    }

    void IChainListener.Several(in SeveralReading reading) => Shown.Add((reading.Sensors.ToArray(), reading.Relative));

    void IChainListener.Decay(in DecayReading decay) => Decays.Add(decay);

    void IChainListener.Alarm(in AlarmTransition transition) => Alarms.Add(transition);

    private void Send(Device device)
    {
        var trueRate = Rate * (1 + device.ClockError);
        var due = (long)((now - device.LateSeconds) * trueRate);
        var missed = device.Quiet > 0;
        if (missed)
        {
            // The device itself ran on meanwhile: its counter says how many samples are missing.
            device.Sent = due - (long)(Step * trueRate);
            device.Quiet = 0;
        }

        var block = new SampleBlock(2 * device.Strokes.Count, (int)Math.Max(1, due - device.Sent)) { RateHz = Rate, StartSeconds = device.Sent / Rate, GapBefore = missed, MissingBefore = missed ? 1 : 0 };
        for (var n = 0; n < due - device.Sent; n++)
        {
            var time = (device.Sent + n) / trueRate;
            var channel = 0;
            foreach (var stroke in device.Strokes.Values)
            {
                var along = 0.5e-3 * stroke(time) * Math.Pow(2 * Math.PI * 50, 2) * Math.Sin(2 * Math.PI * 50 * time) + 0.05 * device.Noise();
                block.Fill(channel++)[n] = 0.9 * along;
                block.Fill(channel++)[n] = Math.Sqrt(1 - 0.81) * along + 9.8;
            }
        }

        block.SetCount((int)(due - device.Sent));
        device.Sent = due;
        if (block.Count > 0)
        {
            device.Port!.Take(block, device.Info, now);
        }
    }

    /// <summary>One device.</summary>
    internal sealed class Device(double clockError, int seed)
    {
        private readonly Random random = new(seed);

        public double ClockError { get; } = clockError;

        /// <summary>Gets the stroke at each of its places in mm, by the true time.</summary>
        public SortedDictionary<SensorPlace, Func<double, double>> Strokes { get; } = [];

        public double LateSeconds { get; init; } = 0.005;

        public bool Silent { get; set; }

        public double Quiet { get; set; }

        public long Sent { get; set; }

        public MeasuredPort? Port { get; set; }

        public SourceInfo Info => new()
        {
            Format = "frames",
            Axes = [.. Strokes.SelectMany(_ => (Axis[])[Axis.X, Axis.Z])],
            Places = [.. Strokes.Keys.SelectMany(place => Enumerable.Repeat(place, 2))],
            RateHz = Rate,
            RateFrom = RateOrigin.Sensor,
        };

        public static Device At(SensorPlace place, double stroke, double clockError = 0, int seed = 1) => new Device(clockError, seed).And(place, _ => stroke);

        public Device And(SensorPlace place, Func<double, double> stroke)
        {
            Strokes.Add(place, stroke);
            return this;
        }

        /// <summary>Gives noise of standard deviation 1 (twelve uniform numbers, textbook).</summary>
        public double Noise()
        {
            var sum = -6.0;
            for (var i = 0; i < 12; i++)
            {
                sum += random.NextDouble();
            }

            return sum;
        }
    }
}
