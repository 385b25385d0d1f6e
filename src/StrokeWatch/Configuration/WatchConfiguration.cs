using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Configuration;

/// <summary>All that the daemon is told: the feeder, the sensor, the store, the alarms' delays, the log.</summary>
internal sealed record WatchConfiguration
{
    /// <summary>Gets the path of the feeder file.</summary>
    public required string FeederPath { get; init; }

    /// <summary>Gets the feeder; its sensor's full scale is the daemon configuration's where that gives one.</summary>
    public required FeederDescription Feeder { get; init; }

    /// <summary>Gets the sensor's port and protocol.</summary>
    public required SensorSettings Sensor { get; init; }

    /// <summary>Gets the store.</summary>
    public required StoreSettings Store { get; init; }

    /// <summary>Gets the alarms' delays.</summary>
    public AlarmDelays Alarms { get; init; } = new();

    /// <summary>Gets the least important message that is still logged.</summary>
    public LogLevelName LogLevel { get; init; } = LogLevelName.Information;
}
