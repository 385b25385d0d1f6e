using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Sensors.Simulated.Histories;
using Xunit;

namespace StrokeWatch.Tests.Pipeline.Weeks;

/// <summary>Weeks of a simulated feeder through the daemon's own chain: healthy for a baseline, then a fault that grows, or none.</summary>
public sealed class WeeksTests
{
    private const int Captures = 50;
    private static readonly DateTimeOffset Ever = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData("leaf-cracked-rear", 502, "leaf-cracked")]
    [InlineData("tray-heavier", 502, "tray-heavier")]
    public void A_fault_that_grows_is_found_named_and_stored_and_still_stands_after_a_restart(string fault, int seed, string cause)
    {
        var history = Draw(fault, seed);
        var onset = history.Captures.ToList().FindIndex(capture => capture.Severity > 0);
        using var run = new WeeksRun(history);
        run.Play(..(Captures - 2));

        // Learned from healthy stretches alone, once, and written down with who, what and why.
        var baseline = Assert.Single(Read(run).Versions);
        Assert.True(baseline.Made < history.Onset);
        Assert.StartsWith("learned by watch from ", baseline.Note, StringComparison.Ordinal);
        Assert.EndsWith("because there was no baseline", baseline.Note, StringComparison.Ordinal);
        Assert.Contains(baseline.Note!, Assert.Single(run.Read(Events), noted => noted.Kind == StoreEventKind.Baseline).Text, StringComparison.Ordinal);

        // Raised once, after the fault came, and the cause is named in the end.
        var raised = Assert.Single(run.Alarms);
        Assert.True(raised.Raised);
        Assert.Contains("Check first: ", raised.Words, StringComparison.Ordinal);
        Assert.All(run.Findings, finding => Assert.True(finding.At > history.Captures[onset].Recorded));
        Assert.Equal(cause, run.Findings[^1].Finding.Id);
        Assert.True(run.Findings[^1].Raised);
        Assert.Contains(run.Findings[^1].Finding.Because, because => because.Contains(" since 20", StringComparison.Ordinal) || because.Contains(" at 20", StringComparison.Ordinal));

        // The store holds the same.
        var stored = run.Read(reader => reader.Findings(DateTimeOffset.UnixEpoch, Ever));
        Assert.Equal(run.Findings.Select(finding => (finding.Finding.Id, finding.Raised)), stored.Select(row => (row.Transition.Finding.Id, row.Transition.Raised)));
        Assert.Equal(run.Findings[^1].Finding.Because, stored[^1].Transition.Finding.Because);
        Assert.Equal(run.Findings[^1].Finding.CheckFirst, stored[^1].Transition.Finding.CheckFirst);
        Assert.Single(run.Read(reader => reader.Alarms(DateTimeOffset.UnixEpoch, Ever)), alarm => alarm.Transition.Kind == AlarmKind.MachineChanged);

        // Started again it says at once that it still stands, learns nothing anew and finds nothing twice.
        run.Alarms.Clear();
        run.Findings.Clear();
        run.Play((Captures - 2)..);
        var still = Assert.Single(run.Alarms);
        Assert.True(still.Raised);
        Assert.StartsWith("Still: ", still.Words, StringComparison.Ordinal);
        Assert.Empty(run.Findings);
        Assert.Single(Read(run).Versions);
    }

    [Theory]
    [InlineData(501)]
    [InlineData(502)]
    public void A_healthy_feeder_raises_nothing_and_learns_once(int seed)
    {
        using var run = new WeeksRun(Draw(HistoryWishes.Healthy, seed));
        run.Play(..Captures);

        Assert.Empty(run.Alarms);
        Assert.Empty(run.Findings);
        Assert.Single(Read(run).Versions);
        Assert.Empty(run.Read(reader => reader.Findings(DateTimeOffset.UnixEpoch, Ever)));
        var stretches = run.Read(reader => reader.NewestStretches("Soda ash feeder", 1000));
        Assert.InRange(stretches.Count, Captures - 2, Captures + 2);
        Assert.True(stretches.Count(row => row.Stretch.Features.NaturalHz is not null) > 0.7 * Captures);
        Assert.Contains(stretches, row => row.Stretch.Ended == StretchEnd.Stop);
    }

    [Fact]
    public void A_program_that_is_started_again_and_again_finds_what_one_that_runs_on_finds()
    {
        var history = Draw("tray-heavier", 502);
        using var whole = new WeeksRun(history);
        whole.Play(..Captures);
        using var pieces = new WeeksRun(history);
        for (var from = 0; from < Captures; from += 5)
        {
            pieces.Play(from..(from + 5));
        }

        Assert.NotEmpty(whole.Findings);
        Assert.Equal(whole.Findings.Select(finding => (finding.Finding.Id, finding.Raised)), pieces.Findings.Select(finding => (finding.Finding.Id, finding.Raised)));
        var (one, many) = (Assert.Single(Read(whole).Versions), Assert.Single(Read(pieces).Versions));
        Assert.All(one.Features, feature => Assert.Equal(feature.Mean, many.Find(feature.Name)!.Mean, 1e-3 * Math.Abs(feature.Mean) + feature.Spread));
    }

    private static FaultHistory Draw(string kind, int seed) => FaultHistory.Draw((ulong)seed, new() { Kind = kind, Captures = Captures });

    private static BaselineHistory Read(WeeksRun run)
    {
        var errors = new ConfigurationErrors(run.Baseline);
        var read = BaselineFile.Read(run.Baseline, errors);
        Assert.Empty(errors);
        return read!;
    }

    private static IReadOnlyList<StoredEvent> Events(StoreReader reader) => reader.Events(DateTimeOffset.UnixEpoch, Ever);
}
