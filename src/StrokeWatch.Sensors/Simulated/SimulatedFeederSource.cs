using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>
/// The accelerometer of a simulated feeder, or several of them: samples of three axes each in m/s², as fast as they are asked for, the same for the same scenario.
/// </summary>
/// <remarks>
/// The machine runs at a whole multiple of the sensor's true rate, at least 60 kHz; what the sensor's filter leaves is low-passed by a linear-phase
/// filter, whose delay is taken out, before every n-th value becomes a sample. Sample 0 is taken at time 0.
/// </remarks>
public sealed class SimulatedFeederSource : ISampleSource
{
    private readonly FeederScenario scenario;
    private readonly MagnetScale scale;
    private readonly double step;
    private readonly Queue<double> onsets;
    private FeederMachine machine;
    private readonly SimulatedStation[] stations;
    private readonly double[] sample;
    private readonly TruthCollector truth;
    private readonly VoltageProbe? probe;
    private readonly CaptureFacts facts = new();
    private readonly SeededRandom timeNoise;
    private readonly int factor;
    private readonly double samplePeriod, trueRate;
    private readonly long total;
    private double[] times = [];
    private long made;
    private long stepped;
    private long missing;
    private int gap;
    private bool clipped;
    private double voltage;
    private bool pending;
    private int filled;

    /// <summary>Makes the feeder of a scenario, scales its magnet and, where it is on at time zero, runs it warm.</summary>
    public SimulatedFeederSource(FeederScenario scenario)
    {
        this.scenario = scenario;
        var first = FaultTable.At(scenario, 0);
        trueRate = scenario.Sensor.RateHz * (1 + (scenario.Sensor.RateErrorPpm * 1e-6));
        samplePeriod = 1 / trueRate;
        factor = Math.Max(2, (int)Math.Ceiling(scenario.InternalHz / trueRate));
        step = samplePeriod / factor;
        total = double.IsFinite(scenario.DurationSeconds) ? (long)Math.Round(scenario.DurationSeconds * trueRate) : long.MaxValue / (2 * factor);
        var corner = Math.Min(scenario.Sensor.BandwidthHz ?? (0.35 * scenario.Sensor.RateHz), 0.4 / step);
        stations = [.. Enumerable.Range(0, Math.Max(1, scenario.Sensors.Count)).Select(i => new SimulatedStation(first, i, factor, corner, step))];
        sample = new double[3 * stations.Length];
        probe = scenario.SupplyChannel is { } channel ? new VoltageProbe(channel, scenario.Seed, factor) : null;
        timeNoise = new SeededRandom(scenario.Seed, 6);
        scale = StrokeScaler.Solve(scenario, step);
        onsets = new(scenario.Faults.Select(fault => fault.FromSeconds).Where(seconds => seconds > 0).Distinct().Order());
        var warm = scenario.WarmStart ? MachineBuild.Settle(first, 10, 4) : 0;
        var before = Math.Max((int)Math.Ceiling(warm / step), 3 * stations[0].Delay);
        machine = new FeederMachine(first, step, -before * step, scale, true);
        truth = new TruthCollector(FaultTable.At(scenario, double.PositiveInfinity), step, scale);
        stepped = -before;
        Info = new SourceInfo
        {
            Format = "simulated",
            Axes = [.. stations.SelectMany(_ => (Axis[])[Axis.X, Axis.Y, Axis.Z])],
            Places = [.. scenario.Sensors.SelectMany(place => Enumerable.Repeat(place.Place, 3))],
            RateHz = scenario.Sensor.RateHz,
            RateFrom = RateOrigin.Sensor,
            Unit = AccelerationUnit.G,
            FullScale = scenario.Sensor.RangeG * Gravity.Standard,
            HasSupply = probe is not null,
        };
    }

    /// <inheritdoc/>
    public SourceInfo Info { get; }

    /// <inheritdoc/>
    public SourceCounters Counters { get; } = new();

    /// <summary>Gets the time stamps of the samples last read, in seconds, with their jitter and steps.</summary>
    public ReadOnlySpan<double> Times => times.AsSpan(0, filled);

