using System.Globalization;
using System.Runtime.Versioning;
using System.Text.Json.Nodes;
using StrokeWatch.Configuration;
using StrokeWatch.EndToEnd.Tests.Live;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Session;
using StrokeWatch.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>The feeder of the tuning tests at a live sensor: for each rear stack it runs for a while and is then switched off.</summary>
/// <param name="run">The daemon that watches it.</param>
/// <param name="runSeconds">How long it runs once the sensor is plugged in, which is found within a second or two: longer than half of a measurement, and less than all of it.</param>
[SupportedOSPlatform("linux")]
internal sealed class TunedTray(StaffedRun run, double runSeconds)
{
    private string Book => run.Folder.At("cullet.book.sqlite");

    public static ISampleSource Of(string rear, double runSeconds = 600)
    {
        var text = TunedMachine.Scenario(rear).Replace("duration_s = 5", "duration_s = 600", StringComparison.Ordinal)
            .Replace("rate_hz = 3200", string.Create(CultureInfo.InvariantCulture, $"rate_hz = {TraySensor.RateHz}"), StringComparison.Ordinal)
            .Replace("to_s = 3.5", string.Create(CultureInfo.InvariantCulture, $"to_s = {runSeconds}"), StringComparison.Ordinal);
        return new SimulatedFeederSource(ScenarioFile.Parse(text, "tuned").Value!);
    }

    /// <summary>Lets the feeder run with the leaves that the session says are in, and waits until the daemon sees that.</summary>
    public async Task Starts()
    {
        using var client = new HttpClient { BaseAddress = new(run.Address) };
        async Task<bool> Runs() => JsonNode.Parse(await client.GetStringAsync("api/v1/status"))! is var status && !(bool)status["stale"]! && (string)status["motion"]! == "running";
        var rear = Read(book => StackText.Write(SessionMemory.Read("measure", null, book.Sessions.Open()!.Memory)!.Rear));
        run.Sensor.Unplug();
        await TuningApiTests.Until(async () => !await Runs(), 10);
        run.Sensor.PlugFrames(Of(rear, runSeconds));
        await TuningApiTests.Until(Runs, 10);
    }

    /// <summary>Looks into the book for what a session to the end must have left.</summary>
    public void ShouldBeTuned(string who)
    {
        var session = Read(book => book.Sessions.All())[^1];
        Assert.Equal((BookSessionState.Done, who, "over"), (session.State, session.Who, session.Step));
        var trials = Read(book => book.Sessions.Trials(session.Id));
        Assert.InRange(trials.Count, 2, 4);
        Assert.Equal(("low", "in-band"), (trials[0].Verdict, trials[^1].Verdict));

        // Each trial's stroke is that of two masses on these leaves, which the program was not told.
        Assert.All(trials, trial => Assert.Equal(TunedMachine.Stroke(trial.Rear), trial.StrokeMetres!.Value * 1e3, 0.02));
        Assert.All(trials, trial => Assert.NotNull(trial.NaturalHz));
        var sets = Read(book => book.Entries.All(BookEntryKind.LeafSet));
        Assert.Equal(trials.Skip(1).Select(trial => trial.Rear), sets.Select(set => set.Rear!));
        Assert.All(sets, set => Assert.Equal(who, set.Who));
        Assert.True(File.Exists(run.Folder.At("cullet.baseline.json")));
    }

    public T Read<T>(Func<MachineBook, T> read)
    {
        using var book = MachineBook.OpenReader(Book);
        return read(book);
    }
}
