using System.Text.RegularExpressions;
using StrokeWatch.Configuration;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

/// <summary>The example that the package installs, held against what the reader asks for: every table, every key.</summary>
public sealed partial class ExampleFileTests : IDisposable
{
    private const string Nobody = "nobody_knows_this";
    private const string Head = "feeder = \"sand.toml\"\n";
    private const string Port = "[sensor]\nport = \"/dev/ttyACM0\"\nprotocol = \"lines\"\n";
    private const string Chip = "[sensor]\nkind = \"adxl357\"\nbus = \"spi\"\ndevice = \"/dev/spidev0.0\"\n";
    private const string Store = "[store]\npath = \"sand.db\"\n";
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void It_names_every_table_and_every_key_that_is_read()
    {
        folder.Write("sand.toml", Examples.Least);
        var shown = Shown();
        var tables = Known($"{Head}{Nobody} = 1\n{Port}{Store}");
        Assert.Equal(14, tables.Count);
        Assert.Empty(tables.Where(table => table != "feeder").Except(shown.Keys));
        Assert.Empty(shown.Keys.Except(tables));
        var asked = 0;
        foreach (var table in tables.Where(table => table != "feeder"))
        {
            string[] ways = table switch
            {
                "sensor" => [$"{Head}{Port}{Nobody} = 1\n{Store}", $"{Head}{Chip}{Nobody} = 1\n{Store}"],
                "store" => [$"{Head}{Port}{Store}{Nobody} = 1\n"],
                _ => [$"{Head}{Port}{Store}[{table}]\n{Nobody} = 1\n"],
            };
            foreach (var way in ways)
            {
                var known = Known(way);
                Assert.True(known.Count > 0);
                asked += known.Count;
                Assert.Equal((table, ""), (table, string.Join(' ', known.Except(shown[table]))));
            }
        }

        Assert.True(asked > 80, $"only {asked} keys were asked for");
    }

    /// <summary>Gives what the reader would have known where it met a key that nobody knows.</summary>
    private List<string> Known(string configuration)
    {
        var words = WatchFile.Read(folder.Write("watch.toml", configuration)).Errors.Select(error => error.Message).Single(words => words.Contains(Nobody, StringComparison.Ordinal));
        return [.. words[(words.IndexOf("Known here: ", StringComparison.Ordinal) + "Known here: ".Length)..].Split(", ")];
    }

    /// <summary>Gives the keys of each table of the example, those that stand there as comments too.</summary>
    private static Dictionary<string, HashSet<string>> Shown()
    {
        var shown = new Dictionary<string, HashSet<string>>(StringComparer.Ordinal);
        var table = "";
        foreach (var line in File.ReadAllLines(Path.Combine(WatchFileTests.Repository(), "systemd", "strokewatch.toml")))
        {
            if (Title().Match(line) is { Success: true } title)
            {
                table = title.Groups[1].Value;
                shown.TryAdd(table, []);
            }
            else if (Key().Match(line) is { Success: true } key && table.Length > 0)
            {
                shown[table].Add(key.Groups[1].Value);
            }
        }

        return shown;
    }

    [GeneratedRegex(@"^(?:# )?\[\[?([a-z]+)\]\]?(?:\s|$)")]
    private static partial Regex Title();

    [GeneratedRegex(@"^(?:# )?([a-z0-9_]+) = ")]
    private static partial Regex Key();
}
