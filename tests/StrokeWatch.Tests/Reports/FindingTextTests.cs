using System.Globalization;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Reports;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Tests.Assessment.Watching;
using Xunit;

namespace StrokeWatch.Tests.Reports;

/// <summary>What a person reads of a change over weeks.</summary>
public sealed class FindingTextTests
{
    [Fact]
    public void The_words_are_the_same_where_a_comma_stands_for_the_point()
    {
        var before = CultureInfo.CurrentCulture;
        var plain = Say();
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            (comma.NumberFormat.NumberDecimalSeparator, comma.NumberFormat.NumberGroupSeparator) = (",", ".");
            CultureInfo.CurrentCulture = comma;
            Assert.Equal(plain, Say());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        Assert.Contains(plain, line => line.Contains("1.7", StringComparison.Ordinal) && line.Contains(" mm (0.0", StringComparison.Ordinal) && line.Contains(" in)", StringComparison.Ordinal));
        Assert.Contains(plain, line => line.StartsWith("            1. ", StringComparison.Ordinal));
    }

    [Fact]
    public void The_panel_says_check_and_not_alarm_and_keeps_it_out_of_the_count_of_alarms()
    {
        var output = new StringWriter();
        var panel = new LivePanel(output, terminal: false, DemoScenario.Feeder, new FakeTimeProvider());
        panel.Alarm(new(AlarmKind.MachineChanged, true, 0, null, "The machine has changed."));
        panel.Window(new(new() { StartSeconds = 0, LengthSeconds = 0.5, Quality = 0, Motion = 0, StrokeMetres = 1.7e-3 }, 0));
        panel.Alarm(new(AlarmKind.MachineChanged, false, 0, null, "As it was."));
        panel.Window(new(new() { StartSeconds = 1, LengthSeconds = 0.5, Quality = 0, Motion = 0, Reason = "other words", StrokeMetres = null }, 0));

        var lines = output.ToString().Split(Environment.NewLine);
        Assert.Contains("CHECK  The machine has changed.", lines[0], StringComparison.Ordinal);
        Assert.EndsWith("  machine changed", lines[1], StringComparison.Ordinal);
        Assert.DoesNotContain("alarms", lines[1], StringComparison.Ordinal);
        Assert.Contains("clear  As it was.", lines[2], StringComparison.Ordinal);
        Assert.DoesNotContain("machine changed", lines[3], StringComparison.Ordinal);
        Assert.DoesNotContain("ALARM", output.ToString(), StringComparison.Ordinal);
    }

    private static IReadOnlyList<string> Say()
    {
        var machine = new Synthetic(2);
        var watch = machine.Learned();
        for (var i = 0; i < 40; i++)
        {
            var outcome = watch.Take(machine.Next(stroke: 0.05, transient: false));
            if (outcome.AlarmRaised)
            {
                return [.. FindingText.Lines(outcome.Findings[0].Finding), outcome.AlarmWords!, watch.Progress(), watch.Baseline!.Note!];
            }
        }

        throw new Xunit.Sdk.XunitException("Nothing was raised.");
    }
}
