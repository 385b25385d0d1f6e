using StrokeWatch.Benchmarks;

// One line a command; each command is a file of its own.
var commands = new Dictionary<string, Func<string[], int>>(StringComparer.Ordinal)
{
    ["clipping"] = Clipping.Run,
    ["efficiency"] = Efficiency.Run,
    ["replay-speed"] = ReplaySpeed.Run,
    ["store-writer"] = StoreWriter.Run,
};

if (args.Length == 0 || !commands.TryGetValue(args[0], out var command))
{
    Console.Error.WriteLine($"usage: StrokeWatch.Benchmarks {string.Join('|', commands.Keys)} …");
    return 2;
}

return command(args[1..]);
