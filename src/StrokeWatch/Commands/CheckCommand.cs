using System.Globalization;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Outputs.Influx;
using StrokeWatch.Outputs.Mqtt;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Outputs.Webhook;
using StrokeWatch.Reports;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Commands;

/// <summary>The command <c>check</c>: reads the configuration, says all that is wrong with it at once, then touches the port and the store's folder.</summary>
internal static class CheckCommand
{
    /// <summary>Where the daemon's configuration is looked for when no file is named.</summary>
    public const string DefaultConfiguration = "/etc/strokewatch/strokewatch.toml";

    /// <summary>
    /// Checks a configuration, or a feeder file alone, or both; 0 all well, 1 configuration well but the port or the store's folder is not, 2 configuration wrong.
    /// </summary>
    public static int Run(string? configPath, string? feederPath, TextWriter output, TextWriter error, TimeProvider time) =>
        Run(configPath, feederPath, output, error, new SerialPortProbe(time), new ChipProbe(time));

    /// <summary>Checks with another way of touching the port, and chips.</summary>
    public static int Run(string? configPath, string? feederPath, TextWriter output, TextWriter error, IPortProbe probe, IChipProbe chips)
    {
        var errors = new List<ConfigurationError>();
        var feeder = feederPath is null ? null : FeederFile.Read(feederPath);
        errors.AddRange(feeder?.Errors ?? []);
        if (configPath is null && feederPath is null)
        {
            if (!File.Exists(DefaultConfiguration))
            {
                error.WriteLine($"{DefaultConfiguration}: there is no such file; write one (systemd/strokewatch.toml is an example) or give --config FILE");
                return 2;
            }

            configPath = DefaultConfiguration;
        }

        var watch = configPath is null ? null : WatchFile.Read(configPath);
        errors.AddRange(watch?.Errors ?? []);
        var baseline = watch?.Value?.History.BaselinePath is { } file ? Baselines(file, errors) : null;
        if (errors.Count > 0)
        {
            foreach (var wrong in errors.Distinct())
            {
                error.WriteLine(wrong);
            }

            return 2;
        }

        if (feeder?.Value is { } alone)
        {
            output.WriteLine($"ok       feeder file {feederPath}: {Describe(alone)}");
        }

        return watch?.Value is { } configuration ? Touch(configPath!, configuration, baseline, output, error, probe, chips) : 0;
    }

    private static int Touch(string path, WatchConfiguration configuration, Baseline? baseline, TextWriter output, TextWriter error, IPortProbe probe, IChipProbe chips)
    {
        output.WriteLine($"ok       configuration {path}");
        output.WriteLine($"ok       feeder file {configuration.FeederPath}: {Describe(configuration.Feeder)}");
        var port = true;
        foreach (var device in configuration.Ports)
        {
            var (serial, speech) = device;
            var at = speech.Places.Count == 0 ? "" : $" ({string.Join(", ", speech.Places.Select(SensorPlaces.Name))})";
            port &= device.Chip is { } chip
                ? new ChipWalk(configuration.Feeder, chips, well => Say(well, null), words => output.WriteLine($"note     {words}"), wrong => Say("", wrong)).Run(chip, at, ChipPart.OnTray(device))
                : Say($"serial port {serial.Path}{at}: open, and bytes come", probe.Trouble(serial))
                    && (probe.Listen(device, configuration.Feeder) is not { } heard
                        || new PortWalk(configuration.Feeder, well => Say(well, null), words => output.WriteLine($"note     {words}"), wrong => Say("", wrong)).Run(device, at, heard));
        }

        if (configuration.Supply is { } converter)
        {
            var (volts, wrong) = probe.Convert(converter);
            var mains = volts * (configuration.Feeder.Supply?.VoltsPerUnit ?? 1);
            port &= Say(string.Create(CultureInfo.InvariantCulture, $"{converter.Name}: {volts:0.000} V at its input, {mains:0.0} V of the supply by scale_v"), wrong);
        }

        var folder = StoreFolderTrouble(configuration.Store.Path);
        var store = Say($"store {configuration.Store.Path}", folder is null ? null : $"store {configuration.Store.Path} {folder}");
        var known = Known(configuration.History, baseline, Say);
        var book = Say($"machine book {configuration.BookPath}", BookTrouble(configuration));
        var outputs = configuration.Influx is not { } influx || Say($"time-series server {influx.Url}: answers, and would take rows", InfluxProbe.Trouble(influx));
        outputs &= configuration.Mqtt is not { } mqtt || Say($"broker {mqtt.Host}:{mqtt.Port}: lets us in, topics begin with {(mqtt.Profile == MqttProfile.Sparkplug ? $"spBv1.0/{mqtt.Group}/" : mqtt.TopicOf(""))}", MqttProbe.Trouble(mqtt));
        outputs &= configuration.Webhook is not { } webhook || Say($"webhook {webhook.Url}: somebody listens there; nothing was sent", WebhookProbe.Trouble(webhook));
        outputs &= configuration.Relay is not { } relay || Say($"relay at line {relay.Line} of /dev/gpiochip{relay.Chip}: may be used; nothing was switched", RelayProbe.Trouble(relay));
        if (configuration.Captures is { } captures)
        {
            var wrong = StoreFolderTrouble(Directory.Exists(captures.Folder) ? Path.Combine(captures.Folder, "capture") : captures.Folder);
            outputs &= Say($"captures of alarms go to {captures.Folder}, {captures.QuotaBytes / 1_000_000} MB at most", wrong is null ? null : $"captures {captures.Folder} {wrong}");
        }

        if (port && store && known && book && outputs)
        {
            output.WriteLine($"next     strokewatch watch --config {path}");
        }

        return port && store && known && book && outputs ? 0 : 1;

        bool Say(string well, string? trouble)
        {
            (trouble is null ? output : error).WriteLine(trouble is null ? $"ok       {well}" : $"trouble  {trouble}");
            return trouble is null;
        }
    }

