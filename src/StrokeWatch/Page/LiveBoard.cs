using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Alarms;

namespace StrokeWatch.Page;

/// <summary>Keeps the newest reading for readers on other threads: one reference, swapped as a whole, so that the measuring thread never waits for them.</summary>
internal sealed class LiveBoard(FeederDescription feeder, TimeProvider time, LiveFeed feed, Func<IReadOnlyList<AlarmView>> alarms, Func<StoreHealth> store) : IChainListener
{
    private volatile BoardReading? last;
    private IReadOnlyList<AlarmView>? shown;

    /// <summary>Gets whether anybody can sign in.</summary>
    public bool CanSignIn { get; init; }

    /// <summary>Gets what tells how long ago samples came, in seconds; it may answer null. A window that a silence ended is no younger than they are.</summary>
    public Func<double?> SampleAge { get; init; } = () => null;

    /// <summary>Gets how it stands; any thread may ask.</summary>
    public BoardStatus Now
    {
        get
        {
            var reading = last;
            return new(feeder, time.GetUtcNow(), reading, reading?.Heard is { } heard ? time.GetElapsedTime(heard).TotalSeconds : null, alarms(), store()) { CanSignIn = CanSignIn };
        }
    }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        var before = last;
        last = new(window, time.GetUtcNow(), window.Reading.Quality == WindowQuality.Gap ? before?.Heard : time.GetTimestamp() - (long)((SampleAge() ?? 0) * time.TimestampFrequency), (before?.Number ?? 0) + 1);
        Publish();
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
    }

    /// <summary>Tells those who follow where an alarm has taken a step; belongs to the measuring thread.</summary>
    public void Look()
    {
        var standing = alarms();
        if (!ReferenceEquals(standing, shown))
        {
            shown = standing;
            Publish();
        }
    }

    /// <summary>Tells those who follow that the program lives, and how old the reading is.</summary>
    public void Beat() => feed.Publish(new("beat", () => PageJson.Bytes(writer => StatusJson.Beat(writer, Now))));

    /// <summary>Gives an event of the newest window now, and of all else as it stands when it is sent: who is a little late still hears of every window.</summary>
    public LiveFrame Frame()
    {
        var reading = last;
        return new("status", () => PageJson.Bytes(writer => StatusJson.Write(writer, Now with { Reading = reading })));
    }

    private void Publish()
    {
        if (feed.Followers > 0)
        {
            feed.Publish(Frame());
        }
    }
}
