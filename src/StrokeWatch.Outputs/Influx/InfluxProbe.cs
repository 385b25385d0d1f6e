namespace StrokeWatch.Outputs.Influx;

/// <summary>Asks a time-series server whether it would take rows, without leaving one there.</summary>
public static class InfluxProbe
{
    /// <summary>A comment of line protocol: it passes the token, the organisation and the bucket, and holds no point.</summary>
    private const string Comment = "# strokewatch check";

    /// <summary>Gives what stands in the way and what to do; null where the server would take rows.</summary>
    public static string? Trouble(InfluxOptions options)
    {
        using var writer = new InfluxWriter(options, clock: null);
        var answer = writer.Write([Comment], CancellationToken.None).GetAwaiter().GetResult();

        // Some servers call a request without a point a bad one: that, too, comes only after token and bucket were found good.
        return answer.Kind is InfluxAnswerKind.Taken or InfluxAnswerKind.Refused ? null : InfluxWords.Of(answer, options);
    }
}
