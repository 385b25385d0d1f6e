using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Tests.Assessment.Watching;

/// <summary>Stretches of a machine made up of numbers, one an hour; the same for the same seed.</summary>
internal sealed class Synthetic(ulong seed)
{
    public static readonly DateTimeOffset Begin = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

    public static readonly BaselineSettings Learning = new() { Enough = 30, Shortest = TimeSpan.Zero, Longest = TimeSpan.FromDays(2) };

    private readonly SeededRandom random = new(seed, 7);
    private int hours;

    /// <summary>Gives the next stretch; its stroke and natural frequency are shifted by shares of themselves.</summary>
    public Stretch Next(double stroke = 0, double natural = 0, bool alarm = false, bool transient = true) => Of(
        new()
        {
            Stroke = 1.7e-3 * (1 + stroke + (0.004 * random.Normal())),
            DriveHz = 50,
            NaturalHz = transient ? 52.5 * (1 + natural + (0.001 * random.Normal())) : null,
            DampingRatio = transient ? 0.02 * (1 + (0.02 * random.Normal())) : null,
            TuningRatio = transient ? 1.05 * (1 + natural) : null,
            LineAngleDegrees = 20 + (0.1 * random.Normal()),
            TiltDegrees = 3 + (0.05 * random.Normal()),
            SteadyWindows = 7000,
        },
        alarm);

    /// <summary>Gives the next stretch with these features.</summary>
    public Stretch Of(CaptureFeatures features, bool alarm = false) => new(Begin.AddHours(hours++), 3590, StretchEnd.Full, alarm, features);

    /// <summary>Lets the machine stand still.</summary>
    public void Skip(TimeSpan still) => hours += (int)still.TotalHours;

    /// <summary>Has a machine learn what healthy is.</summary>
    public MachineWatch Learned(WatchSettings? settings = null)
    {
        var watch = new MachineWatch(null, Learning, settings: settings);
        for (var i = 0; i < 60 && watch.Baseline is null; i++)
        {
            watch.Take(Next());
        }

        return watch;
    }
}
