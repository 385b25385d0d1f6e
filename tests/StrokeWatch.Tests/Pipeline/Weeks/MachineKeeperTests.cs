using Serilog;
using Serilog.Core;
using Serilog.Events;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;
using StrokeWatch.Tests.Assessment.Watching;
using Xunit;

namespace StrokeWatch.Tests.Pipeline.Weeks;

/// <summary>The file of baselines in the daemon's hands: nothing in it is ever lost, and what a person adds counts.</summary>
public sealed class MachineKeeperTests : IChainListener, ILogEventSink, IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-keeper-").FullName;
    private readonly List<AlarmTransition> alarms = [];
    private readonly List<FindingTransition> findings = [];
    private readonly List<string> baselines = [];
    private readonly List<string> logged = [];
    private readonly Synthetic machine = new(11);

    private string Path => System.IO.Path.Combine(folder, "sand.baseline.json");

    private WatchHistory Settings => new() { Learning = Synthetic.Learning, BaselinePath = Path };

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void What_is_learned_is_written_once_and_told_once()
    {
        Play(Start(Settings), 60);
        Assert.Single(Versions());
        Assert.Contains("version 1: learned", Assert.Single(baselines), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_cannot_be_read_is_told_and_left_alone_and_nothing_is_learned_over_it()
    {
        File.WriteAllText(Path, "{ \"form\": 1, \"versions\": [");
        Play(Start(Settings), 60);
        Assert.Equal("{ \"form\": 1, \"versions\": [", File.ReadAllText(Path));
        Assert.Empty(baselines);
        Assert.Single(logged, line => line.Contains("sand.baseline.json", StringComparison.Ordinal));
        Assert.Empty(alarms);
    }

    [Fact]
    public void A_version_that_a_person_adds_comes_into_force_and_clears_what_stood_against_the_old_one()
    {
        var keeper = Start(Settings);
        Play(keeper, 40);
        Play(keeper, 10, stroke: 0.06);
        Assert.True(Assert.Single(alarms).Raised);

        Add(1.7 * 1.06, Synthetic.Begin.AddDays(2));
        Play(keeper, 20, stroke: 0.06);
        Assert.Equal([true, false], alarms.Select(alarm => alarm.Raised));
        // One explanation may take over from another before all are cleared.
        Assert.All(findings.GroupBy(finding => finding.Finding.Id), one => Assert.Equal(one.Count(finding => finding.Raised), one.Count(finding => !finding.Raised)));
        Assert.False(findings[^1].Raised);
        Assert.Contains("baseline", alarms[^1].Words, StringComparison.Ordinal);
        Assert.Equal(2, Versions().Count);
        Assert.Contains("version 2: told", baselines[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_version_that_a_person_adds_while_it_learns_ends_the_learning()
    {
        var keeper = Start(Settings);
        Play(keeper, 10);
        Add(1.7, Synthetic.Begin.AddHours(10));
        Play(keeper, 60);
        Assert.Single(Versions());
        Assert.Contains("told", Assert.Single(baselines), StringComparison.Ordinal);
    }

    [Fact]
    public void Asked_to_learn_anew_it_adds_a_version_and_keeps_the_old_one()
    {
        Play(Start(Settings), 40);
        var since = Synthetic.Begin.AddHours(40);
        Play(Start(Settings with { LearnSince = since }), 40, stroke: 0.06);

        Assert.Equal(2, Versions().Count);
        Assert.InRange(Versions()[0].Find("stroke_mm")!.Mean, 1.69, 1.71);
        Assert.InRange(Versions()[1].Find("stroke_mm")!.Mean, 1.79, 1.82);
        Assert.EndsWith("because the configuration asks for a new one since 2026-03-03T00:00:00Z", Versions()[1].Note, StringComparison.Ordinal);
        Assert.Empty(alarms);
    }

    [Fact]
    public void A_file_that_is_begun_anew_while_it_runs_comes_into_force_though_its_number_is_no_higher()
    {
        var keeper = Start(Settings);
        Play(keeper, 40);
        Add(1.9, Synthetic.Begin.AddDays(2));
        Play(keeper, 2);
        File.Delete(Path);
        Play(keeper, 2);
        Assert.Contains("holds no baseline any more; version 2 is followed from memory", Assert.Single(logged), StringComparison.Ordinal);
        Add(1.7, Synthetic.Begin.AddDays(3));
        Play(keeper, 2);
        Assert.StartsWith("version 1: told, made 2026-03-04", baselines[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_version_that_is_changed_in_its_file_is_told_once_and_not_followed()
    {
        var keeper = Start(Settings);
        Play(keeper, 40);
        var text = File.ReadAllText(Path);
        var mean = Versions()[0].Find("stroke_mm")!.Mean.ToString("R", System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains(mean, text, StringComparison.Ordinal);
        File.WriteAllText(Path, text.Replace(mean, "1.9", StringComparison.Ordinal));
        Play(keeper, 30);

        Assert.Empty(alarms);
        Assert.Contains("was changed after it was made", Assert.Single(logged), StringComparison.Ordinal);
        Assert.Single(baselines);
        Assert.Contains("1.9", File.ReadAllText(Path), StringComparison.Ordinal);
    }

    [Fact]
    public void Programs_that_add_at_once_lose_no_version_that_they_were_told_of()
    {
        var acknowledged = new System.Collections.Concurrent.ConcurrentBag<(int Version, string Note)>();
        var workers = Enumerable.Range(0, 6).Select(worker => new Thread(() =>
        {
            for (var i = 0; i < 15; i++)
            {
                var note = $"{worker}-{i}";
                if (BaselineFile.Add(Path, Told(1.7, Synthetic.Begin, note), new ConfigurationErrors(Path)) is { } added)
                {
                    acknowledged.Add((added.Version, note));
                }
            }
        })).ToList();
        workers.ForEach(worker => worker.Start());
        workers.ForEach(worker => worker.Join());

        var versions = Versions();
        Assert.NotEmpty(acknowledged);
        Assert.Equal(acknowledged.Order(), versions.Select(version => (version.Version, version.Note!)).Order());
        Assert.Equal(Enumerable.Range(1, versions.Count), versions.Select(version => version.Version));
        Assert.Equal([Path], Directory.GetFiles(folder));
    }

    [Fact]
    public void A_file_that_would_grow_beyond_what_can_be_read_is_left_as_it_is()
    {
        Assert.NotNull(BaselineFile.Add(Path, Told(1.7, Synthetic.Begin, new string('x', 9 << 20)), new ConfigurationErrors(Path)));
        var before = File.ReadAllBytes(Path);
        var errors = new ConfigurationErrors(Path);
        Assert.Null(BaselineFile.Add(Path, Told(1.8, Synthetic.Begin, new string('y', 9 << 20)), errors));
        Assert.Contains("is full", Assert.Single(errors).ToString(), StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(Path));
        Assert.Single(Versions());
    }

    /// <summary>Cut at any byte, or a draft left behind: the versions stay, or the file is told and left alone.</summary>
    [Fact]
    public void A_file_that_a_power_cut_shortened_is_never_taken_for_an_empty_one()
    {
        Add(1.7, Synthetic.Begin);
        Add(1.8, Synthetic.Begin.AddDays(1));
        var whole = File.ReadAllBytes(Path);
        for (var length = 0; length < whole.Length - 1; length += 7)
        {
            File.WriteAllBytes(Path, whole[..length]);
            var errors = new ConfigurationErrors(Path);
            Assert.Null(BaselineFile.Add(Path, Told(1.9, Synthetic.Begin, "new"), errors));
            Assert.NotEmpty(errors);
            Assert.Equal(whole[..length], File.ReadAllBytes(Path));
        }

        File.WriteAllBytes(Path, whole);
        File.WriteAllText(Path + ".new", "{ half");
        Assert.Equal(3, BaselineFile.Add(Path, Told(1.9, Synthetic.Begin, "new"), new ConfigurationErrors(Path))!.Version);
    }

    [Fact]
    public void A_folder_that_cannot_be_written_costs_only_the_file()
    {
        var keeper = Start(Settings with { BaselinePath = System.IO.Path.Combine(folder, "gone", "sand.baseline.json") });
        Play(keeper, 40);
        Play(keeper, 20, stroke: 0.06);
        Assert.True(Assert.Single(alarms).Raised);
        Assert.Contains(logged, line => line.Contains("cannot be written", StringComparison.Ordinal));
    }

    void ILogEventSink.Emit(LogEvent logEvent)
    {
        if (logEvent.Level >= LogEventLevel.Warning)
        {
            logged.Add(logEvent.RenderMessage());
        }
    }

    void IChainListener.Window(in AssessedWindow window)
    {
    }

    void IChainListener.Decay(in DecayReading decay)
    {
    }

    void IChainListener.Alarm(in AlarmTransition transition) => alarms.Add(transition);

    void IChainListener.Finding(FindingTransition transition) => findings.Add(transition);

    void IChainListener.Baseline(string words) => baselines.Add(words);

    private MachineKeeper Start(WatchHistory settings)
    {
        var keeper = new MachineKeeper(settings, this, new LoggerConfiguration().WriteTo.Sink(this).CreateLogger());
        keeper.Resume([])?.Invoke();
        return keeper;
    }

    private void Play(MachineKeeper keeper, int stretches, double stroke = 0)
    {
        for (var i = 0; i < stretches; i++)
        {
            keeper.Judge(machine.Next(stroke), 3600 * i)?.Invoke();
        }
    }

    private void Add(double millimetres, DateTimeOffset made) => Assert.NotNull(BaselineFile.Add(Path, Told(millimetres, made, "new springs"), new ConfigurationErrors(Path)));

    private static StrokeWatch.Assessment.Baselines.Baseline Told(double millimetres, DateTimeOffset made, string note) =>
        new() { Origin = BaselineOrigin.Told, Made = made, Note = note, Features = [new() { Name = "stroke_mm", Mean = millimetres, Spread = 0.01 }] };

    private IReadOnlyList<StrokeWatch.Assessment.Baselines.Baseline> Versions() => BaselineFile.Read(Path, new ConfigurationErrors(Path))!.Versions;
}
