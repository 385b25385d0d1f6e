using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Webhook;

/// <summary>Posts one message at a time and says by kind what became of it.</summary>
internal sealed class WebhookSender : IDisposable
{
    private readonly WebhookOptions options;
    private readonly TimeProvider clock;
    private readonly HttpClient client;

    /// <summary>Makes it; nothing is connected yet.</summary>
    public WebhookSender(WebhookOptions options, TimeProvider clock)
    {
        (this.options, this.clock) = (options, clock);

        // A redirection would carry alarms where nobody configured them to go.
        client = new(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false, ConnectTimeout = options.Patience, PooledConnectionLifetime = TimeSpan.FromMinutes(5) })
        {
            Timeout = Timeout.InfiniteTimeSpan,
        };
    }

    /// <summary>Posts a message.</summary>
    public async Task<WebhookAnswer> Post(string id, byte[] body, CancellationToken stop)
    {
        if (SecretFile.Read(options.SecretPath, "secret", out var trouble) is not { } secret)
        {
            return new(WebhookAnswerKind.Denied, trouble!);
        }

        // Real time: a server's slowness is no matter of the injected clock.
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(stop);
        patience.CancelAfter(options.Patience);
        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, options.Url) { Content = new ByteArrayContent(body) };
            var seconds = clock.GetUtcNow().ToUnixTimeSeconds();
            request.Content.Headers.ContentType = new("application/json") { CharSet = "utf-8" };
            request.Headers.Add(WebhookSignature.IdHeader, id);
            request.Headers.Add(WebhookSignature.TimeHeader, seconds.ToString(CultureInfo.InvariantCulture));
            request.Headers.Add(WebhookSignature.Header, WebhookSignature.Of(secret, seconds, body));
            using var response = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, patience.Token).ConfigureAwait(false);
            return Of(response.StatusCode, response.Headers.RetryAfter);
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException or IOException)
        {
            stop.ThrowIfCancellationRequested();
            var deepest = e.GetBaseException();
            return deepest is System.Security.Authentication.AuthenticationException
                ? new(WebhookAnswerKind.Denied, $"its certificate is not trusted: {deepest.Message.ReplaceLineEndings(" ")}")
                : new(WebhookAnswerKind.Later, deepest is OperationCanceledException ? "no answer in time" : deepest.Message.ReplaceLineEndings(" "));
        }
    }

    /// <inheritdoc/>
    public void Dispose() => client.Dispose();

    private WebhookAnswer Of(HttpStatusCode status, RetryConditionHeaderValue? later)
    {
        var asked = later?.Delta ?? later?.Date - clock.GetUtcNow();
        var words = FormattableString.Invariant($"status {(int)status}");
        return (int)status switch
        {
            >= 200 and < 300 => new(WebhookAnswerKind.Taken),
            408 or 425 or 429 or >= 500 => new(WebhookAnswerKind.Later, words, asked),
            400 or 409 or 413 or 415 or 422 => new(WebhookAnswerKind.Refused, words),
            _ => new(WebhookAnswerKind.Denied, words, asked),
        };
    }
}
