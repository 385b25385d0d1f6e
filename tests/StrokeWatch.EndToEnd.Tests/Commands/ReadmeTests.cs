using System.Text.RegularExpressions;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>The commands that the README quotes, run as they stand.</summary>
public sealed partial class ReadmeTests
{
    private const string Development = "dotnet run -c Release --project src/StrokeWatch -- ";
    private const string Demonstration = Development + "watch --demo";
    private const string Tests = "tests/run";

    [Fact]
    public void The_two_main_commands_stand_there_literally_each_alone_and_before_all_others()
    {
        Assert.Equal([Demonstration, Tests], Quoted().Take(2));
        Assert.True(File.Exists(Path.Combine(Repository.Root, Tests)));
    }

    [Fact]
    public async Task Every_other_command_does_what_it_is_quoted_for()
    {
        var others = Quoted().Where(command => command is not Demonstration and not Tests).ToList();
        Assert.NotEmpty(others);
        foreach (var command in others)
        {
            var words = command.StartsWith(Development, StringComparison.Ordinal) ? command[Development.Length..] : command["strokewatch ".Length..];
            Assert.True(command == Development + words || command == "strokewatch " + words, $"README.md quotes a command that no test runs: {command}");
            var arguments = words.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            using var made = new Made(arguments);
            var outcome = await Running.Run(Repository.Root, arguments);
            Assert.True(outcome.Status is 0 or 1, $"{command}: status {outcome.Status}, {outcome.Error}");
            Assert.Equal("", outcome.Error);
            Assert.True(outcome.Out.Length > 0 || made.Exists, $"{command} gives nothing");
        }
    }

    /// <summary>Gives the lines of the README's shell blocks.</summary>
    private static List<string> Quoted()
    {
        var text = File.ReadAllText(Path.Combine(Repository.Root, "README.md"));
        List<string> lines = [.. ShellBlock().Matches(text).SelectMany(block => block.Groups[1].Value.Split('\n')).Select(line => line.Trim())
            .Where(line => line.Length > 0 && !line.StartsWith('#'))];
        Assert.NotEmpty(lines);
        return lines;
    }

    [GeneratedRegex("^```sh\n(.*?)^```$", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex ShellBlock();

    /// <summary>The files that a quoted command makes, which are gone afterwards.</summary>
    private sealed class Made(string[] arguments) : IDisposable
    {
        private readonly string? target = Array.IndexOf(arguments, "--out") is var at and >= 0 ? arguments[at + 1] : null;

        public bool Exists => target is not null && File.Exists(target);

        public void Dispose()
        {
            if (target is not null && Path.IsPathRooted(target))
            {
                File.Delete(target);
                File.Delete(Path.ChangeExtension(target, ".truth.json"));
            }
        }
    }
}
