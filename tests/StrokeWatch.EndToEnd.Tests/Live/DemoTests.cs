using System.Globalization;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Store;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The README's first command, seen from outside: it is started with the collection and heard out here.</summary>
[Collection(RealTime.Name)]
public sealed class DemoTests(DemoRun demo, ITestOutputHelper output)
{
    private string Folder => Path.Combine(demo.Start, "demo");

    [Fact]
    public async Task A_healthy_feeder_drifts_to_over_stroke_and_then_strikes_within_two_minutes()
    {
        var outcome = await demo.End();
        output.WriteLine(outcome.Out);
        Assert.Equal(1, outcome.Status);
        outcome.ShouldBePlain();
        string[] story = ["in band", "HIGH", "ALARM  OVER-STROKE", "Stop the feeder", "ALARM  ARMATURE STRIKE", "Over. "];
        var at = 0;
        foreach (var part in story)
        {
            at = outcome.Out.IndexOf(part, at, StringComparison.Ordinal);
            Assert.True(at >= 0, $"'{part}' is missing, or comes too early");
        }

        foreach (var line in outcome.Out.Split('\n').Where(line => line.Contains("ALARM  OVER", StringComparison.Ordinal) || line.Contains("ALARM  ARM", StringComparison.Ordinal)))
        {
            Assert.EndsWith("Stop the feeder.", line.TrimEnd(), StringComparison.Ordinal);
        }

        Assert.Contains("not a safety function", outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_database_holds_windows_alarms_and_events_of_the_whole_run()
    {
        await demo.End();
        var database = Path.Combine(Folder, "demo.db");
        Assert.Null(Database.Damage(database));
        Assert.InRange(Database.Windows(database).Count, 155, 175);
        AlarmKind[] raised = [.. Database.Alarms(database).Where(alarm => alarm.Transition.Raised).Select(alarm => alarm.Transition.Kind)];
        Assert.Equal([AlarmKind.HighStroke, AlarmKind.OverStroke, AlarmKind.Strike], raised);
        Assert.InRange(At(AlarmKind.HighStroke), 22, 34);
        Assert.InRange(At(AlarmKind.OverStroke), 35, 46);
        Assert.InRange(At(AlarmKind.Strike), 55, 59);
        Assert.Equal(StoreEventKind.Start, Database.Events(database)[0].Kind);
        Assert.Equal(StoreEventKind.Stop, Database.Events(database)[^1].Kind);

        double At(AlarmKind kind) => Database.Alarm(database, kind, raised: true)!.Transition.AtSeconds;
    }

    [Fact]
    public async Task The_capture_left_behind_gives_the_same_alarms_when_replayed_as_the_demonstration_says()
    {
        var outcome = await demo.End();
        var quoted = outcome.Out.Split('\n').Single(line => line.Contains("strokewatch replay", StringComparison.Ordinal));
        var arguments = quoted[quoted.IndexOf("replay", StringComparison.Ordinal)..].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var replayed = await Running.Run(demo.Start, [.. arguments, "--json", "-"]);
        Assert.Equal((1, ""), (replayed.Status, replayed.Error));
        var document = replayed.Document();
        Contract.Check(document);

        var stored = Database.Alarms(Path.Combine(Folder, "demo.db"));
        var told = document["alarms"]!.AsArray();
        Assert.Equal(
            stored.Where(alarm => alarm.Transition.Raised).Select(alarm => Names.Of(alarm.Transition.Kind)),
            told.Select(alarm => (string)alarm!["kind"]!));
        foreach (var alarm in told)
        {
            var transitions = stored.Where(s => Names.Of(s.Transition.Kind) == (string)alarm!["kind"]!).Select(s => s.Transition).ToList();
            Near(transitions[0].AtSeconds, (double)alarm!["raised_s"]!);
            Assert.Equal(1e3 * transitions[0].StrokeMetres!.Value, (double)alarm["pp_mm"]!, 0.01);
            Assert.Equal(transitions.Count > 1, alarm["cleared_s"] is not null);
            if (transitions.Count > 1)
            {
                Near(transitions[1].AtSeconds, (double)alarm["cleared_s"]!);
            }
        }

        void Near(double live, double replay)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"live {live:0.000} s, replayed {replay:0.000} s"));
            Assert.InRange(replay - live, -1.1, 1.1);
        }
    }
}
