using StrokeWatch.Benchmarks;
using StrokeWatch.Benchmarks.Causes;
using StrokeWatch.Benchmarks.Fuzzing;
using StrokeWatch.Benchmarks.Strikes;
using StrokeWatch.Benchmarks.Strikes.Training;
using StrokeWatch.Benchmarks.Sturdy;
using StrokeWatch.Benchmarks.Tuning;

// One line a command; each command is a file of its own.
var commands = new Dictionary<string, Func<string[], int>>(StringComparer.Ordinal)
{
    ["alarm-latency"] = OperatingSystem.IsLinux() ? AlarmLatency.Run : OnLinuxOnly,
    ["alarm-paths"] = OperatingSystem.IsLinux() ? AlarmPaths.Run : OnLinuxOnly,
    ["cause-train"] = CauseTraining.Run,
    ["clipping"] = Clipping.Run,
    ["csv-speed"] = CsvSpeed.Run,
    ["day-memory"] = DayMemory.Run,
    ["diagnosis-study"] = DiagnosisStudy.Run,
    ["efficiency"] = Efficiency.Run,
    ["fuzz"] = Fuzz.Run,
    ["history-cost"] = HistoryCost.Run,
    ["kill-study"] = OperatingSystem.IsLinux() ? KillStudy.Run : OnLinuxOnly,
    ["long-run"] = OperatingSystem.IsLinux() ? LongRun.Run : OnLinuxOnly,
    ["many-boards"] = OperatingSystem.IsLinux() ? ManyBoards.Run : OnLinuxOnly,
    ["many-sensors"] = ManySensors.Run,
    ["page-load"] = OperatingSystem.IsLinux() ? PageLoad.Run : OnLinuxOnly,
    ["page-readers"] = PageReaders.Run,
    ["replay-speed"] = ReplaySpeed.Run,
    ["start-cost"] = OperatingSystem.IsLinux() ? StartCost.Run : OnLinuxOnly,
    ["store-writer"] = StoreWriter.Run,
    ["transients"] = Transients.Run,
    ["strike-study"] = StrikeStudy.Run,
    ["strike-train"] = StrikeTraining.Run,
    ["trend-runs"] = TrendRuns.Run,
    ["tune-study"] = TuningStudy.Run,
    ["watch-cost"] = OperatingSystem.IsLinux() ? WatchCost.Run : OnLinuxOnly,
};

if (args.Length == 0 || !commands.TryGetValue(args[0], out var command))
{
    Console.Error.WriteLine($"usage: StrokeWatch.Benchmarks {string.Join('|', commands.Keys)} …");
    return 2;
}

try
{
    return command(args[1..]);
}
catch (Exception trouble) when (trouble is FormatException or OverflowException && args.Skip(1).SelectMany(word => word.Split(',')).Any(word => trouble.Message.Contains($"'{word}'", StringComparison.Ordinal)))
{
    Console.Error.WriteLine($"{args[0]}: {trouble.Message} A number was expected.");
    return 2;
}

static int OnLinuxOnly(string[] arguments)
{
    Console.Error.WriteLine("this command needs pseudo-terminals, which are made by calls of Linux");
    return 2;
}
