using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Influx;

/// <summary>Forwards one table, oldest rows first; its place moves only past rows that the server confirmed or that were set aside.</summary>
/// <param name="table">The table.</param>
/// <param name="store">The store's rows.</param>
/// <param name="batchRows">The most rows of one request.</param>
/// <param name="stubborn">The waits after the server has refused every row.</param>
/// <param name="clock">The clock.</param>
/// <param name="full">What adds the stroke at full voltage to rows with a voltage beside them; null where nothing does.</param>
internal sealed class InfluxLane(InfluxTable table, WaitingRows store, int batchRows, BackOff stubborn, TimeProvider clock, FullVoltageField? full = null)
{
    /// <summary>Rows refused one after the other, none taken between, from which on it is no longer the rows that are at fault: nothing more is set aside.</summary>
    public const int MostInARow = 10;

    private ForwardingFile? file;
    private RowPlace? reached;
    private int most = batchRows;
    private int suspects;
    private int inARow;

    /// <summary>Gets how many rows were confirmed.</summary>
    public long Sent { get; private set; }

    /// <summary>Gets how many rows wait.</summary>
    public long Held { get; private set; }

    /// <summary>Gets how many rows were set aside.</summary>
    public long Refused { get; private set; }

    /// <summary>Gets how many rows the store deleted before they could be sent.</summary>
    public long Gone { get; private set; }

    /// <summary>Gets what the server said of the row set aside last; null where none was.</summary>
    public string? LastRefusal { get; private set; }

    /// <summary>Gets what the server says to every row of this table; null where it does not refuse them all.</summary>
    public string? RefusesAll { get; private set; }

    /// <summary>Gets what is left of the wait after the server has refused every row.</summary>
    public TimeSpan Wait => stubborn.Left;

    /// <summary>Gets or sets where it is noted how far the table has been forwarded; what is known already counts more than what an older file says.</summary>
    public ForwardingFile File
    {
        get => file ?? throw new InvalidOperationException("No file was opened.");
        set
        {
            file = value;
            reached ??= value.Place(table.Name);
        }
    }

    private RowPlace Reached => reached ?? RowPlace.Start;

    /// <summary>Counts what waits without sending anything.</summary>
    public void Look() => Held = store.After(table.Name, Reached, 0).Held;

    /// <summary>Sends one batch, or part of one; null where nothing is to be sent now.</summary>
    public async Task<InfluxAnswer?> Step(IInfluxWriter writer, CancellationToken stop)
    {
        if (Wait > TimeSpan.Zero)
        {
            Look();
            return null;
        }

        var waiting = store.After(table.Name, Reached, suspects > 1 ? Math.Min(most, suspects / 2) : suspects == 1 ? 1 : most, table.Beside);
        (reached, Held) = (waiting.From, waiting.Held);
        suspects = waiting.Anew ? 0 : suspects;
        if (waiting.Rows.Count == 0)
        {
            PassGone();
            return null;
        }

        var lines = waiting.Rows.Select(row => table.Line(table.Beside is null || full is null ? row : full.Add(row))).ToList();
        var answer = await writer.Write(lines, stop).ConfigureAwait(false);
        var alone = lines.Count == 1;
        switch (answer.Kind)
        {
            case InfluxAnswerKind.Taken:
                File.Move(table.Name, waiting.Rows[^1].Place);
                Sent += lines.Count;
                suspects = Math.Max(0, suspects - lines.Count);
                inARow = 0;
                RefusesAll = null;
                stubborn.Succeeded();
                MoveOn(waiting);
                break;
            case InfluxAnswerKind.TooLarge when !alone:
                most = Math.Max(1, lines.Count / 2);
                break;
            case InfluxAnswerKind.Refused when !alone:
                suspects = lines.Count;
                break;
            case InfluxAnswerKind.Refused or InfluxAnswerKind.TooLarge when inARow >= MostInARow:
                suspects = 0;
                RefusesAll = answer.Words;
                stubborn.Failed();
                break;
            case InfluxAnswerKind.Refused or InfluxAnswerKind.TooLarge:
                File.Refuse(table.Name, waiting.Rows[0].Place, answer.Words, lines[0], clock.GetUtcNow());
                Refused++;
                inARow++;
                suspects = 0;
                LastRefusal = FormattableString.Invariant($"row {waiting.Rows[0].Id} of the table {table.Name}: {answer.Words}");
                MoveOn(waiting);
                break;
        }

        return answer;
    }

    private void MoveOn(WaitingBatch done)
    {
        reached = done.Rows[^1].Place;
        Gone += done.Gone;
        Held = done.Held - done.Gone - done.Rows.Count;
    }

    /// <summary>Passes rows that were deleted by age with none after them.</summary>
    private void PassGone()
    {
        if (Held > 0)
        {
            var last = new RowPlace(Reached.Id + Held, 0);
            File.Move(table.Name, last);
            reached = last;
            Gone += Held;
            Held = 0;
        }
    }
}