    /// <summary>Gives what the run truly was, up to the samples read so far.</summary>
    public SimulationTruth Truth() => truth.Truth([.. stations.Select(station => station.Element)], facts);

    /// <inheritdoc/>
    public SourceState Read(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfNotEqual(block.Channels, sample.Length);
        block.Clear();
        block.RateHz = Info.RateHz;
        block.FullScale = Info.FullScale;
        times = times.Length >= block.Capacity ? times : new double[block.Capacity];
        filled = 0;
        while (filled < block.Capacity && Next(filled == 0))
        {
            if (filled == 0)
            {
                block.StartSeconds = Stated(made - 1);
                (block.GapBefore, block.MissingBefore, missing) = (missing > 0, missing, 0);
            }

            for (var channel = 0; channel < sample.Length; channel++)
            {
                block.Fill(channel)[filled] = sample[channel];
            }

            if (probe is not null)
            {
                block.FillSupply()[filled] = voltage;
                block.HasSupply = true;
            }

            block.FillMarks()[filled] = clipped ? SampleMarks.Clipped : SampleMarks.None;
            times[filled++] = Stamp(made - 1);
        }

        block.SetCount(filled);
        Counters.Samples += filled;
        return filled > 0 ? SourceState.Samples : SourceState.End;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
    }

    /// <summary>Makes the next delivered sample; false at the end and, unless the block is still empty, before a sample that follows a gap.</summary>
    private bool Next(bool mayFollowGap)
    {
        while (pending || made < total)
        {
            if (pending)
            {
                if (missing > 0 && !mayFollowGap)
                {
                    return false;
                }

                pending = false;
                return true;
            }

            Make();
            var seconds = made * samplePeriod;
            made++;
            var lost = IsLost(seconds);
            facts.Made(seconds, samplePeriod, lost, missing == 0, clipped);
            if (lost)
            {
                Counters.Gaps += missing == 0 ? 1 : 0;
                Counters.MissingSamples++;
                missing++;
                continue;
            }

            pending = true;
        }

        return false;
    }

    private void Make()
    {
        for (var target = (made * factor) + stations[0].Delay; stepped < target; stepped++)
        {
            if (onsets.Count > 0 && machine.Seconds >= onsets.Peek())
            {
                Change(onsets.Dequeue());
            }

            machine.Step();
            probe?.Push(machine);
            for (var i = 0; i < stations.Length; i++)
            {
                stations[i].Push(scenario.Sensors.Count == 0 ? machine.Acceleration : machine.PlaceAccelerations[i]);
            }

            if (stepped + 1 >= 0 && stepped + 1 < total * factor)
            {
                truth.Watch(machine);
            }
        }

        voltage = probe?.Read() ?? 0;
        clipped = false;
        for (var i = 0; i < stations.Length; i++)
        {
            clipped |= stations[i].Read(sample.AsSpan(3 * i, 3));
        }
    }

    /// <summary>Goes on with the faults that have come by a time.</summary>
    private void Change(double seconds)
    {
        var changed = FaultTable.At(scenario, seconds);
        machine = new FeederMachine(changed, step, machine.Seconds, scale, true, machine);
        foreach (var station in stations)
        {
            station.Become(changed);
        }
    }

    private bool IsLost(double seconds)
    {
        var gaps = scenario.Sensor.Gaps;
        while (gap < gaps.Count && seconds >= gaps[gap].To)
        {
            gap++;
        }

        return gap < gaps.Count && seconds >= gaps[gap].From;
    }

    private double Stated(long index) => scenario.Sensor.HostTimes ? index * samplePeriod : index / scenario.Sensor.RateHz;

    private double Stamp(long index)
    {
        var seconds = Stated(index) + (scenario.Sensor.TimeJitterSeconds * timeNoise.Normal());
        var step = scenario.Sensor.TimeStepSeconds;
        return step > 0 ? Math.Round(seconds / step) * step : seconds;
    }
}
