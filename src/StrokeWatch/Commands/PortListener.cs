using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Commands;

/// <summary>Listens to a device for some seconds by the daemon's own decoder and measurement, and gathers what a check says of it.</summary>
internal sealed class PortListener(FeederDescription feeder, TimeProvider time) : IChainListener
{
    /// <summary>How long it listens once samples come, and how long it waits for the first: a board that opening has reset needs seconds.</summary>
    private static readonly TimeSpan Long = TimeSpan.FromSeconds(4), Patience = TimeSpan.FromSeconds(4);

    /// <summary>By how much the arrival of bytes may be late: an adapter's latency timer (16 ms) and the system.</summary>
    private const double Latency = 0.02;

    private readonly List<WindowReading> windows = [];
    private readonly List<string> told = [];
    private (double Sum, double Square, double Peak)[] tallies = [];
    private long clipped;

    /// <summary>Listens.</summary>
    /// <param name="port">The device.</param>
    /// <param name="opener">The way to it.</param>
    public PortFindings Listen(SensorPort port, IByteSourceOpener opener)
    {
        var tap = new Tap(opener);
        using var source = LiveSensors.Make(port.Sensor, tap, time, happened => Note(happened));
        var part = port.Sensor.Places.Count == 0 ? feeder : feeder with { Sensors = [.. feeder.Sensors.Where(sensor => port.Sensor.Places.Contains(sensor.Place))] };
        var chain = new MeasurementChain(part, new(), this);
        var block = new SampleBlock(source.Info.Axes.Count, 2048);
        var began = time.GetTimestamp();
        var (first, last, after, begun) = (0L, 0L, 0L, false);
        while (time.GetElapsedTime(first == 0 ? began : first) < (first == 0 ? Patience : Long))
        {
            if (source.Read(block) != SourceState.Samples)
            {
                continue;
            }

            last = time.GetTimestamp();
            (first, after) = first == 0 ? (last, after) : (first, after + block.Count + block.MissingBefore);
            Take(block, Math.Max(1, source.Info.Axes.Count / Math.Max(1, source.Info.Places.Distinct().Count())));
            if ((block.RateHz ?? source.Info.RateHz) is { } rate)
            {
                if (!begun)
                {
                    chain.Begin(ChainSettings.For(part, source.Info, rate));
                    begun = true;
                }

                chain.Take(block);
            }
        }

        if (begun)
        {
            chain.Finish();
        }

        var seconds = first == 0 ? 0 : time.GetElapsedTime(first, last).TotalSeconds;
        var good = windows.FindAll(window => window is { Quality: WindowQuality.Good, StrokeMetres: not null, Motion: MotionState.Running });
        return new()
        {
            Bytes = tap.Bytes,
            First = tap.First,
            Seconds = time.GetElapsedTime(began).TotalSeconds,
            Sensor = source.Sensor,
            Samples = source.Counters.Samples,
            Rejected = source.Counters.Rejected.ToDictionary(),
            Gaps = source.Counters.Gaps,
            Rate = seconds > 1 && after > 0 ? (after / seconds, Latency / seconds) : null,
            Channels = [.. tallies.Select(tally => Channel(tally, source.Counters.Samples))],
            FullScaleG = (source.Info.FullScale ?? port.Sensor.FullScale) / Gravity.Standard,
            Clipped = clipped,
            ClockError = feeder.Drive.Free ? null : WindowStatisticsOf(good, window => window.ClockError),
            Stroke = WindowStatisticsOf(good, window => window.StrokeMetres),
            Orientation = begun ? chain.Orientation : null,
            SupplyVolts = WindowStatisticsOf(windows, window => window.Supply?.RmsVolts),
            Told = told,
        };
    }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window) => windows.Add(window.Reading);

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
    }

    private static (double Mean, double Spread, double Peak) Channel((double Sum, double Square, double Peak) tally, long count)
    {
        var mean = tally.Sum / Math.Max(1, count);
        return (mean / Gravity.Standard, Math.Sqrt(Math.Max(0, tally.Square / Math.Max(1, count) - mean * mean)) / Gravity.Standard, tally.Peak / Gravity.Standard);
    }

    private static double? WindowStatisticsOf(List<WindowReading> some, Func<WindowReading, double?> value)
    {
        double[] values = [.. some.Select(value).OfType<double>().Where(double.IsFinite).Order()];
        return values.Length == 0 ? null : values[values.Length / 2];
    }

    private void Take(SampleBlock block, int channels)
    {
        tallies = tallies.Length == channels ? tallies : new (double, double, double)[channels];
        for (var channel = 0; channel < channels; channel++)
        {
            var tally = tallies[channel];
            foreach (var value in block[channel])
            {
                tally = (tally.Sum + value, tally.Square + value * value, Math.Max(tally.Peak, Math.Abs(value)));
            }

            tallies[channel] = tally;
        }

        foreach (var mark in block.Marks)
        {
            clipped += mark == SampleMarks.None ? 0 : 1;
        }
    }

    private void Note(in SensorEvent happened)
    {
        if (happened.Kind is SensorEventKind.Contradiction or SensorEventKind.Restarted or SensorEventKind.Lost)
        {
            told.Add(happened.Words);
        }
    }

    /// <summary>Counts what comes through a port, and keeps its beginning.</summary>
    private sealed class Tap(IByteSourceOpener opener) : IByteSourceOpener
    {
        private readonly List<byte> first = [];

        public long Bytes { get; private set; }

        public byte[] First => [.. first];

        public string Name => opener.Name;

        public OpenResult Open()
        {
            var opened = opener.Open();
            return opened.Source is { } source ? OpenResult.Opened(new Tapped(this, source)) : opened;
        }

        private void Heard(ReadOnlySpan<byte> bytes)
        {
            Bytes += bytes.Length;
            first.AddRange(bytes[..Math.Min(bytes.Length, 4096 - Math.Min(4096, first.Count))]);
        }

        private sealed class Tapped(Tap tap, IByteSource source) : IByteSource
        {
            public string? Fate => source.Fate;

            public ReadStatus Read(Span<byte> buffer, out int count)
            {
                var status = source.Read(buffer, out count);
                tap.Heard(buffer[..count]);
                return status;
            }

            public void Dispose() => source.Dispose();
        }
    }
}
