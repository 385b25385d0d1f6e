namespace StrokeWatch.Outputs.Influx;

/// <summary>What came of a request, by what is to be done next.</summary>
internal enum InfluxAnswerKind
{
    /// <summary>The server confirmed the rows.</summary>
    Taken,

    /// <summary>No answer, or one that says later (408, 429, 5xx): wait and send the same again.</summary>
    Later,

    /// <summary>Nothing will be taken before somebody puts something right (401, 403, 404, a redirection and the like): wait long.</summary>
    Denied,

    /// <summary>Too much at once (413): send less.</summary>
    TooLarge,

    /// <summary>Some row is not understood (400, 422): find it.</summary>
    Refused,
}
