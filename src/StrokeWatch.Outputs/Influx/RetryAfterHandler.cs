namespace StrokeWatch.Outputs.Influx;

/// <summary>Reads Retry-After off each answer, in seconds or as a date (RFC 9110, section 10.2.3), and takes it away from the client above, which fails on a date.</summary>
internal sealed class RetryAfterHandler(HttpMessageHandler inner, TimeProvider? clock) : DelegatingHandler(inner)
{
    /// <summary>Gets what the last answer asked for; null where it asked for nothing.</summary>
    public TimeSpan? Asked { get; private set; }

    /// <inheritdoc/>
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        Asked = null;
        var response = await base.SendAsync(request, cancellationToken).ConfigureAwait(false);
        var asked = response.Headers.RetryAfter is { } header ? header.Delta ?? (header.Date - clock?.GetUtcNow()) : null;
        Asked = asked > TimeSpan.Zero ? asked : null;
        _ = response.Headers.Remove("Retry-After");
        return response;
    }
}
