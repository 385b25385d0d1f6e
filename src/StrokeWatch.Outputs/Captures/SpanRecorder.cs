using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Outputs.Captures;

/// <summary>Holds what devices give while somebody wants it, in memory of fixed size, and writes it as a capture of each. Whoever measures only copies.</summary>
/// <remarks>
/// All devices together take <see cref="MostBytes"/>: five minutes of three axes at 4 kHz. Of a longer or faster measurement the last part is kept, which holds the stop.
/// Room for them on the disk is made by <see cref="TrialRoom"/>.
/// </remarks>
/// <param name="devices">The places of each device's sensors; one empty list where there is one sensor.</param>
/// <param name="clock">The clock.</param>
public sealed class SpanRecorder(IReadOnlyList<IReadOnlyList<SensorPlace>> devices, TimeProvider clock)
{
    /// <summary>The memory that is held at most, in bytes.</summary>
    public const long MostBytes = 16_000_000;

    private const long Header = 1 << 16;

    private volatile SensorFeed[]? feeds;

    /// <summary>Gets the most bytes that a capture of what is held may take.</summary>
    public long Bytes => (feeds ?? []).Sum(feed => feed.Ring?.Bytes + Header ?? 0);

    /// <summary>Begins; what was held before is let go.</summary>
    /// <param name="seconds">The most that is held, in seconds.</param>
    public void Begin(double seconds) => feeds = [.. devices.Select(places => new SensorFeed(clock, seconds, places, MostBytes / devices.Count))];

    /// <summary>Takes a block of a device as read; belongs to the thread that measures it.</summary>
    public void Take(int device, SampleBlock block, SourceInfo info) => feeds?[device].Take(block, info);

    /// <summary>Lets go what is held.</summary>
    public void Drop() => feeds = null;

    /// <summary>Ends, and writes what is held; gives the paths, the first device's first. Of a device that gave nothing there is none.</summary>
    /// <param name="stem">The path without its end; the first place follows it where there are several devices.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">Nor may it be.</exception>
    public IReadOnlyList<string> End(string stem)
    {
        var held = feeds ?? [];
        feeds = null;
        var paths = new List<string>();
        foreach (var feed in held)
        {
            if (feed.Ring is { Head: > 0 } ring)
            {
                var path = $"{stem}{(held.Length > 1 && feed.Places.Count > 0 ? "-" + SensorPlaces.Name(feed.Places[0]) : "")}.wav";
                Write(ring, path);
                paths.Add(path);
            }
        }

        return paths;
    }

    private void Write(SampleRing ring, string path)
    {
        var end = ring.Head;
        var begin = Math.Max(0, end - ring.Frames);
        var capture = new OpenCapture(path, ring, begin, clock.GetUtcNow() - clock.GetElapsedTime(ring.Stamp) - TimeSpan.FromSeconds((end - begin + ring.MissingBetween(begin, end)) / ring.RateHz));
        try
        {
            capture.Until(end);
            _ = capture.Step();
            _ = capture.Finish();
        }
        catch
        {
            capture.Abandon();
            throw;
        }
    }
}
