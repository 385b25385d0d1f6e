using System.Globalization;
using System.Text;
using System.Text.Json;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated.Histories;

namespace StrokeWatch.Commands;

/// <summary>The <c>simulate</c> command on a history: dated captures with their truths, the feeder's file, and the truth of the whole.</summary>
internal static class HistoryCommand
{
    /// <summary>Simulates a history into a folder, which is made where it is not there.</summary>
    /// <returns>0, or 2 where the file is wrong or the folder cannot be written; then every error is one line.</returns>
    public static int Run(string historyPath, string folder, TextWriter error)
    {
        var reading = HistoryFile.Read(historyPath);
        if (reading.Value is not { } history)
        {
            foreach (var problem in reading.Errors)
            {
                error.WriteLine(problem);
            }

            return CommandLine.Bad;
        }

        try
        {
            Directory.CreateDirectory(folder);
            File.WriteAllText(Path.Combine(folder, "feeder.toml"), FeederToml(history.Feeder));
            foreach (var capture in history.Captures)
            {
                SimulateCommand.WriteBoth(capture.Scenario, Path.Combine(folder, Name(capture)));
            }

            using var stream = File.Create(Path.Combine(folder, "history.truth.json"));
            Truth(history, stream);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException or ArgumentException)
        {
            error.WriteLine($"{folder}: the history cannot be written ({problem.Message.TrimEnd('.').ReplaceLineEndings(" ")}); name a folder that can be made and written to");
            return CommandLine.Bad;
        }

        return CommandLine.Well;
    }

    private static string Name(HistoryCapture capture) => capture.Recorded.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z.wav'", CultureInfo.InvariantCulture);

    private static void Truth(FaultHistory history, Stream stream)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteNumber("seed", history.Seed);
        json.WriteString("kind", history.Kind ?? HistoryWishes.Healthy);
        json.WriteString("growth", history.Kind is null ? null : history.Growth.ToString().ToLowerInvariant());
        json.WriteString("onset", history.Onset is { } onset ? RecordedDate.Text(onset) : null);
        json.WriteStartArray("captures");
        foreach (var capture in history.Captures)
        {
            json.WriteStartObject();
            json.WriteString("file", Name(capture));
            json.WriteString("recorded", RecordedDate.Text(capture.Recorded));
            json.WriteNumber("severity", Math.Round(capture.Severity, 6));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }

    private static string FeederToml(FeederDescription feeder)
    {
        var text = new StringBuilder();
        void Line(FormattableString line) => text.Append(FormattableString.Invariant(line)).Append('\n');
        Line($"name = \"{feeder.Name}\"\n\n[drive]\nsupply_hz = {feeder.Drive.SupplyHz}\nstrokes_per_cycle = {feeder.Drive.StrokesPerCycle}\nfrequency = \"supply\"");
        Line($"\n[stroke]\nlow = \"{feeder.Band.Low.Millimetres:0.0000} mm\"\nhigh = \"{feeder.Band.High.Millimetres:0.0000} mm\"\nlimit = \"{feeder.Band.Limit.Millimetres:0.0000} mm\"");
        Line($"\n[masses]\ntray_kg = {feeder.Masses!.TrayKilograms:0.000}\nbody_kg = {feeder.Masses.BodyKilograms:0.000}");
        Line($"\n[air_gap]\nrest_mm = {feeder.RestGapMetres * 1e3:0.000}");
        var scale = FormattableString.Invariant($"full_scale_g = {feeder.Sensor.FullScale / Gravity.Standard:0}");
        if (feeder.Sensors.Count == 0)
        {
            Line($"\n[sensor]\n{scale}");
        }

        foreach (var sensor in feeder.Sensors)
        {
            Line($"\n[[sensors]]\nplace = \"{SensorPlaces.Name(sensor.Place)}\"\n{scale}");
        }

        return text.ToString();
    }
}
