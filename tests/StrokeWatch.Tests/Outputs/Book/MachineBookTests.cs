using StrokeWatch.Outputs.Book;
using Xunit;
using static StrokeWatch.Tests.Outputs.Book.BookFolder;

namespace StrokeWatch.Tests.Outputs.Book;

public sealed class MachineBookTests : IDisposable
{
    private static readonly BookTrial Full = new()
    {
        Utc = Noon,
        Rear = "4x4.0 1x3.0",
        Front = "4x4.0",
        StrokeMetres = 1.512e-3,
        UncertaintyMetres = 0.03e-3,
        StrokeSpread = 0.004,
        Verdict = "low",
        NaturalHz = 66.1,
        NaturalUncertaintyHz = 0.08,
        DampingRatio = 0.021,
        VoltageRatio = 0.98,
        TrayChangeKilograms = -1.5,
        Capture = "first.csv",
        LineAngleDegrees = 21.5,
        Strike = false,
        Note = "warm",
    };

    private readonly BookFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_book_stands_beside_its_feeder_file() => Assert.Equal(Path.Combine("plant", "cullet.book.sqlite"), MachineBook.Beside(Path.Combine("plant", "cullet.toml")));

    [Fact]
    public void A_book_belongs_to_the_feeder_that_claimed_it_first_unless_that_one_was_renamed()
    {
        using (var book = folder.Open())
        {
            Assert.Null(book.Feeder);
            book.Claim("Cullet feeder", renames: false);
            book.Claim("Cullet feeder", renames: false);
            var trouble = Assert.Throws<BookException>(() => book.Claim("Sand feeder", renames: false));
            Assert.Contains("is the book of the feeder \"Cullet feeder\", not of \"Sand feeder\"", Assert.Single(trouble.Message.Split('\n')), StringComparison.Ordinal);
        }

        using (var read = MachineBook.OpenReader(folder.File))
        {
            Assert.Equal("Cullet feeder", read.Feeder);
            read.Require("Cullet feeder");
            Assert.Throws<BookException>(() => read.Require("Sand feeder"));
        }

        using var renamed = folder.Open();
        renamed.Claim("Cullet feeder, east", renames: true);
        Assert.Equal("Cullet feeder, east", renamed.Feeder);
    }

    [Fact]
    public void A_book_from_before_its_feeder_was_kept_is_that_of_its_last_session()
    {
        using var book = folder.Open();
        book.Sessions.Begin("Cullet feeder", Noon, "Kim", "cautions", "{}");
        Assert.Equal("Cullet feeder", book.Feeder);
        Assert.Throws<BookException>(() => book.Require("Sand feeder"));
    }

    [Fact]
    public void A_session_with_its_answers_and_trials_comes_back_as_it_was_written()
    {
        using (var book = folder.Open())
        {
            var begun = book.Sessions.Begin("Cullet feeder", Noon, "Kim", "cautions", "{}");
            var measured = book.Sessions.Record(begun, Move("cautions", "measure", Noon.AddMinutes(1)) with { Who = "Kim", Trial = Full });
            var ended = book.Sessions.Record(measured!, Move("measure", "over", Noon.AddMinutes(2)) with
            {
                Who = "Kim",
                State = BookSessionState.Done,
                Trial = new() { Utc = Noon.AddMinutes(2), Rear = "5x4.0", Verdict = "unmeasurable", Reason = "the sensor clips" },
            });
            Assert.Equal(2, ended!.Turn);
        }

        using var read = MachineBook.OpenReader(folder.File);
        Assert.Null(read.Sessions.Open());
        var session = Assert.Single(read.Sessions.All());
        Assert.Equal(("Cullet feeder", Noon, Noon.AddMinutes(2), BookSessionState.Done, "Kim", "over", 2), (session.Feeder, session.Started, session.Ended, session.State, session.Who, session.Step, session.Turn));
        Assert.Equal([("cautions", "1", "Kim"), ("measure", "1", "Kim")], read.Sessions.Answers(session.Id).Select(answer => (answer.Step, answer.Answer, answer.Who!)));
        var trials = read.Sessions.Trials(session.Id);
        Assert.Equal(Full with { Id = 1, Session = session.Id, StrokeMetres = trials[0].StrokeMetres, UncertaintyMetres = trials[0].UncertaintyMetres }, trials[0]);
        Assert.Equal(1.512e-3, trials[0].StrokeMetres!.Value, 1e-15);
        Assert.Equal(0.03e-3, trials[0].UncertaintyMetres!.Value, 1e-15);
        Assert.Equal(new BookTrial { Id = 2, Session = session.Id, Utc = Noon.AddMinutes(2), Rear = "5x4.0", Verdict = "unmeasurable", Reason = "the sensor clips" }, trials[1]);
        Assert.Equal(trials, read.Sessions.Trials());
    }

