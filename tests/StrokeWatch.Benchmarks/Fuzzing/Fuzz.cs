using System.Globalization;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>Gives parts that read what comes from outside inputs without end, made from good ones by seeded changes, and tells whether one failed, hung, or the memory grew.</summary>
internal static class Fuzz
{
    /// <summary>One line a target.</summary>
    private static readonly Dictionary<string, Func<IFuzzTarget>> Targets = new(StringComparer.Ordinal)
    {
        ["frames"] = () => new FrameTarget(),
        ["lines"] = () => new LineTarget(),
        ["csv"] = () => new CaptureTarget("csv"),
        ["wav"] = () => new CaptureTarget("wav"),
        ["feeder"] = () => new FeederTarget(),
        ["watch"] = () => new WatchTarget(),
        ["http"] = () => new HttpTarget(),
    };

    /// <summary>Runs with: a target or "all", processor-minutes each (or a number of inputs with an x after it), a seed.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length != 3 || !(arguments[0] == "all" || Targets.ContainsKey(arguments[0]))
            || !int.TryParse(arguments[2], NumberStyles.None, CultureInfo.InvariantCulture, out var seed)
            || !double.TryParse(arguments[1].TrimEnd('x'), NumberStyles.Float, CultureInfo.InvariantCulture, out var most))
        {
            Console.Error.WriteLine($"usage: fuzz all|{string.Join('|', Targets.Keys)} PROCESSOR-MINUTES|INPUTSx SEED");
            return 2;
        }

        var status = 0;
        foreach (var (name, make) in Targets.Where(one => arguments[0] == "all" || arguments[0] == one.Key))
        {
            using var target = make();
            var counted = arguments[1].EndsWith('x');
            status |= new FuzzRun(name, target, seed).Go(counted ? long.MaxValue : 60 * most, counted ? (long)most : long.MaxValue);
        }

        return status;
    }
}
