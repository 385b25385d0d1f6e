using System.Globalization;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Sensors.Simulated.Faults;
using StrokeWatch.Sensors.Simulated.Histories;

namespace StrokeWatch.Benchmarks;

/// <summary>What a simulated history costs of processor time: <c>history-cost COUNT</c>; drawing, simulating and replaying apart.</summary>
internal static class HistoryCost
{
    private const double Target = 1.0;

    /// <summary>Runs so many histories of every kind.</summary>
    public static int Run(string[] arguments)
    {
        var count = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 1;
        double draw = 0, simulate = 0, replay = 0;
        var (histories, captures, silent) = (0, 0, 0);
        foreach (var kind in FaultTable.Names.Append(HistoryWishes.Healthy))
        {
            for (var seed = 1; seed <= count; seed++)
            {
                var at = ProcessorTime.Own();
                var history = FaultHistory.Draw((ulong)(9000 + seed), new() { Kind = kind });
                draw += ProcessorTime.Own() - at;
                histories++;
                foreach (var capture in history.Captures)
                {
                    at = ProcessorTime.Own();
                    using var source = new SimulatedFeederSource(capture.Scenario);
                    var kept = Recording.Of(source);
                    simulate += ProcessorTime.Own() - at;
                    at = ProcessorTime.Own();
                    var features = Replayer.Run(kind, kept, history.Feeder, new AlarmDelays()).Features;
                    replay += ProcessorTime.Own() - at;
                    captures++;
                    if (capture.Severity == 0 && features.Stroke is null)
                    {
                        silent++;
                        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind}, seed {history.Seed}: no stroke in a healthy capture: {features.Reason}"));
                    }
                }
            }
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{histories} histories, {captures} captures, {silent} healthy ones without a stroke; a history: drawn {draw / histories:0.000} s, simulated {simulate / histories:0.000} s, replayed {replay / histories:0.000} s (processor time; target: drawn and simulated in {Target:0.0} s)"));
        return silent == 0 && (draw + simulate) / histories <= Target ? 0 : 1;
    }
}
