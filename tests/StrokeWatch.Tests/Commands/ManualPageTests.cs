using StrokeWatch.Commands;
using StrokeWatch.Tests.House;
using Xunit;

namespace StrokeWatch.Tests.Commands;

/// <summary>The manual page of the package beside the commands that there are.</summary>
public sealed class ManualPageTests
{
    private const string Page = "systemd/strokewatch.1";
    private const string Switch = "STROKEWATCH_RERECORD";
    private const string Before = ".SH COMMANDS\n";
    private const string After = ".SH EXIT STATUS\n";

    [Fact]
    public void The_manual_page_tells_every_command_and_option_in_the_words_of_the_table_and_no_other()
    {
        var (head, commands, tail) = Split(SourceTree.Text(Page));
        var table = ManualPage.Commands(Root());
        if (Environment.GetEnvironmentVariable(Switch) is { Length: > 0 } && table != commands)
        {
            File.WriteAllText(Path.Combine(SourceTree.Root, Page), head + table + tail);
            Assert.Fail($"wrote {Page} anew; run again without {Switch}");
        }

        Assert.True(table == commands, $"{Page} is not what the table of commands says; {Switch}=1 writes that part anew");
        Assert.Contains(".SS tune advise\n", commands, StringComparison.Ordinal);
        Assert.Contains("\\fB\\-\\-config\\fR", commands, StringComparison.Ordinal);
    }

    [Fact]
    public void The_manual_page_names_all_exit_statuses_and_is_plain_ascii()
    {
        var page = SourceTree.Text(Page);
        var (_, _, tail) = Split(page);
        Assert.All([CommandLine.Well, CommandLine.NotWell, CommandLine.Bad, CommandLine.NoStroke], status => Assert.Contains($".TP\n.B {status}\n", tail, StringComparison.Ordinal));
        Assert.DoesNotContain("\t", page, StringComparison.Ordinal);
        Assert.All(page.Split('\n'), line => Assert.True(line.Length == 0 || line[0] != '.' || line.Split(' ')[0] is ".TH" or ".SH" or ".SS" or ".TP" or ".B" or ".I" or ".PP" or ".BR" or ".\\\"", line));
    }

    private static (string Head, string Commands, string Tail) Split(string page)
    {
        var begin = page.IndexOf(Before, StringComparison.Ordinal) + Before.Length;
        var end = page.IndexOf(After, StringComparison.Ordinal);
        Assert.True(begin >= Before.Length && end >= begin, $"{Page} lacks a heading");
        return (page[..begin], page[begin..end], page[end..]);
    }

    private static System.CommandLine.RootCommand Root() => CommandLine.Root(new()
    {
        Output = TextWriter.Null,
        Error = TextWriter.Null,
        RawOutput = Stream.Null,
        Time = TimeProvider.System,
        Stop = CancellationToken.None,
    });
}
