namespace StrokeWatch.Outputs.Influx;

/// <summary>Hands lines to a time-series server.</summary>
internal interface IInfluxWriter : IDisposable
{
    /// <summary>Sends lines as one request; failures come back as values.</summary>
    /// <exception cref="OperationCanceledException"><paramref name="stop"/> was set.</exception>
    Task<InfluxAnswer> Write(IReadOnlyList<string> lines, CancellationToken stop);
}
