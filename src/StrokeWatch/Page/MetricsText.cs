using System.Globalization;
using System.Reflection;
using System.Text;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Page.Health;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Page;

/// <summary>Writes how it stands as OpenMetrics text 1.0; what was not measured has no sample, rather than a 0.</summary>
internal sealed class MetricsText
{
    /// <summary>The type of the text.</summary>
    public const string Type = "application/openmetrics-text; version=1.0.0; charset=utf-8";

    private readonly StringBuilder text = new();
    private readonly string feeder;

    private MetricsText(string feeder) => this.feeder = feeder;

    /// <summary>Writes the whole.</summary>
    public static string Of(BoardStatus status, LiveFeed feed, StationHealth? health = null)
    {
        var metrics = new MetricsText(status.Feeder.Name);
        metrics.Build();
        metrics.Measured(status);
        metrics.Band(status);
        metrics.Alarms(status);
        metrics.Kept(status, feed);
        if (health is not null)
        {
            metrics.Station(health);
        }

        return metrics.text.Append("# EOF\n").ToString();
    }

    private void Build()
    {
        Family("strokewatch_build", "info", "", "The program.");
        var version = typeof(MetricsText).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";
        text.Append(CultureInfo.InvariantCulture, $"strokewatch_build_info{{version=\"{Escaped(version)}\"}} 1\n");
    }

    private void Measured(BoardStatus status)
    {
        var reading = status.Stale ? null : status.Reading?.Window.Reading;
        var counted = reading is { Quality: WindowQuality.Good } ? reading : null;
        Gauge("stroke_meters", "meters", "Stroke, peak to peak along the line of action, of the newest window; absent where none was measured in the last 1.7 seconds.", counted?.StrokeMetres);
        Gauge("stroke_uncertainty_meters", "meters", "Expanded uncertainty (k = 2) of that stroke.", counted?.UncertaintyMetres);
        Gauge("drive_hertz", "hertz", "Frequency of the drive.", reading?.FrequencyHz);
        Gauge("strike_score", "", "Strike score; 1 is the threshold.", reading?.StrikeScore);
        var heard = reading is { Strike: true } or { StrikeScore: not null } ? reading : null;
        Gauge("strike", "", "1 where the armature was heard to strike the core, 0 where it was not.", heard is { } struck ? (struck.Strike ? 1 : 0) : null);
        Gauge("strike_possible", "", "1 where no strike was heard and one cannot be ruled out, 0 otherwise.", heard is { } left ? (left.StrikePossible ? 1 : 0) : null);
        var supply = reading is { } window ? SupplyNow.Of(window, status.Feeder) : null;
        Gauge("supply_rms_volts", "volts", "True root mean square of the supply's voltage in the newest window; absent where none is captured.", supply?.Reading.RmsVolts);
        Gauge("supply_mains_volts", "volts", "Root mean square that the mains has, whether or not a controller cuts it.", supply?.Reading.MainsVolts);
        Gauge("supply_phase_degrees", "degrees", "How far the motion runs ahead of the supply.", supply?.Reading.PhaseDegrees);
        Gauge("stroke_at_full_voltage_meters", "meters", "Stroke that full voltage would make; absent where that cannot be told.", supply?.FullStroke);
        Gauge("running", "", "1 where the feeder runs, 0 where it does not.", reading?.Motion is { } motion and not MotionState.Unknown ? (motion == MotionState.Stopped ? 0 : 1) : null);
        Gauge("reading_age_seconds", "seconds", "Time since anything was last heard of the tray.", status.AgeSeconds);
        Counter("windows", "Windows measured since the program started.", status.Reading?.Number ?? 0);
    }

    private void Band(BoardStatus status)
    {
        Gauge("band_low_meters", "meters", "Bottom of the band of the stroke.", status.Feeder.Band.Low.Metres);
        Gauge("band_high_meters", "meters", "Top of the band of the stroke.", status.Feeder.Band.High.Metres);
        Gauge("limit_meters", "meters", "Over-stroke limit.", status.Feeder.Band.Limit.Metres);
    }

    private void Alarms(BoardStatus status)
    {
        Family("strokewatch_alarm_standing", "gauge", "", "1 where the alarm stands where people see it, 0 where it does not; absent where nothing has ever happened to it.");
        foreach (var alarm in status.Alarms)
        {
            var place = alarm.Id.Place is { } known ? $",place=\"{Escaped(SensorPlaces.Name(known))}\"" : "";
            Sample("strokewatch_alarm_standing", alarm.Stands ? 1 : 0, $",alarm=\"{Names.Of(alarm.Id.Kind)}\",priority=\"{Names.Of(alarm.Priority)}\",state=\"{Names.Of(alarm.State)}\"{place}");
        }
    }

