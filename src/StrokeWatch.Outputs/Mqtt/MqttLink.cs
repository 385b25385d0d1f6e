using System.Buffers;
using System.Security.Cryptography.X509Certificates;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Mqtt;

/// <summary>One connection to a broker; where anything goes wrong with it, it is thrown away and another is made.</summary>
internal sealed class MqttLink : IDisposable
{
    private static readonly TimeSpan LeavePatience = TimeSpan.FromSeconds(2);

    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly MqttOptions options;

    private MqttLink(MqttOptions options) => this.options = options;

    /// <summary>Gets whether the connection is known to be there.</summary>
    public bool Connected => client.IsConnected;

    /// <summary>Connects; the broker itself tells others of the end where this program cannot.</summary>
    /// <param name="options">The broker.</param>
    /// <param name="will">What the broker sends when the connection is lost; null for nothing.</param>
    /// <param name="stop">Gives it up.</param>
    /// <exception cref="MqttTroubleException">It cannot be connected to.</exception>
    public static async Task<MqttLink> Connect(MqttOptions options, MqttMessage? will, CancellationToken stop)
    {
        var link = new MqttLink(options);
        try
        {
            var answer = await link.client.ConnectAsync(Build(options, will), stop).ConfigureAwait(false);
            return answer.ResultCode == MqttClientConnectResultCode.Success ? link : throw Denied(options, answer.ResultCode.ToString());
        }
        catch (Exception e)
        {
            link.Dispose();
            stop.ThrowIfCancellationRequested();
            throw e as MqttTroubleException ?? Trouble(options, e);
        }
    }

    /// <summary>Sends a message and, where it is to be confirmed, waits for that.</summary>
    /// <exception cref="MqttTroubleException">It was not confirmed, or could not be sent.</exception>
    public async Task Send(MqttMessage message, CancellationToken stop)
    {
        // The library itself notices a broker that hangs only after one and a half times the keep-alive period.
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(stop);
        patience.CancelAfter(options.Patience);
        try
        {
            var result = await client.PublishAsync(
                new MqttApplicationMessageBuilder().WithTopic(message.Topic).WithPayload(message.Payload).WithRetainFlag(message.Retained)
                    .WithQualityOfServiceLevel(message.Confirmed ? MqttQualityOfServiceLevel.AtLeastOnce : MqttQualityOfServiceLevel.AtMostOnce).Build(),
                patience.Token).ConfigureAwait(false);
            if (!result.IsSuccess)
            {
                throw Denied(options, $"{message.Topic}: {result.ReasonCode}");
            }
        }
        catch (Exception e) when (e is not MqttTroubleException)
        {
            stop.ThrowIfCancellationRequested();
            throw Trouble(options, e);
        }
    }

    /// <summary>Hears what others say under a topic.</summary>
    /// <param name="topic">The topic.</param>
    /// <param name="heard">Hears each message, on a thread of the connection.</param>
    /// <param name="stop">Gives it up.</param>
    /// <exception cref="MqttTroubleException">The broker does not let us.</exception>
    public async Task Hear(string topic, Action<byte[]> heard, CancellationToken stop)
    {
        client.ApplicationMessageReceivedAsync += message =>
        {
            if (message.ApplicationMessage.Topic == topic)
            {
                heard(message.ApplicationMessage.Payload.ToArray());
            }

            return Task.CompletedTask;
        };
        await Try(token => client.SubscribeAsync(new MqttTopicFilterBuilder().WithTopic(topic).WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build(), token), stop).ConfigureAwait(false);
    }

    /// <summary>Waits until the broker has answered, and so has had all that was sent before.</summary>
    /// <exception cref="MqttTroubleException">It does not answer.</exception>
    public Task Ping(CancellationToken stop) => Try(client.PingAsync, stop);

