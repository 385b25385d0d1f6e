using StrokeWatch.Configuration;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Commands;

/// <summary>The <c>simulate</c> command: a capture, and its truth beside it, from the machine model.</summary>
internal static class SimulateCommand
{
    private const int BlockSamples = 4096;

    /// <summary>Simulates a scenario into a capture, whose format its extension says.</summary>
    /// <returns>0, or 2 where the scenario is wrong or the capture cannot be written; then every error is one line.</returns>
    public static int Run(string scenarioPath, string outPath, TextWriter error)
    {
        var reading = ScenarioFile.Read(scenarioPath);
        var problems = reading.Value is { } found ? Problems(found, outPath) : reading.Errors.Select(error => error.ToString()).ToList();
        foreach (var problem in problems)
        {
            error.WriteLine(problem);
        }

        if (problems.Count > 0)
        {
            return 2;
        }

        try
        {
            WriteBoth(reading.Value!, outPath);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            error.WriteLine($"{outPath}: the capture cannot be written ({problem.Message.TrimEnd('.')}); name a file in a folder that is there");
            return 2;
        }

        return 0;
    }

    /// <summary>Writes a capture and its truth.</summary>
    internal static void WriteBoth(FeederScenario scenario, string outPath)
    {
        var truth = Write(scenario, outPath);
        using var stream = File.Create(Path.ChangeExtension(outPath, ".truth.json"));
        TruthJson.Write(truth, stream);
    }

    private static bool IsWav(string path) => Path.GetExtension(path).Equals(".wav", StringComparison.OrdinalIgnoreCase);

    private static List<string> Problems(FeederScenario scenario, string outPath)
    {
        var problems = new List<string>();
        if (!IsWav(outPath))
        {
            if (CaptureWriters.Trouble(outPath) is { } trouble)
            {
                problems.Add(trouble);
            }

            return problems;
        }

        if (scenario.Sensor.Gaps.Count > 0 || scenario.Sensor.HostTimes || scenario.Sensor.TimeJitterSeconds > 0 || scenario.Sensor.TimeStepSeconds > 0)
        {
            problems.Add($"{outPath}: a WAV file has no time column, so it cannot carry gaps or time stamps; name a .csv file");
        }

        return problems;
    }

    private static SimulationTruth Write(FeederScenario scenario, string outPath)
    {
        using var source = new SimulatedFeederSource(scenario);
        using ICaptureSink sink = IsWav(outPath)
            ? new WavCaptureSink(outPath, source.Info.Axes, scenario.Sensor.RateHz, scenario.Sensor.RangeG, source.Info.Places, scenario.Recorded, source.Info.HasSupply)
            : new CsvCaptureSink(outPath, source.Info.Axes, source.Info.Places, scenario.Recorded, source.Info.HasSupply);
        var block = new SampleBlock(source.Info.Axes.Count, BlockSamples);
        while (source.Read(block) == SourceState.Samples)
        {
            sink.Write(block, source.Times);
        }

        return source.Truth();
    }
}