    private void Kept(BoardStatus status, LiveFeed feed)
    {
        Gauge("store_waiting_rows", "rows", "Rows that are not committed yet.", status.Store.Waiting);
        Counter("store_windows", "Windows committed.", status.Store.Windows);
        Counter("store_notes", "Alarms and events committed.", status.Store.Notes);
        Counter("store_dropped_windows", "Windows lost because the memory set for them was full.", status.Store.DroppedWindows);
        Counter("store_dropped_notes", "Alarms and events lost because the memory set for them was full.", status.Store.DroppedNotes);
        Gauge("page_followers", "", "Those who follow live.", feed.Followers);
        Counter("page_dropped_events", "Live events that slow followers have lost.", feed.Dropped);
    }

    private void Station(StationHealth health)
    {
        Gauge("store_size_bytes", "bytes", "What the store's files take.", health.StoreBytes);
        Gauge("store_free_bytes", "bytes", "What is free beside them.", health.FreeBytes);
        Many("sensor_samples", "counter", "", "Samples that came.", health.Sensors, Device, sensor => sensor.Samples);
        Many("sensor_missing_samples", "counter", "", "Samples missing in gaps, as far as known.", health.Sensors, Device, sensor => sensor.Missing);
        Many("sensor_gaps", "counter", "", "Gaps in the samples.", health.Sensors, Device, sensor => sensor.Gaps);
        Many("sensor_clipped_samples", "counter", "", "Samples at the sensor's rail.", health.Sensors, Device, sensor => sensor.Clipped);
        Many("sensor_rejected", "counter", "", "Frames or lines turned down.", health.Sensors, Device, sensor => sensor.Rejected.Values.Sum());
        Many("sensor_age_seconds", "gauge", "seconds", "Time since samples came.", health.Sensors, Device, sensor => sensor.AgeSeconds);
        Many("output_sent_rows", "counter", "", "Rows that the output has confirmed.", health.Outputs, Output, one => one.Health.Sent);
        Many("output_refused_rows", "counter", "", "Rows that the output would not have.", health.Outputs, Output, one => one.Health.Refused);
        Many("output_held_rows", "gauge", "rows", "Rows that are not forwarded yet.", health.Outputs, Output, one => one.Health.Held);
        (string Name, bool Troubled)[] troubles =
        [
            .. health.Outputs.Select(one => (one.Name, one.Health.Trouble is not null)),
            .. health.Relay is { } relay ? [("relay", relay.Trouble is not null)] : ((string, bool)[])[],
            .. health.Shelf is { } shelf ? [("captures", shelf.Trouble is not null)] : ((string, bool)[])[],
        ];
        Many("output_trouble", "gauge", "", "1 where the output is in trouble, 0 where it is not.", troubles, (one, _) => $",output=\"{one.Name}\"", one => one.Troubled ? 1 : 0);
        Gauge("relay_energised", "", "1 where the relay is energised, which says that all is well, 0 where it is not; absent where its line cannot be used.", health.Relay?.Energised is { } on ? (on ? 1 : 0) : null);
        Gauge("captures_size_bytes", "bytes", "What waveforms of alarms take.", health.Shelf?.Room?.Bytes);
    }

    private static string Device(SensorHealth sensor, int number) => $",sensor=\"{(sensor.Places.Count > 0 ? string.Join(' ', sensor.Places) : $"{number + 1}")}\"";

    private static string Output((string Name, ForwardingHealth Health) output, int number) => $",output=\"{output.Name}\"";

    private void Many<T>(string name, string type, string unit, string help, IReadOnlyList<T> items, Func<T, int, string> labels, Func<T, double?> value)
    {
        if (items.Count == 0)
        {
            return;
        }

        Family($"strokewatch_{name}", type, unit, help);
        for (var i = 0; i < items.Count; i++)
        {
            if (value(items[i]) is { } number && double.IsFinite(number))
            {
                Sample($"strokewatch_{name}{(type == "counter" ? "_total" : "")}", number, labels(items[i], i));
            }
        }
    }

    private void Gauge(string name, string unit, string help, double? value)
    {
        Family($"strokewatch_{name}", "gauge", unit, help);
        if (value is { } number && double.IsFinite(number))
        {
            Sample($"strokewatch_{name}", number);
        }
    }

    private void Counter(string name, string help, long value)
    {
        Family($"strokewatch_{name}", "counter", "", help);
        Sample($"strokewatch_{name}_total", value);
    }

    private void Family(string name, string type, string unit, string help)
    {
        text.Append(CultureInfo.InvariantCulture, $"# TYPE {name} {type}\n");
        if (unit.Length > 0)
        {
            text.Append(CultureInfo.InvariantCulture, $"# UNIT {name} {unit}\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"# HELP {name} {Escaped(help)}\n");
    }

    private void Sample(string name, double value, string labels = "") =>
        text.Append(CultureInfo.InvariantCulture, $"{name}{{feeder=\"{Escaped(feeder)}\"{labels}}} {value:G12}\n");

    private static string Escaped(string value) =>
        value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal);
}
