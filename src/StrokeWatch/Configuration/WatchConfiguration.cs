using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Influx;
using StrokeWatch.Outputs.Mqtt;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Outputs.Webhook;
using StrokeWatch.Sensors.Converters;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Configuration;

/// <summary>All that the daemon is told: the feeder, the sensors, the store, the alarms' delays, the log.</summary>
internal sealed record WatchConfiguration
{
    /// <summary>Gets the path of the feeder file.</summary>
    public required string FeederPath { get; init; }

    /// <summary>Gets the feeder; its sensors' full scales are the daemon configuration's where that gives them.</summary>
    public required FeederDescription Feeder { get; init; }

    /// <summary>Gets the devices with sensors, at least one; the full scale of a single sensor is the feeder file's where the daemon's configuration gives none.</summary>
    public required IReadOnlyList<SensorPort> Ports { get; init; }

    /// <summary>Gets the serial port of the first device.</summary>
    public SerialSettings Port => Ports[0].Port;

    /// <summary>Gets how the first device speaks.</summary>
    public SensorSettings Sensor => Ports[0].Sensor;

    /// <summary>Gets the store.</summary>
    public required StoreSettings Store { get; init; }

    /// <summary>Gets the path of the machine book.</summary>
    public required string BookPath { get; init; }

    /// <summary>Gets the alarms' delays.</summary>
    public required AlarmDelays Alarms { get; init; }

    /// <summary>Gets what is learned and followed over weeks.</summary>
    public required WatchHistory History { get; init; }

    /// <summary>Gets the time-series server that rows are forwarded to; null where there is none.</summary>
    public InfluxOptions? Influx { get; init; }

    /// <summary>Gets the broker that is told; null where there is none.</summary>
    public MqttOptions? Mqtt { get; init; }

    /// <summary>Gets which waveforms of alarms are kept; null where none are.</summary>
    public AlarmCaptureOptions? Captures { get; init; }

    /// <summary>Gets whom each step of an alarm is posted to; null where nobody is.</summary>
    public WebhookOptions? Webhook { get; init; }

    /// <summary>Gets the line that drives a relay; null where there is none.</summary>
    public RelayOptions? Relay { get; init; }

    /// <summary>Gets the converter that takes the supply's voltage beside the sensor; null where there is none.</summary>
    public ConverterSettings? Supply { get; init; }

    /// <summary>Gets the least important message that is still logged.</summary>
    public LogLevelName LogLevel { get; init; } = LogLevelName.Information;

    /// <summary>Gets where the page is served; null where it is not.</summary>
    public PageSettings? Page { get; init; }
}
