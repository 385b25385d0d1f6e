using System.Runtime.Versioning;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Session;
using StrokeWatch.Tests.Commands;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Session;

/// <summary>A whole tuning session at a real terminal: wrong keys, kills, a hang-up, and the signed record in the end.</summary>
[SupportedOSPlatform("linux")]
public sealed class TuningSessionTests(ITestOutputHelper output) : IDisposable
{
    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    [SkippableFact]
    public async Task A_feeder_is_tuned_through_kills_a_hang_up_and_wrong_keys_to_the_signed_record()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        folder.Write("cullet.toml", TunedMachine.Feeder);
        await Capture("first.wav", "5x4.0");

        // First sitting: a name, wrong keys, a condition that is not met; killed between two questions.
        using (var first = Begin())
        {
            await first.Sees("== Who");
            first.Presses("Kimm\u007f\r");
            await first.Sees("== Cautions");
            first.Presses("\r");
            Assert.Contains("Enter alone is no answer here; press 1.", await first.Sees("== Cautions"), StringComparison.Ordinal);
            first.Presses("x");
            Assert.Contains("\"x\" is no answer here", await first.Sees("== Cautions"), StringComparison.Ordinal);
            first.Presses("1");
            await first.Sees("== Tray empty");
            first.Presses("2");
            Assert.Contains("Close the hopper's gate", await first.Sees("== Tray empty"), StringComparison.Ordinal);
            first.Presses("1\r");
            await first.Sees("== Full voltage");
            first.Presses("1");
            await first.Sees("== Warm");
            await first.Kills();
        }

        Assert.Equal("warm", Book(book => book.Sessions.Open()!.Step));

        // Second: resumed at that very question, measured; the window is closed over the advice.
        using (var second = Begin("--resume"))
        {
            Assert.DoesNotContain("Cautions", await second.Sees("== Warm"), StringComparison.Ordinal);
            second.Presses("1");
            await second.Sees("== Nothing touching");
            second.Presses("1");
            await second.Sees("== Leaves dry and clean");
            second.Presses("1");
            await second.Sees("== Rear stack");
            second.Presses("4.0\r");
            Assert.Contains("is no stack", await second.Sees("== Rear stack"), StringComparison.Ordinal);
            await second.PressesEnter();
            await second.Sees("== Measure");
            second.Presses("1");
            await second.Sees("== Capture");
            second.Presses("frist.wav\r");
            Assert.Contains("frist.wav", await second.Sees("== Capture"), StringComparison.Ordinal);
            second.Presses("first.wav\r");
            Assert.Contains("LOW", await second.Sees("== Reading"), StringComparison.Ordinal);
            second.Presses("1");
            Assert.Contains("put in ", await second.Sees("== What to do next"), StringComparison.Ordinal);
            var status = await second.HangsUp();
            output.WriteLine($"status after the hang-up: {status}");
            Assert.NotEqual(0, status);
        }

        Assert.Equal("advice", Book(book => book.Sessions.Open()!.Step));
        Assert.Single(Book(book => book.Sessions.Trials()));

        // Third: begun without --resume, asked, gone on with; the next change is killed while the leaves are out.
        using (var third = Begin())
        {
            Assert.Contains("by Kim is not at its end", await third.Sees("== Unfinished session"), StringComparison.Ordinal);
            await third.PressesEnter();
            await third.Sees("== What to do next");
            third.Presses("1");
            await third.Sees("== Isolate and lock out");
            await third.PressesEnter();
            Assert.Contains("Enter alone is no answer here", await third.Sees("== Isolate and lock out"), StringComparison.Ordinal);
            third.Presses("1");
            Assert.Contains("never touch it", await third.Sees("== Change the rear stack"), StringComparison.Ordinal);
            third.Presses("1");
            await third.Sees("== Bolts");
            await third.Kills();
        }

        // Fourth: to the end, with as many changes as it takes.
        using (var fourth = Begin("--resume"))
        {
            await fourth.Sees("== Still locked out?");
            fourth.Presses("1");
            await fourth.Sees("== Bolts");
            await Finish(fourth);
            Assert.Equal(0, await fourth.Ends());
            output.WriteLine(fourth.Screen);
            Assert.Contains("signed     Kim Berg", fourth.Screen, StringComparison.Ordinal);
            Assert.Contains("baseline   version 1", fourth.Screen, StringComparison.Ordinal);
            Assert.Contains("to do      the feeder file still names another rear stack", fourth.Screen, StringComparison.Ordinal);
        }

