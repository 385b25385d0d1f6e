using System.Globalization;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks;

/// <summary>Measures what 1 to 32 measurement chains cost in one process, fed the same blocks in turn as sensors that run side by side would.</summary>
internal static class ManySensors
{
    private const int MostSensors = 32, Turns = 5, WarmUp = 10;
    private const double MostOverLinear = 1.25;

    /// <summary>Runs with: seconds of signal, 60 where not given.</summary>
    public static int Run(string[] arguments)
    {
        var seconds = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 60;
        var blocks = TraySignal.Blocks();
        _ = Cost(2, blocks, seconds);
        int[] numbers = [1, 2, 4, 8, 16, MostSensors];

        // By turns of all numbers, so that what else the machine does meets them alike.
        var best = numbers.ToDictionary(sensors => sensors, _ => double.PositiveInfinity);
        for (var turn = 0; turn < Turns; turn++)
        {
            foreach (var sensors in numbers)
            {
                best[sensors] = Math.Min(best[sensors], Cost(sensors, blocks, sensors == 1 ? 8 * seconds : seconds));
            }
        }

        foreach (var sensors in numbers)
        {
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{sensors,2} sensors: {1e6 * best[sensors] / sensors:0.0} µs of processor a second of signal and sensor, {100 * best[sensors]:0.000} % of one core in all"));
        }

        var targets = new Targets();
        targets.Below($"{MostSensors} sensors beside {MostSensors} times one", best[MostSensors] / (MostSensors * best[1]), MostOverLinear, "times");
        return targets.Status;
    }

    /// <summary>Gives the processor time of all sensors for a second of signal, in s.</summary>
    private static double Cost(int sensors, SampleBlock[] blocks, int seconds)
    {
        var feeder = DemoScenario.Feeder;
        var info = new SourceInfo { Format = "frames", Axes = TraySignal.Axes, RateHz = TraySignal.RateHz, FullScale = 32 * Gravity.Standard };
        var counters = new Counter[sensors];
        var chains = new MeasurementChain[sensors];
        for (var i = 0; i < sensors; i++)
        {
            chains[i] = new(feeder, new AlarmDelays(), counters[i] = new());
            chains[i].Begin(ChainSettings.For(feeder, info, TraySignal.RateHz));
        }

        // What each chain learns in its first windows costs the same however long it then runs.
        Feed(chains, blocks, 0, WarmUp);
        var before = ProcessorTime.Own();
        Feed(chains, blocks, WarmUp, seconds);
        var cost = (ProcessorTime.Own() - before) / seconds;
        if (counters.Any(counter => counter.Strokes < 1.5 * (WarmUp + seconds) - 5))
        {
            throw new InvalidOperationException("a sensor gave too few strokes: the benchmark measures nothing");
        }

        return cost;
    }

    private static void Feed(MeasurementChain[] chains, SampleBlock[] blocks, int from, int seconds)
    {
        for (var second = from; second < from + seconds; second++)
        {
            var block = blocks[second % blocks.Length];
            block.StartSeconds = second;
            foreach (var chain in chains)
            {
                chain.Take(block);
            }
        }
    }

    private sealed class Counter : IChainListener
    {
        public int Strokes { get; private set; }

        public void Window(in AssessedWindow window) => Strokes += window.Reading.StrokeMetres is null ? 0 : 1;

        public void Decay(in DecayReading decay)
        {
        }

        public void Alarm(in AlarmTransition transition)
        {
        }
    }
}
