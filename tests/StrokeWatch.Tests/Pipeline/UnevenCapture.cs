using System.Globalization;
using System.Text;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Tests.Measurement;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>A text capture of a tray of known stroke with a second harmonic: when each sample was truly taken and whether it says so are the test's own.</summary>
internal sealed record UnevenCapture
{
    public double Hertz { get; init; } = 50;

    public double Stroke { get; init; } = 1.7e-3;

    /// <summary>Standard deviation of the noise of each axis in m/s².</summary>
    public double Noise { get; init; } = 0.1;

    public int Seed { get; init; } = 1;

    public bool Free { get; init; }

    public double? TimingJitter { get; init; }

    /// <summary>Gets what stands above the header row.</summary>
    public string Head { get; init; } = "";

    public CaptureOptions Options { get; init; } = new();

    /// <summary>Gets the cycles that the drive has gone through at a time; even running where nothing is said.</summary>
    public Func<double, double>? Cycles { get; init; }

    /// <summary>Replays samples taken at true times, stamped with them, with stamps of the test's own, or not at all.</summary>
    public ReplayResult Replay(IEnumerable<double> taken, bool stamped = true, Func<double, double>? stamp = null)
    {
        var random = new Random(Seed);
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMetres(Stroke), Hertz);
        var (sin, cos) = Math.SinCos(25 * Math.PI / 180);
        var text = new StringBuilder(Head).Append(stamped ? "t_s,x_m_s2,z_m_s2\n" : "x_m_s2,z_m_s2\n");
        foreach (var time in taken)
        {
            var cycles = Cycles?.Invoke(time) ?? Hertz * time;
            var along = amplitude * (Math.Cos(2 * Math.PI * cycles + 0.7) + 0.1 * Math.Cos(4 * Math.PI * cycles + 2.6));
            if (stamped)
            {
                text.Append((stamp?.Invoke(time) ?? time).ToString("0.0######", CultureInfo.InvariantCulture)).Append(',');
            }

            text.Append(CultureInfo.InvariantCulture, $"{along * cos + Noise * Signal.Gauss(random):0.#####},{along * sin + Gravity.Standard + Noise * Signal.Gauss(random):0.#####}\n");
        }

        var bytes = Encoding.UTF8.GetBytes(text.ToString());
        using var source = CaptureFile.Open(new CaptureBytes("cullet.csv", () => new MemoryStream(bytes, writable: false)), Options);
        return Replayer.Run("cullet.csv", source, Feeder(), new AlarmDelays());
    }

    /// <summary>Gives the true stroke: the second harmonic's displacement is a fortieth of the fundamental's.</summary>
    public double Truth()
    {
        double most = double.MinValue, least = double.MaxValue;
        for (var i = 0; i < 20_000; i++)
        {
            var phase = 2 * Math.PI * i / 20_000;
            var value = Math.Cos(phase + 0.7) + 0.025 * Math.Cos(2 * phase + 2.6);
            (most, least) = (Math.Max(most, value), Math.Min(least, value));
        }

        return Stroke / 2 * (most - least);
    }

    /// <summary>Gives the expanded uncertainty (k = 2) by what the signal itself errs: noise, scatter and timing, without sensitivity, alignment and mains.</summary>
    public static double OwnUncertainty(ReplayResult result) => 2 * Math.Sqrt(result.Report.Stroke.Budget!.Components
        .Where(component => component.Name is StrokeBudget.Noise or StrokeBudget.Repeatability or StrokeContributions.TimingJitter)
        .Sum(component => component.Contribution * component.Contribution));

    private FeederDescription Feeder() => new()
    {
        Name = "Cullet feeder",
        Drive = new(Hertz, 1, Free),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
        Sensor = new() { CalibrationUncertainty = 0.0001, TimingJitterSeconds = TimingJitter },
    };
}
