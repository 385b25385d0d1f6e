using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Relay;

namespace StrokeWatch.Configuration;

/// <summary>The table [relay] of the daemon's configuration: the line that drives a relay.</summary>
internal static class RelayPart
{
    /// <summary>Reads the table; null where it is not there or not as it must be.</summary>
    public static RelayOptions? Read(TableReader root)
    {
        if (root.Table("relay") is not { } table)
        {
            return null;
        }

        var chip = table.Integer("chip", 0, 255) ?? 0;
        var line = table.Integer("line", 0, 63_999);
        var low = table.Flag("active_low") ?? false;
        var heartbeat = table.Number("heartbeat_s", 0.5, 60, "s");
        var alarms = AlarmKinds.Read(table, "alarms");
        table.Require("line", "the line's number on its chip");
        table.Finish();
        return line is not { } number ? null : new()
        {
            Chip = chip,
            Line = number,
            ActiveLow = low,
            Heartbeat = heartbeat is { } seconds ? TimeSpan.FromSeconds(seconds) : null,
            Alarms = alarms ?? RelayOptions.Usual,
        };
    }
}