    /// <summary>Says whether healthy is known, or can be learned and written down.</summary>
    private static bool Known(WatchHistory history, Baseline? baseline, Func<string, string?, bool> say)
    {
        if (baseline is not null)
        {
            return say($"baseline {history.BaselinePath}: {BaselineText.Title(baseline)}", null);
        }

        if (history.Learning is null)
        {
            return say("baseline: none, and none is to be learned: changes over weeks will not be told", null);
        }

        var trouble = StoreFolderTrouble(history.BaselinePath!);
        return say($"baseline {history.BaselinePath}: none yet; watch learns it", trouble is null ? null : $"baseline {history.BaselinePath} {trouble}");
    }

    /// <summary>Says whether running can be counted: a book that is there must be one, and its folder be writable.</summary>
    private static string? BookTrouble(WatchConfiguration configuration)
    {
        var path = configuration.BookPath;
        if (StoreFolderTrouble(path) is { } trouble)
        {
            return $"machine book {path} {trouble}";
        }

        if (!File.Exists(path))
        {
            return null;
        }

        try
        {
            using var book = BookAccess.OpenReader(path, configuration.FeederPath, configuration.Feeder.Name);
            _ = book.Running.Read();
            return null;
        }
        catch (BookException broken)
        {
            return $"machine book {broken.Message}";
        }
    }

    private static Baseline? Baselines(string path, List<ConfigurationError> errors)
    {
        var wrong = new ConfigurationErrors(path);
        var history = BaselineFile.Read(path, wrong);
        errors.AddRange(wrong);
        return history?.Current;
    }

    private static string Describe(FeederDescription feeder) => string.Create(
        CultureInfo.InvariantCulture,
        $"{feeder.Name}, {feeder.Drive.NominalHz:0.###} strokes a second, band {feeder.Band.Low} to {feeder.Band.High}, limit {feeder.Band.Limit}{(feeder.Sensors.Count == 0 ? "" : $", sensors {string.Join(", ", feeder.Sensors.Select(sensor => SensorPlaces.Name(sensor.Place)))}")}");

    /// <summary>Tries a file of its own in the store's folder: only that tells a folder that can be written.</summary>
    private static string? StoreFolderTrouble(string path)
    {
        if (Directory.Exists(path))
        {
            return "is a directory: name a file in `path`";
        }

        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        if (!Directory.Exists(folder))
        {
            return $"cannot be made: create the folder {folder}";
        }

        try
        {
            var trial = Path.Combine(folder, Path.GetRandomFileName());
            using (File.Create(trial, 1, FileOptions.DeleteOnClose))
            {
            }

            if (File.Exists(path))
            {
                using var handle = File.OpenHandle(path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete);
            }

            return null;
        }
        catch (UnauthorizedAccessException)
        {
            return $"may not be written by this user: change the owner of {folder}, or run the check as the daemon's user";
        }
        catch (IOException e)
        {
            return $"cannot be written ({e.Message.ReplaceLineEndings(" ")}): free some space or choose another `path`";
        }
    }
}