        ShouldBeKept();
    }

    private async Task Finish(Keyboard keys)
    {
        for (var change = 1; ; change++)
        {
            keys.Presses("1");
            await keys.Sees("== Air gap");
            keys.Presses("1");
            await keys.Sees("== What is in now");
            await keys.PressesEnter();
            await keys.Sees("== Before it runs again");
            keys.Presses("1");
            await keys.Sees("== As before");
            keys.Presses("1");
            await keys.Sees("== Measure");
            var rear = Book(book => StackText.Write(SessionMemory.Read("measure", null, book.Sessions.Open()!.Memory)!.Rear));
            var name = $"change-{change}.wav";
            await Capture(name, rear);
            keys.Presses("1");
            await keys.Sees("== Capture");
            keys.Presses(name + "\r");
            await keys.Sees("== Reading");
            keys.Presses("1");
            if (!(await keys.Sees("\n== ")).Contains("== What to do next", StringComparison.Ordinal))
            {
                break;
            }

            Assert.True(change < 4, keys.Screen);
            keys.Presses("1");
            await keys.Sees("== Isolate and lock out");
            keys.Presses("1");
            await keys.Sees("== Change the rear stack");
            keys.Presses("1");
            await keys.Sees("== Bolts");
        }

        Assert.Contains("== IN BAND", keys.Screen, StringComparison.Ordinal);
        keys.Presses("1");
        await keys.Sees("== Baseline");
        keys.Presses("1");
        await keys.Sees("== Sign the record");
        await Task.Delay(600);
        keys.Presses("Kim Berg\r");
        await keys.Reads("== Record");
    }

    private void ShouldBeKept()
    {
        var session = Assert.Single(Book(book => book.Sessions.All()));
        Assert.Equal((BookSessionState.Done, "Kim Berg", "over"), (session.State, session.Who, session.Step));
        Assert.True(session.Ended > session.Started);
        var trials = Book(book => book.Sessions.Trials(session.Id));
        Assert.InRange(trials.Count, 2, 4);
        Assert.Equal(("low", "in-band"), (trials[0].Verdict, trials[^1].Verdict));

        // Each trial's stroke is that of two masses on these leaves, which the program was not told.
        Assert.All(trials, trial => Assert.Equal(TunedMachine.Stroke(trial.Rear), trial.StrokeMetres!.Value * 1e3, 0.01));
        var steps = Book(book => book.Sessions.Answers(session.Id)).Select(answer => answer.Step).ToList();
        Assert.Equal(["who", "cautions", "empty", "empty", "voltage", "warm", "free", "clean", "rear", "measure", "capture-file", "reading", "advice", "lock-out", "change", "still-locked", "bolts"], steps.Take(17));
        Assert.Equal(["in-band", "baseline", "sign"], steps.TakeLast(3));
        var sets = Book(book => book.Entries.All(BookEntryKind.LeafSet));
        Assert.Equal(trials.Skip(1).Select(trial => trial.Rear), sets.Select(set => set.Rear!));
        var baseline = JsonNode.Parse(File.ReadAllText(folder.At("cullet.baseline.json")))!["versions"]!.AsArray();
        Assert.Contains(trials[^1].Rear, (string)Assert.Single(baseline)!["note"]!, StringComparison.Ordinal);
    }

    private Keyboard Begin(params string[] more) => new(folder.Path, ["tune", "session", "--feeder", "cullet.toml", .. more]);

    private async Task Capture(string name, string rear)
    {
        folder.Write(name + ".toml", TunedMachine.Scenario(rear));
        Assert.Equal(0, (await Running.Run(folder.Path, "simulate", name + ".toml", "--out", name)).Status);
    }

    private T Book<T>(Func<MachineBook, T> read)
    {
        using var book = MachineBook.OpenReader(folder.At("cullet.book.sqlite"));
        return read(book);
    }
}