    /// <summary>Says what is said at an orderly end, by the broker's will where that says it, and takes leave.</summary>
    public async Task TakeLeave(MqttMessage? leaving)
    {
        try
        {
            using var patience = new CancellationTokenSource(LeavePatience);
            if (leaving is { } message)
            {
                await Send(message, patience.Token).ConfigureAwait(false);
            }

            await Leave(withWill: leaving is null, patience.Token).ConfigureAwait(false);
        }
        catch (Exception e) when (e is MqttTroubleException or OperationCanceledException)
        {
            // Then the broker tells of it by the will.
        }
    }

    /// <summary>Takes leave in order, which keeps the broker from telling of a loss, unless it is asked to.</summary>
    public async Task Leave(bool withWill, CancellationToken stop)
    {
        try
        {
            await client.DisconnectAsync(
                new MqttClientDisconnectOptions { Reason = withWill ? MqttClientDisconnectOptionsReason.DisconnectWithWillMessage : MqttClientDisconnectOptionsReason.NormalDisconnection }, stop).ConfigureAwait(false);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // It is gone already; the broker's will tells of it.
        }
    }

    /// <inheritdoc/>
    public void Dispose() => client.Dispose();

    private async Task Try(Func<CancellationToken, Task> ask, CancellationToken stop)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(stop);
        patience.CancelAfter(options.Patience);
        try
        {
            await ask(patience.Token).ConfigureAwait(false);
        }
        catch (Exception e)
        {
            stop.ThrowIfCancellationRequested();
            throw Trouble(options, e);
        }
    }

    private static MqttClientOptions Build(MqttOptions options, MqttMessage? will)
    {
        var builder = new MqttClientOptionsBuilder().WithTcpServer(options.Host, options.Port).WithClientId($"{options.Prefix}-{options.Topic}".Replace('/', '-'))
            .WithProtocolVersion(options.Old ? MqttProtocolVersion.V311 : MqttProtocolVersion.V500).WithCleanStart().WithTimeout(options.Patience).WithKeepAlivePeriod(TimeSpan.FromSeconds(20));
        if (will is { } last)
        {
            builder = builder.WithWillTopic(last.Topic).WithWillPayload(last.Payload).WithWillRetain(last.Retained).WithWillQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce);
        }

        if (options.User is { } user)
        {
            string? wrong = null;
            var password = options.PasswordPath is { } path ? SecretFile.Read(path, "password", out wrong) : null;
            builder = wrong is null ? builder.WithCredentials(user, password!) : throw new MqttTroubleException(true, $"{Name(options)} cannot be logged in to: {wrong}");
        }

        return (options.Tls ? builder.WithTlsOptions(tls => Protect(tls, options)) : builder.WithTlsOptions(tls => tls.UseTls(false))).Build();
    }

    private static void Protect(MqttClientTlsOptionsBuilder tls, MqttOptions options)
    {
        tls.UseTls().WithTargetHost(options.Host);
        if (options.CaPath is { } path)
        {
            var trusted = new X509Certificate2Collection();
            trusted.ImportFromPemFile(path);

            // A works' own authority seldom publishes what it has revoked.
            tls.WithTrustChain(trusted).WithRevocationMode(X509RevocationMode.NoCheck);
        }
    }

    private static string Name(MqttOptions options) => FormattableString.Invariant($"Broker {options.Host}:{options.Port}");

    private static MqttTroubleException Denied(MqttOptions options, string words) =>
        new(true, $"{Name(options)} does not let us in ({words}): alarms are held; check user, password_file and what the user may publish");

    private static MqttTroubleException Trouble(MqttOptions options, Exception e)
    {
        var deepest = e.GetBaseException();
        var words = deepest is OperationCanceledException or TimeoutException ? "no answer in time" : deepest.Message.ReplaceLineEndings(" ");
        return deepest is System.Security.Authentication.AuthenticationException or System.Security.Cryptography.CryptographicException
            ? new(true, $"{Name(options)} shows a certificate that is not trusted ({words}): alarms are held; check ca_file, and that host is the name in the certificate")
            : new(false, $"{Name(options)} cannot be reached ({words}): alarms are held and sent later; check the network and the broker");
    }
}
