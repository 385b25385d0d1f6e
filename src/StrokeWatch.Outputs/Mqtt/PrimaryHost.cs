using System.Text.Json;

namespace StrokeWatch.Outputs.Mqtt;

/// <summary>Follows whether the primary host application is there (Sparkplug 3.0, 5.4 and 5.6): births wait for it, and what is said stops when it goes.</summary>
/// <param name="topic">Where it says so, retained: <c>{"online": true, "timestamp": …}</c>; its last part is the host's id.</param>
/// <param name="clock">The clock.</param>
internal sealed class PrimaryHost(string topic, TimeProvider clock)
{
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(5);

    private readonly Lock gate = new();
    private TaskCompletionSource changed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private long last = long.MinValue;
    private volatile bool online;

    /// <summary>Gets whether it is online, as far as it has said on this connection.</summary>
    public bool Online => online;

    /// <summary>Waits until it is online. Whether the broker still answers is asked meanwhile.</summary>
    /// <param name="link">The connection; nothing was said on it yet.</param>
    /// <param name="gone">Hears, on a thread of the connection, of each change.</param>
    /// <param name="waits">Hears from time to time that it is still waited for.</param>
    /// <param name="tell">Hears once, after a while, what is waited for.</param>
    /// <param name="stop">Gives it up.</param>
    /// <exception cref="MqttTroubleException">The broker does not answer.</exception>
    public async Task Wait(MqttLink link, Action gone, Action waits, Action<string> tell, CancellationToken stop)
    {
        // Each connection asks anew (tck-id-message-flow-edge-node-birth-publish-phid-wait).
        online = false;
        var told = false;
        await link.Hear(topic, payload => Hear(payload, gone), stop).ConfigureAwait(false);
        while (true)
        {
            Task next;
            lock (gate)
            {
                if (online)
                {
                    return;
                }

                next = changed.Task;
            }

            await Task.WhenAny(next, Task.Delay(Look, clock, stop)).ConfigureAwait(false);
            stop.ThrowIfCancellationRequested();
            if (!online && !next.IsCompleted)
            {
                waits();
                await link.Ping(stop).ConfigureAwait(false);
                if (!told)
                {
                    told = true;
                    tell($"the primary host {topic.Split('/')[^1]} is not online: births and alarms are held until it says under {topic} that it is; check that host, and `primary_host`");
                }
            }
        }
    }

    /// <summary>Goes on only where it is online.</summary>
    /// <exception cref="HostOfflineException">It is not.</exception>
    public void Demand()
    {
        if (!online)
        {
            throw new HostOfflineException();
        }
    }

    /// <summary>Takes what it says; what is no such message, or older than the last, counts for nothing (tck-id-message-flow-edge-node-birth-publish-phid-wait-timestamp, tck-id-operational-behavior-edge-node-termination-host-offline-timestamp).</summary>
    internal void Hear(byte[] payload, Action gone)
    {
        if (Read(payload) is not var (says, at))
        {
            return;
        }

        lock (gate)
        {
            if (at < last)
            {
                return;
            }

            last = at;
            online = says;
            changed.TrySetResult();
            changed = new(TaskCreationOptions.RunContinuationsAsynchronously);
        }

        gone();
    }

    private static (bool Online, long At)? Read(byte[] payload)
    {
        try
        {
            using var document = JsonDocument.Parse(payload, new() { MaxDepth = 4 });
            return document.RootElement is { ValueKind: JsonValueKind.Object } root
                && root.TryGetProperty("online", out var says) && says.ValueKind is JsonValueKind.True or JsonValueKind.False
                && root.TryGetProperty("timestamp", out var at) && at.ValueKind == JsonValueKind.Number && at.TryGetInt64(out var ms) && ms >= 0
                ? (says.ValueKind == JsonValueKind.True, ms) : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }
}
