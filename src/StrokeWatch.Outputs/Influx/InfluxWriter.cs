using System.Globalization;
using InfluxDB.Client;
using InfluxDB.Client.Api.Domain;
using InfluxDB.Client.Core.Exceptions;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Influx;

/// <summary>Writes through InfluxDB.Client's asynchronous writer: one request a call, no buffer and no repeat of its own.</summary>
/// <remarks>The client is made anew, and the token read anew, after the server has denied something: a token that was put right counts without a restart.</remarks>
internal sealed class InfluxWriter(InfluxOptions options, TimeProvider? clock) : IInfluxWriter
{
    private const int MostWords = 200;

    private InfluxDBClient? client;
    private HttpClient? http;
    private RetryAfterHandler? retry;
    private string? token;

    /// <inheritdoc/>
    public async Task<InfluxAnswer> Write(IReadOnlyList<string> lines, CancellationToken stop)
    {
        if (client is null && Open() is { } trouble)
        {
            return new(InfluxAnswerKind.Denied, trouble);
        }

        try
        {
            await client!.GetWriteApiAsync().WriteRecordsAsync([.. lines], WritePrecision.Ns, options.Bucket, options.Org, stop).ConfigureAwait(false);
            return new(InfluxAnswerKind.Taken);
        }
        catch (Exception) when (stop.IsCancellationRequested)
        {
            throw new OperationCanceledException(stop);
        }
        catch (HttpException e) when (e.Status != 0)
        {
            var kind = InfluxAnswer.Sort(e.Status);
            var answer = new InfluxAnswer(kind, string.Create(CultureInfo.InvariantCulture, $"{e.Status}{Said(e.Message)}"), retry!.Asked);
            if (kind == InfluxAnswerKind.Denied)
            {
                Close();
            }

            return answer;
        }
        catch (Exception e)
        {
            // Whatever else the client throws, of network or of itself: the rows are kept and sent again.
            return new(InfluxAnswerKind.Later, e is OperationCanceledException || e.InnerException is OperationCanceledException ? "no answer in time" : Said(e.Message).TrimStart(' '));
        }
    }

    /// <inheritdoc/>
    public void Dispose() => Close();

    private string? Open()
    {
        token = null;
        if (options.TokenPath is { } path)
        {
            token = SecretFile.Read(path, "token", out var trouble);
            if (trouble is not null)
            {
                return trouble;
            }
        }

        // A connection is not kept for ever, so that a server that has moved to another address is found there.
        retry = new(new SocketsHttpHandler { AllowAutoRedirect = false, PooledConnectionLifetime = TimeSpan.FromMinutes(10) }, clock);
        http = new(retry) { Timeout = options.Patience };
        var chosen = new InfluxDBClientOptions(options.Url.ToString()) { Org = options.Org, Bucket = options.Bucket, Timeout = options.Patience, HttpClient = http };
        if (token is not null)
        {
            chosen.Token = token;
        }

        client = new(chosen);
        return null;
    }

    private void Close()
    {
        client?.Dispose();
        http?.Dispose();
        (client, http, retry) = (null, null, null);
    }

    private string Said(string? words)
    {
        if (string.IsNullOrWhiteSpace(words))
        {
            return "";
        }

        var plain = new string([.. words.Select(letter => char.IsControl(letter) ? ' ' : letter)]).Trim();
        plain = token is null ? plain : plain.Replace(token, "(the token)", StringComparison.Ordinal);
        return " " + (plain.Length > MostWords ? plain[..MostWords] + "…" : plain);
    }
}
