using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration;

/// <summary>The daemon's configuration file; it names the feeder file, which is read with it.</summary>
internal static class WatchFile
{
    /// <summary>Days that windows are kept where the file does not say.</summary>
    public const int DefaultKeepDays = 90;

    /// <summary>Reads the configuration and the feeder file it names; all that is wrong with either comes at once.</summary>
    public static ConfigurationResult<WatchConfiguration> Read(string path)
    {
        var errors = new ConfigurationErrors(path);
        if (TomlFile.Read(path, errors) is not { } root)
        {
            return new(null, [.. errors]);
        }

        var reader = new TableReader(root, errors);
        var named = reader.Text("feeder", "the path of a feeder file, in quotes,");
        reader.Require("feeder", "the path of a feeder file");
        reader.Require("sensor", "a table [sensor] with port and protocol, or with kind, bus and device");
        reader.Require("store", "a table [store] with path");
        var ports = SensorPortPart.ReadAll(reader);
        var store = Store(reader, path);
        var alarms = Alarms(reader);
        var level = Level(reader);
        var feederPath = named is null ? "" : FeederFile.Beside(path, named);
        var history = WatchHistoryPart.Read(reader, path, feederPath);
        var influx = InfluxPart.Read(reader, path);
        var mqtt = MqttPart.Read(reader, path);
        var captures = CapturesPart.Read(reader, path, feederPath);
        var webhook = WebhookPart.Read(reader, path);
        var relay = RelayPart.Read(reader);
        var book = Book(reader, path) ?? MachineBook.Beside(feederPath);
        var page = PagePart.Read(reader, path);
        var feeder = named is null ? new(null, []) : FeederFile.Read(feederPath);
        var converter = ConverterPart.Read(reader, feeder.Value?.Drive.SupplyHz);
        reader.Finish();
        if (feeder.Value is { } described && ports.Count > 0 && (PlacedPorts.Trouble(described, ports) ?? ChipPart.Crowded(ports) ?? ChipPart.Clips(described, ports)) is { } misplaced)
        {
            reader.Refuse("sensor", misplaced);
        }

        IReadOnlyList<ConfigurationError> all = [.. errors, .. feeder.Errors];
        if (all.Count > 0 || ports.Count == 0 || store is null || feeder.Value is null)
        {
            return new(null, all);
        }

        return new(
            new()
            {
                FeederPath = feederPath,
                Feeder = PlacedPorts.WithFullScales(feeder.Value, ports),
                Ports = PlacedPorts.WithFullScale(ports, feeder.Value),
                Store = store,
                BookPath = book,
                Alarms = alarms,
                History = history,
                Influx = influx,
                Captures = captures,
                Webhook = webhook,
                Relay = relay,
                Mqtt = mqtt?.Named(feeder.Value.Name),
                Supply = converter,
                LogLevel = level,
                Page = page,
            },
            []);
    }

    private static StoreSettings? Store(TableReader root, string path)
    {
        if (root.Table("store") is not { } table)
        {
            return null;
        }

        var file = table.Text("path", "the path of the database file, in quotes,");
        var days = table.Integer("keep_days", 1, 36_500) ?? DefaultKeepDays;
        table.Require("path", "the path of the database file");
        table.Finish();
        return file is null ? null : new(FeederFile.Beside(path, file), days);
    }

    private static string? Book(TableReader root, string path)
    {
        if (root.Table("book") is not { } table)
        {
            return null;
        }

        var file = table.Text("file", "the path of the machine book, in quotes,");
        table.Finish();
        return file is null ? null : FeederFile.Beside(path, file);
    }

    private static AlarmDelays Alarms(TableReader root)
    {
        var normal = new AlarmDelays();
        if (root.Table("alarms") is not { } table)
        {
            return normal;
        }

        double Delay(string key, double least, double most, double otherwise) => table.Number(key, least, most, "s") ?? otherwise;
        var alarms = new AlarmDelays
        {
            DangerOn = Delay("danger_after_s", 0, 60, normal.DangerOn),
            DangerOff = Delay("danger_clear_s", 0, 3600, normal.DangerOff),
            BandOn = Delay("band_after_s", 0, 3600, normal.BandOn),
            BandOff = Delay("band_clear_s", 0, 3600, normal.BandOff),
            ClippedOn = Delay("clipped_after_s", 0, 3600, normal.ClippedOn),
            ClippedOff = Delay("clipped_clear_s", 0, 3600, normal.ClippedOff),
            SilenceOn = Delay("lost_after_s", 0.5, 600, normal.SilenceOn),
            UnmeasurableOn = Delay("unmeasurable_after_s", 0, 3600, normal.UnmeasurableOn),
            Hysteresis = table.Length("hysteresis", Length.FromMetres(0), Length.FromMillimetres(1)),
        };
        table.Finish();
        return alarms;
    }

    private static LogLevelName Level(TableReader root)
    {
        if (root.Table("log") is not { } table)
        {
            return LogLevelName.Information;
        }

        var level = table.Choice("level", "debug", "information", "warning", "error");
        table.Finish();
        return level is null ? LogLevelName.Information : Enum.Parse<LogLevelName>(level, ignoreCase: true);
    }
}
