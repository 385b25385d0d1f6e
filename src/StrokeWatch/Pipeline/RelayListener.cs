using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Pipeline.Alarms;

namespace StrokeWatch.Pipeline;

/// <summary>Tells the relay what the chain and the alarms say.</summary>
internal sealed class RelayListener : IChainListener, IDisposable
{
    private readonly RelayOptions options;
    private readonly RelayKeeper keeper;

    private RelayListener(RelayOptions options, RelayKeeper keeper) => (this.options, this.keeper) = (options, keeper);

    /// <summary>Gets what is wrong, in a sentence; null where nothing is.</summary>
    public string? Trouble => keeper.Trouble;

    /// <summary>Gets how the relay stands; any thread may ask.</summary>
    public RelayHealth Health => new(FormattableString.Invariant($"gpiochip{options.Chip}, line {options.Line}"), keeper.Energised, keeper.Trouble);

    /// <summary>Starts; null where there is no relay.</summary>
    /// <param name="options">Which line, and how.</param>
    /// <param name="open">Opens the line; null for one of this machine.</param>
    /// <param name="time">The clock.</param>
    /// <param name="log">Is told of trouble.</param>
    public static RelayListener? Start(RelayOptions? options, Func<IRelayLine>? open, TimeProvider time, ILogger log) =>
        options is null ? null : new(options, RelayKeeper.Start(options, time, open, (trouble, words) => Forwarding.Tell(log, trouble, words)));

    /// <summary>Says that the chain lives, and how the alarms stand.</summary>
    public void Beat(IReadOnlyList<AlarmView> alarms) => keeper.Beat(Well(options, alarms));

    /// <summary>
    /// Says whether no alarm drops the relay. Shelving quiets a message, not the relay; an alarm that latched drops it until somebody resets it, so that nothing starts again by itself.
    /// Suppressed by design and out of service do not count: then the alarm means nothing, or an engineer has said so.
    /// </summary>
    public static bool Well(RelayOptions options, IReadOnlyList<AlarmView> alarms)
    {
        for (var i = 0; i < alarms.Count; i++)
        {
            var alarm = alarms[i];
            if (alarm.State is not (AlarmState.SuppressedByDesign or AlarmState.OutOfService)
                && alarm.Beneath is AlarmState.Unacknowledged or AlarmState.Acknowledged or AlarmState.LatchedUnacknowledged or AlarmState.LatchedAcknowledged
                && options.Alarms.Contains(alarm.Id.Kind))
            {
                return false;
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        if (window.Reading.Quality == WindowQuality.Good || window.Reading.Motion == MotionState.Stopped)
        {
            keeper.Measured();
        }
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
    }

    /// <inheritdoc/>
    public void Dispose() => keeper.Dispose();
}
