namespace StrokeWatch.Outputs.Influx;

/// <summary>What came of a request.</summary>
/// <param name="Kind">What is to be done next.</param>
/// <param name="Words">What the server or the network said, on one line and without the token.</param>
/// <param name="RetryAfter">How long the server asks to be left alone; null where it does not.</param>
internal readonly record struct InfluxAnswer(InfluxAnswerKind Kind, string Words = "", TimeSpan? RetryAfter = null)
{
    /// <summary>Sorts an HTTP status; 0 stands for no answer.</summary>
    public static InfluxAnswerKind Sort(int status) => status switch
    {
        0 or 408 or 425 or 429 or >= 500 => InfluxAnswerKind.Later,
        413 => InfluxAnswerKind.TooLarge,
        400 or 422 => InfluxAnswerKind.Refused,
        _ => InfluxAnswerKind.Denied,
    };
}
