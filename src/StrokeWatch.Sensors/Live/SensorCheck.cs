using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Live;

/// <summary>The comparison of what the sensor says with what the configuration says; each difference is told once.</summary>
internal sealed class SensorCheck
{
    /// <summary>Relative differences above this are told: common practice, no source.</summary>
    private const double Telling = 0.01;

    private readonly HashSet<string> told = new(StringComparer.Ordinal);
    private readonly RateInUse rate = new();
    private readonly SourceInfo configured;
    private readonly Action<string> contradict;
    private readonly int[] channels;
    private readonly int sensors;
    private bool rateTold;

    /// <summary>Makes a check that tells differences from the configuration in sentences.</summary>
    public SensorCheck(SourceInfo configured, Action<string> contradict)
    {
        this.configured = configured;
        this.contradict = contradict;
        channels = new int[configured.Axes.Count];
        sensors = Math.Max(1, configured.Places.Distinct().Count());
        Info = configured;
    }

    /// <summary>Gets the configuration, and over it what the sensor says of itself.</summary>
    public SourceInfo Info { get; private set; }

    /// <summary>Gets what the sensor says of itself; null until it has.</summary>
    public SensorAnnouncement? Sensor { get; private set; }

    /// <summary>Gets the rate measured by the sensor's or the host's clock, in Hz.</summary>
    public double? MeasuredRateHz => rate.MeasuredHz;

    /// <summary>Gets the rate that blocks carry, in Hz.</summary>
    public double? RateHz => rate.Hz;

    /// <summary>Gets, for each configured axis, the run's channel that holds it; -1 where the sensor has no such axis.</summary>
    public ReadOnlySpan<int> Channels => channels;

    /// <summary>Gets whether the sensor has all configured axes.</summary>
    public bool HasAllAxes => Sensor is not null && !Channels.Contains(-1);

    /// <summary>Takes a run's word.</summary>
    public void Note(SampleRun run)
    {
        if (run.Sensor is { } sensor && !ReferenceEquals(sensor, Sensor))
        {
            Sensor = sensor;
            rateTold = false;
            Describe(sensor);
        }

        rate.Note(run, configured.RateHz);
        if (Math.Abs(rate.Difference) > Telling && !rateTold)
        {
            rateTold = true;
            contradict(RateWords());
        }
    }

    private void Describe(SensorAnnouncement sensor)
    {
        Info = configured with
        {
            RateHz = sensor.RateHz ?? configured.RateHz,
            RateFrom = sensor.RateHz is null || configured.Format == LiveSensors.Lines ? configured.RateFrom : RateOrigin.Sensor,
            FullScale = sensor.FullScale ?? configured.FullScale,
            HasSupply = sensor.SupplyFullScale is not null,
            SupplyRail = sensor.SupplyFullScale is { } full && double.IsFinite(full) ? SampleRun.ClippedFrom * full : null,
        };
        Locate(sensor);
        Compare("rate", sensor.RateHz, configured.RateHz, "Hz");
        Compare("full scale", sensor.FullScale, configured.FullScale, "m/s²");
        if (sensor.Sensors != sensors)
        {
            Tell($"the device sends {Count(sensor.Sensors)}, the configuration names {Count(sensors)}; its samples are turned down: correct the places");
        }
        else if (!HasAllAxes)
        {
            Tell($"the sensor sends {Names(sensor.Axes)}, the configuration asks for {Names([.. configured.Axes.Distinct()])}; its samples are turned down: correct the axes");
        }
    }

    /// <summary>Finds the channel of each configured axis: the device's sensors follow each other as their places do.</summary>
    private void Locate(SensorAnnouncement sensor)
    {
        var each = channels.Length / sensors;
        for (var i = 0; i < channels.Length; i++)
        {
            var axis = sensor.Axes.ToList().IndexOf(configured.Axes[i]);
            channels[i] = axis < 0 || sensor.Sensors != sensors ? -1 : (i / each * sensor.Axes.Count) + axis;
        }
    }

    private void Compare(string what, double? said, double? expected, string unit)
    {
        if (said is { } s && expected is { } e && Math.Abs(s - e) > Telling * e)
        {
            Tell(string.Create(
                CultureInfo.InvariantCulture,
                $"{what}: the sensor says {s:0.###} {unit}, the configuration {e:0.###} {unit}; the sensor's word is used: correct the configuration"));
        }
    }

    private string RateWords() => string.Create(
        CultureInfo.InvariantCulture,
        $"rate: the sensor says {Info.RateHz:0.###} Hz, its clock gives {rate.MeasuredHz:0.###} Hz; {(rate.Disbelieved ? "the clock is not believed: check the firmware's µs" : "the measured rate is used")}");

    private void Tell(string words)
    {
        if (told.Add(words))
        {
            contradict(words);
        }
    }

    private static string Count(int sensors) => sensors == 1 ? "one sensor" : string.Create(CultureInfo.InvariantCulture, $"{sensors} sensors");

    private static string Names(IReadOnlyList<Axis> axes) => string.Join(", ", axes).ToLowerInvariant();
}
