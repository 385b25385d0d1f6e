using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Store;

/// <summary>The connection to the database and what keeps it well; only the writer's thread uses it. Failures come back as values.</summary>
internal sealed class StoreSession(StoreOptions options, TimeProvider clock, Action<StoreEventKind, string> note) : IDisposable
{
    private const int PurgeRows = 5_000;
    private static readonly TimeSpan PurgePause = TimeSpan.FromDays(1);

    private readonly Ballast ballast = new(options.Path, options.BallastBytes);
    private readonly LivedTime lived = new(clock);
    private readonly ClockWatch watch = new(clock);
    private SqliteConnection? connection;
    private RowWriter? writer;
    private bool mustCheck = true;
    private bool mustTell = true;
    private bool purging = true;
    private long purged;

    /// <summary>Says whether the disk has room again after it was full.</summary>
    public bool HasRoom() => ballast.HasRoom();

    /// <summary>Commits rows as one; opens, checks and repairs what that needs. The room set aside is taken again only where asked.</summary>
    public StoreOutcome Write(IReadOnlyList<StoreRow> rows, bool holdRoom)
    {
        try
        {
            Open();
            if (options.NoteClock && watch.Look() is { } step)
            {
                note(StoreEventKind.Clock, step);
            }

            if (rows.Count > 0)
            {
                writer!.Commit(rows);
            }

            if (holdRoom)
            {
                ballast.Hold();
            }

            return StoreOutcome.Well;
        }
        catch (Exception e)
        {
            return Failed(e);
        }
    }

    /// <summary>Deletes windows past their days, a few thousand at a time; once a day is enough.</summary>
    public void Purge()
    {
        if (connection is null)
        {
            return;
        }

        try
        {
            lived.MarkIfDue(connection);
            if (!purging && clock.GetElapsedTime(purged) < PurgePause)
            {
                return;
            }

            purging = PurgeOnce() == PurgeRows;
            purged = clock.GetTimestamp();
        }
        catch (SqliteException)
        {
            // Rows kept a day longer are no trouble; what is behind it shows at the next commit.
            purging = false;
            purged = clock.GetTimestamp();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => Close();

    private void Open()
    {
        if (connection is not null)
        {
            return;
        }

        for (var attempt = 0; ; attempt++)
        {
            var wrong = TryOpen();
            if (wrong is null)
            {
                return;
            }

            Close();
            if (attempt > 0)
            {
                throw new IOException(wrong);
            }

            var aside = Database.MoveAside(options.Path, clock.GetUtcNow());
            note(StoreEventKind.StoreReplaced, $"the database could not be read ({wrong}); it was moved to {aside} and a new one was started");
        }
    }

    /// <summary>Opens and checks; gives what is wrong where the file is broken, null where all is well; other failures throw.</summary>
    private string? TryOpen()
    {
        try
        {
            connection = Database.OpenWriter(options);
            if (mustCheck && Database.QuickCheck(connection, options.CheckLimit, clock) is { } wrong)
            {
                return wrong.ReplaceLineEndings(" ");
            }

            Schema.Ensure(connection);
            writer = new RowWriter(connection, options.Feeder);
            lived.Resume(connection);
            mustCheck = false;
            if (mustTell)
            {
                Tell(connection);
            }

            mustTell = false;
            return null;
        }
        catch (SqliteException e) when (Database.IsBroken(e))
        {
            return e.Message.ReplaceLineEndings(" ");
        }
        catch
        {
            Close();
            throw;
        }
    }

    private void Tell(SqliteConnection opened)
    {
        if (options.NoteInterruption && Interruption.Words(opened, options.Feeder, clock.GetUtcNow()) is { } words)
        {
            note(StoreEventKind.Gap, words);
        }

        if (options.NoteClock && watch.AtStart(Interruption.Last(opened)) is { } odd)
        {
            note(StoreEventKind.Clock, odd);
        }
    }

    private StoreOutcome Failed(Exception e)
    {
        var outcome = StoreOutcome.From(e, options.Path);
        if (outcome.State != StoreState.Full)
        {
            mustCheck |= e is SqliteException broken && Database.IsBroken(broken);
            Close();
            return outcome;
        }

        if (!ballast.TryRelease())
        {
            return outcome;
        }

        try
        {
            if (connection is not null)
            {
                Database.Execute(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
                while (PurgeOnce() == PurgeRows)
                {
                }

                Database.Execute(connection, "PRAGMA incremental_vacuum");
            }
        }
        catch (SqliteException)
        {
            // Even this found no room: the next attempt starts afresh.
            Close();
        }

        return outcome with { TryAgain = true };
    }

    private int PurgeOnce()
    {
        if (lived.Newest(connection!, options.KeepDays) is not { } newest)
        {
            return 0;
        }

        using var transaction = connection!.BeginTransaction();
        using var command = connection.CreateCommand();
        command.CommandText = "DELETE FROM window_supply WHERE window_id IN (SELECT id FROM window WHERE id <= $newest ORDER BY id LIMIT $rows)";
        command.Parameters.AddWithValue("$newest", newest);
        command.Parameters.AddWithValue("$rows", PurgeRows);
        command.ExecuteNonQuery();
        command.CommandText = "DELETE FROM window WHERE id IN (SELECT id FROM window WHERE id <= $newest ORDER BY id LIMIT $rows)";
        var gone = command.ExecuteNonQuery();
        transaction.Commit();
        if (gone < PurgeRows)
        {
            LivedTime.Forget(connection, newest);
        }

        return gone;
    }

    private void Close()
    {
        try
        {
            writer?.Dispose();
            connection?.Dispose();
        }
        catch (SqliteException)
        {
            // The journal holds what was committed; the next opening brings it in.
        }

        writer = null;
        connection = null;
    }
}
