using StrokeWatch.Outputs.Book;
using Xunit;
using static StrokeWatch.Tests.Outputs.Book.BookFolder;

namespace StrokeWatch.Tests.Outputs.Book;

/// <summary>Books that cannot be used: one line says why, and the file is left as it is.</summary>
public sealed class BookTroubleTests : IDisposable
{
    private readonly BookFolder folder = new();

    public void Dispose() => folder.Dispose();

    [SkippableFact]
    public void A_new_book_is_only_its_owners()
    {
        Skip.If(OperatingSystem.IsWindows(), "Windows has no file modes");
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        folder.Open().Dispose();
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(folder.File));
    }

    [Fact]
    public void A_commit_is_synced_and_the_journal_is_a_write_ahead_log()
    {
        using var book = folder.Open();
        Assert.Equal("wal", folder.Sql("PRAGMA journal_mode"));
        Assert.Equal("1", folder.Sql("SELECT value FROM meta WHERE key = 'schema_version'"));
    }

    [Fact]
    public void A_book_of_a_later_version_is_refused_and_left_alone()
    {
        folder.Open().Dispose();
        folder.Sql("UPDATE meta SET value = '2' WHERE key = 'schema_version'; PRAGMA wal_checkpoint(TRUNCATE); PRAGMA journal_mode=DELETE;");
        Refused("schema 2, this program knows 1");
    }

    [Fact]
    public void Another_database_is_no_book()
    {
        folder.Sql("CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL); INSERT INTO meta VALUES ('schema_version', '1');");
        Refused("no machine book");
    }

    [Theory]
    [InlineData("This is no database at all, but long enough that it might be taken for one by somebody who reads only its first bytes.")]
    [InlineData("SQLite format 3\0and then something quite different, which goes on for long enough to fill the head of a file of that kind, at least.")]
    public void Rubbish_is_told_and_left_alone(string rubbish)
    {
        File.WriteAllText(folder.File, rubbish);
        Refused("is left as it is");
    }

    [Fact]
    public void A_damaged_book_is_told_and_left_alone()
    {
        using (var book = folder.Open())
        {
            for (var i = 0; i < 200; i++)
            {
                book.Entries.Add(new() { Utc = Noon, Kind = BookEntryKind.Note, Text = new string('x', 100) });
            }
        }

        var bytes = File.ReadAllBytes(folder.File);
        Array.Fill(bytes, (byte)0xA5, bytes.Length / 2, 4096);
        File.WriteAllBytes(folder.File, bytes);
        Assert.Contains("is damaged", Assert.Throws<BookException>(folder.Open).Message, StringComparison.Ordinal);
        Assert.Equal(bytes, File.ReadAllBytes(folder.File));
    }

    [Fact]
    public void A_book_that_may_not_be_written_can_be_read_and_says_so_when_it_is_written()
    {
        using (var book = folder.Open())
        {
            book.Entries.Add(new() { Utc = Noon, Kind = BookEntryKind.Cleaning });
        }

        // A write version above 2 in the file's head makes the file read-only, for whoever opens it (SQLite, "Database File Format", 1.3.3).
        folder.Sql("PRAGMA journal_mode=DELETE;");
        var bytes = File.ReadAllBytes(folder.File);
        bytes[18] = 3;
        File.WriteAllBytes(folder.File, bytes);
        using (var reader = MachineBook.OpenReader(folder.File))
        {
            Assert.Equal(BookEntryKind.Cleaning, Assert.Single(reader.Entries.All()).Kind);
        }

        var trouble = Assert.Throws<BookException>(() =>
        {
            using var book = folder.Open();
            book.Entries.Add(new() { Utc = Noon, Kind = BookEntryKind.Note });
        });
        Assert.Contains("may not be written: check owner and mode", trouble.Message, StringComparison.Ordinal);
        Assert.Equal(bytes, File.ReadAllBytes(folder.File));
    }

    [SkippableFact]
    public void A_book_without_the_right_to_write_says_so()
    {
        Skip.If(OperatingSystem.IsWindows() || Environment.IsPrivilegedProcess, "who may do everything is refused nothing");
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        folder.Open().Dispose();
        File.SetUnixFileMode(folder.File, UnixFileMode.UserRead);
        Assert.Contains("check owner and mode", Assert.Throws<BookException>(folder.Open).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_book_or_folder_is_told()
    {
        Assert.Contains("no such machine book", Assert.Throws<BookException>(() => MachineBook.OpenReader(folder.File)).Message, StringComparison.Ordinal);
        var nowhere = Path.Combine(folder.Folder, "nowhere", "x.book.sqlite");
        Assert.Contains("the folder is missing: create it", Assert.Throws<BookException>(() => MachineBook.Open(nowhere, TimeProvider.System)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_reader_sees_what_a_writer_has_written_while_both_are_open()
    {
        using var writer = folder.Open();
        using var reader = MachineBook.OpenReader(folder.File);
        Assert.Null(reader.Sessions.Open());
        writer.Sessions.Begin("Sand feeder", Noon, null, "cautions", "{}");
        Assert.Equal("Sand feeder", reader.Sessions.Open()!.Feeder);
        Assert.Throws<InvalidOperationException>(() => reader.Running.Add(1, 1, 0, 0, Noon));
    }

    [Fact]
    public void What_was_written_is_there_after_a_kill_at_that_instant()
    {
        // The files as they are while the writer still has them open are what a kill leaves: nothing closes, no journal is brought in.
        using var writer = folder.Open();
        var session = writer.Sessions.Begin("Sand feeder", Noon, null, "cautions", "{}");
        for (var turn = 1; turn <= 5; turn++)
        {
            session = writer.Sessions.Record(session, Move("cautions", "measure") with { Trial = new() { Utc = Noon, Rear = "5x4.0", Verdict = "low" } })!;
            var left = Path.Combine(folder.Folder, $"left-{turn}.book.sqlite");
            File.Copy(folder.File, left);
            File.Copy(folder.File + "-wal", left + "-wal");
            using var book = MachineBook.Open(left, TimeProvider.System);
            Assert.Equal((turn, turn), ((int)book.Sessions.Open()!.Turn, book.Sessions.Trials().Count));
        }
    }

    private void Refused(string words)
    {
        var before = File.ReadAllBytes(folder.File);
        foreach (var open in new Func<MachineBook>[] { folder.Open, () => MachineBook.OpenReader(folder.File) })
        {
            var trouble = Assert.Throws<BookException>(open);
            Assert.Contains(words, trouble.Message, StringComparison.Ordinal);
            Assert.StartsWith(folder.File + ": ", trouble.Message, StringComparison.Ordinal);
            Assert.DoesNotContain('\n', trouble.Message);
        }

        Assert.Equal(before, File.ReadAllBytes(folder.File));
    }
}