    [Fact]
    public void An_answer_is_written_with_all_that_comes_of_it()
    {
        using var book = folder.Open();
        book.Running.Add(7200, 360_000, 3, 60, Noon);
        var session = book.Sessions.Record(book.Sessions.Begin("Cullet feeder", Noon, null, "found", "{}"), Move("found", "measure") with
        {
            Check = new(0, null, Noon, "debris", "found", "Kim", "a shard"),
            Entry = new() { Utc = Noon, Kind = BookEntryKind.LeafSet, Rear = "5x4.0", Front = "4x4.0", Who = "Kim" },
        });
        Assert.Equal(new BookCheckAnswer(1, session!.Id, Noon, "debris", "found", "Kim", "a shard"), Assert.Single(book.Checks.Since(Noon)));
        Assert.Empty(book.Checks.Since(Noon.AddMilliseconds(1)));
        Assert.Equal(
            new BookEntry { Id = 1, Session = session.Id, Utc = Noon, Kind = BookEntryKind.LeafSet, Rear = "5x4.0", Front = "4x4.0", Who = "Kim", AtSeconds = 7200, AtCycles = 360_000 },
            Assert.Single(book.Entries.All()));
    }

    [Fact]
    public void A_trial_that_is_left_out_stays_with_the_reason()
    {
        using var book = folder.Open();
        var session = book.Sessions.Record(book.Sessions.Begin("Cullet feeder", Noon, null, "measure", "{}"), Move("measure", "reading") with { Trial = Full });
        session = book.Sessions.Record(session!, Move("reading", "measure") with { LeavesOutLast = "somebody leaned on it" });
        session = book.Sessions.Record(session!, Move("measure", "reading") with { Trial = Full });
        Assert.Equal([(true, "somebody leaned on it"), (false, "warm")], book.Sessions.Trials(session!.Id).Select(trial => (trial.LeftOut, trial.Note!)));
    }

    [Fact]
    public void A_new_session_gives_up_the_open_one()
    {
        using var book = folder.Open();
        var first = book.Sessions.Begin("Cullet feeder", Noon, null, "cautions", "{}");
        var second = book.Sessions.Begin("Cullet feeder", Noon.AddHours(1), null, "cautions", "{}");
        Assert.Equal(second, book.Sessions.Open());
        Assert.Equal([(first.Id, BookSessionState.Abandoned), (second.Id, BookSessionState.Open)], book.Sessions.All().Select(session => (session.Id, session.State)));
        Assert.Null(book.Sessions.Record(first, Move("cautions", "measure")));
        Assert.Empty(book.Sessions.Answers(first.Id));
    }

    [Fact]
    public void Of_two_who_answer_the_same_question_the_second_is_told()
    {
        using var one = folder.Open();
        using var other = folder.Open();
        var session = one.Sessions.Begin("Cullet feeder", Noon, null, "cautions", "{}");
        var seen = other.Sessions.Open()!;
        Assert.NotNull(one.Sessions.Record(session, Move("cautions", "lock-out")));
        Assert.Null(other.Sessions.Record(seen, Move("cautions", "measure") with { Trial = Full }));
        Assert.Equal("lock-out", other.Sessions.Open()!.Step);
        Assert.Empty(other.Sessions.Trials());
    }

