namespace StrokeWatch.Outputs.Forwarding;

/// <summary>Where an output begins with a table.</summary>
internal static class FirstPlace
{
    private const int BatchRows = 1000;

    /// <summary>
    /// Gives how far a table has been forwarded. Where that was never noted and a beginning is given, it is noted now, before the first row of that time on:
    /// who is told for the first time is not told of years past, and after a kill is told all the same of what was not sent yet.
    /// </summary>
    /// <param name="file">The output's notes.</param>
    /// <param name="rows">The store's rows.</param>
    /// <param name="table">The table.</param>
    /// <param name="name">The name it is noted under.</param>
    /// <param name="begun">The beginning; null for the first row there is.</param>
    public static RowPlace Of(ForwardingFile file, WaitingRows rows, string table, string name, DateTimeOffset? begun)
    {
        if (begun is not { } from || file.Knows(name))
        {
            return file.Place(name);
        }

        var place = RowPlace.Start;
        while (rows.After(table, place, BatchRows).Rows is { Count: > 0 } old)
        {
            var past = old.TakeWhile(row => row.UtcMs < from.ToUnixTimeMilliseconds()).ToList();
            place = past.Count == 0 ? place : past[^1].Place;
            if (past.Count < old.Count)
            {
                break;
            }
        }

        file.Move(name, place);
        return place;
    }
}
