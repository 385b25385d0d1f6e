using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Outputs.Store;
using Xunit;
using Xunit.Abstractions;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;
using Files = StrokeWatch.Outputs.Store.Database;

namespace StrokeWatch.Tests.Outputs.Store;

/// <summary>
/// The files as a power cut may leave them, made from copies: the journal ends, or holds what was never written, behind any byte that had been synced; of a checkpoint any part of the pages has
/// come to the disk. The layout of the journal (head of 32 bytes, frames of 24 bytes and a page) is section 4 of SQLite's file format, https://www.sqlite.org/fileformat2.html.
/// </summary>
public sealed class PowerCutTests(ITestOutputHelper output) : IDisposable
{
    private const int Seed = 4711, Page = 4096, Frame = 24 + Page, Head = 32, Cuts = 150;

    /// <summary>So far the journal is first written; behind 64 pages it may begin anew.</summary>
    private const int Longest = Head + 58 * Frame;

    private readonly StoreFolder folder = new();
    private readonly string copy = Directory.CreateTempSubdirectory("strokewatch-cut-").FullName;

    private string Copy => Path.Combine(copy, "store.db");

    public void Dispose()
    {
        folder.Dispose();
        Directory.Delete(copy, recursive: true);
    }

    [Fact]
    public async Task Wherever_the_journal_is_cut_what_was_confirmed_before_that_byte_is_there_and_the_file_is_whole()
    {
        var (database, journal, confirmed) = await Written();
        var random = new Random(Seed);
        List<int> places = [.. Enumerable.Range(0, (journal.Length - Head) / Frame + 1).Select(n => Head + n * Frame), .. Enumerable.Range(0, Cuts).Select(_ => random.Next(Head, journal.Length))];
        foreach (var place in places)
        {
            for (var kind = 0; kind < 3; kind++)
            {
                var cut = journal[..place];
                var rest = new byte[kind == 0 ? 0 : journal.Length - place];
                if (kind == 2)
                {
                    random.NextBytes(rest);
                }

                var held = Open(database, [.. cut, .. rest], $"seed {Seed}, cut at {place}, kind {kind}");
                var least = confirmed.Count(length => length <= place);
                Assert.True(held.Count >= least, $"seed {Seed}, cut at {place}, kind {kind}: {held.Count} alarms of {least} confirmed");
                Assert.Equal(Enumerable.Range(0, held.Count), held);
            }
        }

        output.WriteLine($"{3 * places.Count} cuts of a journal of {journal.Length} bytes with {confirmed.Count} commits");
    }

    [Fact]
    public async Task Whatever_part_of_a_checkpoint_came_to_the_disk_everything_confirmed_is_there()
    {
        var (database, journal, confirmed) = await Written();

        // Closing the last connection brings the journal in.
        Assert.Equal(confirmed.Count, Open(database, journal, "whole").Count);
        var after = File.ReadAllBytes(Copy);
        Assert.True(after.Length > database.Length || !after.AsSpan().SequenceEqual(database), "the checkpoint must have written something");
        var random = new Random(Seed);
        for (var n = 0; n < Cuts; n++)
        {
            var mixed = database.Concat(new byte[Math.Max(0, after.Length - database.Length)]).ToArray();
            for (var page = 0; page < after.Length; page += Page)
            {
                if (random.Next(2) == 0)
                {
                    after.AsSpan(page, Page).CopyTo(mixed.AsSpan(page));
                }
            }

            var length = random.Next(2) == 0 ? mixed.Length : Math.Min(database.Length, after.Length);
            Assert.Equal(confirmed.Count, Open(mixed[..length], journal, $"seed {Seed}, mixture {n}").Count);
        }
    }

    [Fact]
    public void Each_commit_waits_until_the_journal_is_on_the_disk()
    {
        using var connection = Files.OpenWriter(folder.Options);
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA synchronous";
        Assert.Equal(2L, command.ExecuteScalar());
    }

    /// <summary>Writes alarms one after another; gives both files before any checkpoint, and for each alarm the journal's length at which it was confirmed.</summary>
    private async Task<(byte[] Database, byte[] Journal, List<int> Confirmed)> Written()
    {
        using var store = new SqliteStore(folder.Options, folder.Clock);
        Assert.True(await Soon(store.Event(StoreEventKind.Start, "started")));
        var confirmed = new List<int>();
        while (true)
        {
            _ = store.Window(Reading(confirmed.Count), Verdict.OverStroke);
            Assert.True(await Soon(store.Alarm(Alarm(confirmed.Count))));
            var length = (int)new FileInfo(folder.Database + "-wal").Length;
            confirmed.Add(length);
            if (length > Longest - 8 * Frame)
            {
                Assert.True(length <= Longest && confirmed.Count >= 4, $"{confirmed.Count} commits in {length} bytes: the test shows nothing");
                return (Shared(folder.Database), Shared(folder.Database + "-wal"), confirmed);
            }
        }
    }

    private List<int> Open(byte[] database, byte[] journal, string what)
    {
        File.Delete(Copy + "-shm");
        File.WriteAllBytes(Copy, database);
        File.WriteAllBytes(Copy + "-wal", journal);
        using (var connection = Files.OpenWriter(folder.Options with { Path = Copy }))
        {
            Assert.True(Files.QuickCheck(connection, TimeSpan.FromMinutes(1), TimeProvider.System) is null, what);
            using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA integrity_check";
            Assert.True(command.ExecuteScalar() is "ok", what);
            command.CommandText = "SELECT count(*) FROM sqlite_master WHERE name = 'alarm'";
            if (command.ExecuteScalar() is 0L)
            {
                return [];
            }

            command.CommandText = "SELECT at_s FROM alarm ORDER BY id";
            using var rows = command.ExecuteReader();
            var held = new List<int>();
            while (rows.Read())
            {
                held.Add((int)rows.GetDouble(0));
            }

            return held;
        }
    }

    private static byte[] Shared(string path)
    {
        using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