    [Fact]
    public void Counters_only_rise_and_two_who_count_lose_nothing()
    {
        using var one = folder.Open();
        Assert.Null(one.Running.Read());
        Assert.Throws<ArgumentOutOfRangeException>(() => one.Running.Add(double.NaN, 0, 0, 0, Noon));
        Assert.Throws<ArgumentOutOfRangeException>(() => one.Running.Add(1, -1, 0, 0, Noon));
        using var other = folder.Open();
        Parallel.For(0, 2, which =>
        {
            for (var i = 0; i < 50; i++)
            {
                (which == 0 ? one : other).Running.Add(60, 3000, 1, 0.5, Noon.AddMinutes(i));
            }
        });
        var counters = one.Running.Read()!;
        Assert.Equal((6000.0, 300_000.0, 100, 50.0), (counters.Seconds, counters.Cycles, counters.Starts, counters.SecondsOutside));
        Assert.Equal(6000.0 / 3600, counters.Hours);
        Assert.Equal(Noon, counters.Since);
    }

    [Fact]
    public void An_entry_starts_the_reminder_of_its_kind_anew()
    {
        using var book = folder.Open();
        book.Reminders.Set(BookEntryKind.BoltTorque, 50 * 3600, null, Noon);
        book.Reminders.Set(BookEntryKind.Coil, null, 1e9, Noon);
        book.Running.Add(60 * 3600, 1e7, 4, 0, Noon.AddHours(60));
        Assert.Equal([(BookEntryKind.BoltTorque, 0.0, 0.0), (BookEntryKind.Coil, 0.0, 0.0)], book.Reminders.All().Select(due => (due.Kind, due.LastSeconds, due.LastCycles)));
        var entry = book.Entries.Add(new() { Utc = Noon.AddHours(61), Kind = BookEntryKind.BoltTorque, TorqueNewtonMetres = 85, Who = "Kim", Text = "all of them" });
        Assert.Equal((216_000.0, 1e7, 85.0), (entry.AtSeconds!.Value, entry.AtCycles!.Value, entry.TorqueNewtonMetres!.Value));
        Assert.Equal(new BookReminder(BookEntryKind.BoltTorque, 180_000, null, Noon.AddHours(61), 216_000, 1e7), book.Reminders.All()[0]);
        Assert.Equal(0, book.Reminders.All()[1].LastCycles);
        book.Reminders.Set(BookEntryKind.Coil, null, null, Noon);
        Assert.Equal(BookEntryKind.BoltTorque, Assert.Single(book.Reminders.All()).Kind);
    }

    [Fact]
    public void Entries_come_back_in_order_and_by_kind()
    {
        using var book = folder.Open();
        Assert.Null(book.Entries.Last(BookEntryKind.AirGap));
        book.Entries.Add(new() { Utc = Noon.AddHours(2), Kind = BookEntryKind.AirGap, GapMetres = 2.2e-3 });
        book.Entries.Add(new() { Utc = Noon, Kind = BookEntryKind.AirGap, GapMetres = 2.0e-3 });
        book.Entries.Add(new() { Utc = Noon.AddHours(1), Kind = BookEntryKind.Note, Text = "Überholt; „gut“" });
        Assert.Equal(["air-gap", "note", "air-gap"], book.Entries.All().Select(entry => BookNames.Of(entry.Kind)));
        Assert.Equal(2.2e-3, book.Entries.Last(BookEntryKind.AirGap)!.GapMetres!.Value, 1e-15);
        Assert.Equal("Überholt; „gut“", Assert.Single(book.Entries.All(BookEntryKind.Note)).Text);
        Assert.Null(book.Entries.All()[0].AtSeconds);
    }

    [Fact]
    public void Every_kind_of_entry_has_a_word_of_its_own_that_reads_back()
    {
        Assert.Equal(Enum.GetValues<BookEntryKind>().Length, BookNames.EntryKinds.Distinct().Count());
        Assert.All(Enum.GetValues<BookEntryKind>(), kind => Assert.Equal(kind, BookNames.Kind(BookNames.Of(kind))));
        Assert.Null(BookNames.Kind("leafset"));
    }
}
