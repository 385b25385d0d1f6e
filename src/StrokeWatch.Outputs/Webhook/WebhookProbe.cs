using System.Net.Sockets;

namespace StrokeWatch.Outputs.Webhook;

/// <summary>Looks whether somebody listens at a webhook's address, without a message.</summary>
public static class WebhookProbe
{
    /// <summary>Gives what stands in the way and what to do; null where somebody listens.</summary>
    public static string? Trouble(WebhookOptions options)
    {
        using var client = new TcpClient();
        using var patience = new CancellationTokenSource(options.Patience);
        try
        {
            client.ConnectAsync(options.Url.DnsSafeHost, options.Url.Port, patience.Token).AsTask().GetAwaiter().GetResult();
            return null;
        }
        catch (Exception e) when (e is SocketException or OperationCanceledException)
        {
            return $"webhook {options.Url}: cannot be reached ({(e is SocketException ? e.Message : "no answer in time")}); check `url` and the network";
        }
    }
}
