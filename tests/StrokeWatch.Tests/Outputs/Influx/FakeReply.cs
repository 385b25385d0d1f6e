namespace StrokeWatch.Tests.Outputs.Influx;

/// <summary>How the fake server answers one request.</summary>
/// <param name="Status">The HTTP status.</param>
/// <param name="Take">How many of the request's lines it keeps.</param>
internal sealed record FakeReply(int Status, int Take = 0)
{
    public static readonly FakeReply Taken = new(204, int.MaxValue);

    public string Body { get; init; } = "";

    public string? RetryAfter { get; init; }

    /// <summary>Gets how long it takes to answer.</summary>
    public TimeSpan Delay { get; init; }

    /// <summary>Gets whether it closes the connection in place of an answer.</summary>
    public bool Abort { get; init; }
}
