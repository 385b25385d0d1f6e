using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Sensors.Live;

/// <summary>A sensor on a port that may vanish and return: samples while it is there, a plain answer while it is not.</summary>
/// <remarks>
/// It belongs to one reading thread. A lost port is tried again after 0.5, 1, 2 and then every 5 s; what comes first after that is thrown
/// away up to the next good frame or line, and the first block then has a gap before it.
/// </remarks>
public sealed class LiveSensorSource : ISampleSource
{
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(200);
    private readonly IByteSourceOpener opener;
    private readonly ISampleDecoder decoder;
    private readonly TimeProvider time;
    private readonly Action<SensorEvent>? tell;
    private readonly Action<TimeSpan> pause;
    private readonly BackOff backOff;
    private readonly TimeAxis axis;
    private readonly SensorCheck check;
    private readonly RunCutter cutter = new();
    private readonly ManualResetEvent closing = new(false);
    private readonly byte[] bytes = new byte[ISampleDecoder.FeedSize];
    private IByteSource? port;
    private string trouble = string.Empty;
    private bool fresh;
    private bool lost;
    private bool turnedDown;
    private readonly Babble babble;

    /// <summary>Makes the source; <paramref name="pause"/> stands in for the real wait, for tests.</summary>
    internal LiveSensorSource(
        IByteSourceOpener opener,
        ISampleDecoder decoder,
        SourceInfo configured,
        SourceCounters counters,
        TimeProvider time,
        Action<SensorEvent>? tell = null,
        Action<TimeSpan>? pause = null)
    {
        this.opener = opener;
        this.decoder = decoder;
        this.time = time;
        this.tell = tell;
        this.pause = pause ?? (wait => closing.WaitOne(wait));
        Counters = counters;
        backOff = new(time);
        axis = new(time);
        babble = new(time);
        check = new(configured, words => Tell(SensorEventKind.Contradiction, words));
    }

    /// <summary>Gets what is known of the sensor: the configuration until it speaks, then over it what the sensor says of itself.</summary>
    public SourceInfo Info => check.Info;

    /// <inheritdoc/>
    public SourceCounters Counters { get; }

    /// <summary>Gets what the sensor said of itself; null until it has.</summary>
    public SensorAnnouncement? Sensor => check.Sensor;

    /// <summary>Gets the rate in Hz measured over a long span by the sensor's own clock, or by the host's where lines carry no time; null until then.</summary>
    public double? MeasuredRateHz => check.MeasuredRateHz;

    /// <inheritdoc/>
    public SourceState Read(SampleBlock block)
    {
        block.Clear();
        if (closing.WaitOne(0))
        {
            return SourceState.End;
        }

        var asked = time.GetTimestamp();
        while (cutter.IsEmpty && !NextRun())
        {
            if (Pull() is { } state)
            {
                return state;
            }

            if (time.GetElapsedTime(asked) >= Patience && !NextRun())
            {
                return SourceState.Nothing;
            }
        }

        Counters.Samples += cutter.Fill(block, axis, check);
        return SourceState.Samples;
    }

    /// <summary>
    /// Waits for the sensor to describe itself and gives null once it has, or one line that says why not. What comes meanwhile is not lost:
    /// <see cref="Read"/> gives it.
    /// </summary>
    public string? WaitForSensor(TimeSpan patience)
    {
        var asked = time.GetTimestamp();
        while (Sensor is null && !NextRun() && Sensor is null && time.GetElapsedTime(asked) < patience)
        {
            _ = Pull();
        }

        return Sensor is not null ? null
            : port is null ? trouble
            : $"sensor at {opener.Name}: the port is open, but nothing in the protocol {Info.Format} came from it; check protocol, baud rate and wiring";
    }

    /// <summary>Closes the port and ends the source.</summary>
    public void Dispose()
    {
        _ = closing.Set();
        port?.Dispose();
        port = null;
    }

    /// <summary>Brings bytes from the port to the decoder; gives the answer to a read where none came.</summary>
    private SourceState? Pull()
    {
        if (port is null && !TryOpen())
        {
            return SourceState.Lost;
        }

        switch (port!.Read(bytes, out var count))
        {
            case ReadStatus.Data:
                // The decoder was drained before, so all of it fits.
                _ = decoder.Feed(bytes.AsSpan(0, count));
                if (fresh && babble.Heard(count))
                {
                    Tell(SensorEventKind.Contradiction, $"sensor at {opener.Name}: bytes come, but nothing of the protocol {Info.Format} is among them; baud rates that do not agree look like this: check `baud`, then `protocol`");
                }

                return null;
            case ReadStatus.Nothing:
                return SourceState.Nothing;
            default:
                Lose();
                return NextRun() ? null : SourceState.Lost;
        }
    }

    private bool TryOpen()
    {
        var wait = backOff.Remaining;
        if (wait > TimeSpan.Zero)
        {
            pause(wait < Patience ? wait : Patience);
            return false;
        }

        var result = opener.Open();
        if (result.Source is null)
        {
            backOff.Failed();
            if (result.Message != trouble)
            {
                Tell(SensorEventKind.Unreachable, result.Message);
            }

            trouble = result.Message;
            return false;
        }

        port = result.Source;
        trouble = string.Empty;
        fresh = true;
        babble.Begin();
        return true;
    }

    private void Lose()
    {
        var why = port?.Fate ?? "the port has gone; check plug, cable and supply";
        port?.Dispose();
        port = null;
        decoder.Break();
        backOff.Failed();
        trouble = $"sensor at {opener.Name}: {why}";
        if (!lost)
        {
            Tell(SensorEventKind.Lost, trouble);
        }

        lost = true;
    }

    /// <summary>Takes the next run of samples from the decoder; false where it needs more bytes.</summary>
    private bool NextRun()
    {
        var run = cutter.Run;
        while (decoder.Next(run) is var state && state != DecodeState.None)
        {
            check.Note(run);
            if (run.Restarted && state == DecodeState.Samples)
            {
                Tell(SensorEventKind.Restarted, $"sensor at {opener.Name}: it started anew; how many samples are missing nobody knows");
            }

            if (state == DecodeState.Announcement)
            {
                continue;
            }

            if (!check.HasAllAxes)
            {
                Counters.Reject(RejectReasons.Name(RejectReason.Axes));
                turnedDown = true;
                continue;
            }

            Arrive(run);
            return true;
        }

        return false;
    }

    private void Arrive(SampleRun run)
    {
        if (turnedDown && Counters.Samples > 0)
        {
            (run.GapBefore, run.MissingBefore) = (true, null);
        }

        turnedDown = false;
        if (run.GapBefore)
        {
            Counters.Gaps++;
            Counters.MissingSamples += run.MissingBefore ?? 0;
        }

        if (fresh)
        {
            Tell(SensorEventKind.Back, BackWords(run));
            Counters.Reopenings += lost ? 1 : 0;
            (fresh, lost) = (false, false);
            backOff.Succeeded();
        }

        axis.Arrive(run.GapBefore ? run.MissingBefore : 0, run.Count, check.RateHz);
        cutter.Begin();
    }

    private string BackWords(SampleRun run) => string.Create(
        CultureInfo.InvariantCulture,
        $"sensor at {opener.Name}: samples come{(!lost ? string.Empty : run.MissingBefore is { } n ? $" again, {n} are missing" : " again, an unknown number is missing")}");

    private void Tell(SensorEventKind kind, string words) => tell?.Invoke(new(kind, axis.Now, words));
}
