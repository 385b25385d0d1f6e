using Serilog;
using StrokeWatch.Outputs.Influx;
using StrokeWatch.Pipeline.Alarms;

namespace StrokeWatch.Pipeline;

/// <summary>Starts what forwards the store and lets its trouble, and the end of it, be read in the log.</summary>
internal static class Forwarding
{
    /// <summary>Starts to forward to a time-series server; null where none is configured.</summary>
    public static InfluxForwarder? Start(InfluxOptions? influx, string store, string feeder, TimeProvider time, ILogger log) =>
        influx is null ? null : InfluxForwarder.Start(influx, store, feeder, time, (trouble, words) => Tell(log, trouble, words));

    /// <summary>Tells the alarms while rows do not get through.</summary>
    public static void Watch(InfluxForwarder? influx, AlarmDesk alarms)
    {
        if (influx?.Health.Trouble is not null)
        {
            alarms.Failed("forwarding to the time-series server");
        }
    }

    private static void Tell(ILogger log, bool trouble, string words)
    {
        if (trouble)
        {
            log.Warning("{Words:l}", words);
        }
        else
        {
            log.Information("{Words:l}", words);
        }
    }
}
