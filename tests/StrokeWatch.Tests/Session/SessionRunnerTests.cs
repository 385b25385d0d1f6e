using StrokeWatch.Outputs.Book;
using StrokeWatch.Session;
using StrokeWatch.Tests.Outputs.Book;
using Xunit;

namespace StrokeWatch.Tests.Session;

public sealed class SessionRunnerTests : IDisposable
{
    private readonly BookFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Of_two_windows_on_one_session_the_slower_is_told_and_changes_nothing()
    {
        using var one = folder.Open();
        using var other = folder.Open();
        var state = SessionMachine.Begin("Kim", SessionBench.Feeder.Springs!.Rear);
        var session = one.Sessions.Begin("Cullet feeder", BookFolder.Noon, "Kim", state.Step, SessionMemory.Write(state));
        var (quick, slow) = (Runner(one, session, state), Runner(other, other.Sessions.Open()!, state));
        Assert.NotNull(quick.Answer("1").Next);
        var turn = slow.Answer("1");
        Assert.Equal((true, SessionWords.Elsewhere), (turn.Leaves, Assert.Single(turn.Said)));
        Assert.Single(one.Sessions.Answers(session.Id));
    }

    [Fact]
    public void A_baseline_that_cannot_be_written_is_told_and_the_question_stands()
    {
        using var book = folder.Open();
        var state = new SessionState { Step = "baseline", Who = "Kim", Rear = SessionBench.Feeder.Springs!.Rear };
        var session = book.Sessions.Begin("Cullet feeder", BookFolder.Noon, "Kim", state.Step, SessionMemory.Write(state));
        session = book.Sessions.Record(session, BookFolder.Move("measure", "baseline") with { Memory = SessionMemory.Write(state), Trial = new() { Utc = BookFolder.Noon, Rear = "5x4.0", Verdict = "in-band", StrokeMetres = 1.7e-3 } })!;
        var runner = Runner(book, session, state, trial => (null, [], $"{trial.Rear}: cannot be written"));
        Assert.Equal("5x4.0: cannot be written", runner.Answer("1").Refused);
        Assert.Equal("baseline", runner.State.Step);
        Assert.Equal("sign", runner.Answer("2").Next!.Step);
        Assert.Null(runner.State.BaselineVersion);
    }

    [Fact]
    public void A_baseline_of_one_reading_is_made_once_however_often_the_question_is_answered()
    {
        var path = Path.Combine(folder.Folder, "cullet.baseline.json");
        var trial = new BookTrial { Utc = BookFolder.Noon, Rear = "5x4.0", Verdict = "in-band", StrokeMetres = 1.7e-3, NaturalHz = 66.2, NaturalUncertaintyHz = 0.06, DampingRatio = 0.02 };
        var (first, _, _) = SessionBaseline.Learn(path, SessionBench.Feeder, trial, BookFolder.Noon);
        var (again, said, _) = SessionBaseline.Learn(path, SessionBench.Feeder, trial, BookFolder.Noon.AddMinutes(1));
        Assert.Equal((1, 1), (first, again));
        Assert.Contains("version 1: told", Assert.Single(said), StringComparison.Ordinal);
        var baseline = Configuration(path);
        Assert.Equal(["stroke_mm", "natural_frequency_hz", "tuning_ratio", "damping_ratio"], baseline.Features.Select(feature => feature.Name));
        Assert.Equal((1.7, 0.034), (baseline.Features[0].Mean, Math.Round(baseline.Features[0].Spread, 6)));
        Assert.Equal(66.2 / 60, baseline.Features[2].Mean, 1e-12);
        File.WriteAllText(path, "rubbish");
        Assert.NotNull(SessionBaseline.Learn(path, SessionBench.Feeder, trial, BookFolder.Noon).Trouble);
        Assert.Equal("rubbish", File.ReadAllText(path));
    }

    [Fact]
    public void The_record_takes_only_trials_that_count()
    {
        using var book = folder.Open();
        var session = book.Sessions.Begin("Cullet feeder", BookFolder.Noon, "Kim", "measure", "{}");
        foreach (var trial in new BookTrial[]
        {
            new() { Utc = BookFolder.Noon, Rear = "5x4.0", Verdict = "low", StrokeMetres = 1.5e-3 },
            new() { Utc = BookFolder.Noon, Rear = "4x4.0", Verdict = "low", StrokeMetres = 0.4e-3 },
            new() { Utc = BookFolder.Noon, Rear = "3x4.0", Verdict = "unmeasurable", Reason = "the sensor clips" },
        })
        {
            session = book.Sessions.Record(session, BookFolder.Move("measure", "reading") with { Trial = trial })!;
            session = book.Sessions.Record(session, BookFolder.Move("reading", "measure") with { LeavesOutLast = trial.Rear == "4x4.0" ? "leaned on" : null })!;
        }

        var record = StrokeWatch.Reports.Records.BookTrials.Of(StrokeWatch.Reports.Books.BookSummary.Read(book))!;
        Assert.Equal(1.5e-3, Assert.Single(record.Trials).StrokeMetres);
        Assert.Equal(("5x4.0", 2), (record.Last!.Rear, record.LeftOut));
        Assert.Equal(3, book.Sessions.Trials(session.Id).Count);
    }

    private static StrokeWatch.Assessment.Baselines.Baseline Configuration(string path) => StrokeWatch.Configuration.BaselineFile.Read(path, new(path))!.Current!;

    private static SessionRunner Runner(MachineBook book, BookSession session, SessionState state, Func<BookTrial, (int?, IReadOnlyList<string>, string?)>? learn = null) => new(
        SessionBench.Feeder,
        new BookKeeper(book, session),
        new() { Time = TimeProvider.System, Measure = _ => (null, "no sensor"), Learn = learn ?? (_ => (1, [], null)) },
        state);
}
