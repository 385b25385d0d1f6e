using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Commands;

/// <summary>The command <c>alarms</c>: what a running daemon's page shows and does, from a command line.</summary>
internal sealed class AlarmsCommand(Surroundings surroundings)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(15);

    /// <summary>Gets where the page is.</summary>
    public required string Url { get; init; }

    /// <summary>Gets the file that holds the token; null where nothing but looking is done.</summary>
    public string? TokenFile { get; init; }

    /// <summary>Gets the certificate that the page's is trusted by; null for the system's own.</summary>
    public string? CaFile { get; init; }

    /// <summary>Prints the alarms; 1 where any stands or waits for somebody.</summary>
    public int Show(bool json) => Ask(HttpMethod.Get, "api/v1/status", null, status =>
    {
        List<JsonElement> alarms = [.. status.GetProperty("alarms").EnumerateArray().Where(alarm => alarm.GetProperty("state").GetString() != "normal")];
        if (json)
        {
            surroundings.Output.WriteLine($"[{string.Join(",", alarms.Select(alarm => alarm.GetRawText()))}]");
        }
        else if (alarms.Count == 0)
        {
            surroundings.Output.WriteLine("No alarm stands.");
        }

        foreach (var alarm in json ? [] : alarms)
        {
            Print(alarm);
        }

        return alarms.Exists(alarm => alarm.GetProperty("state").GetString() is not ("shelved" or "suppressed-by-design" or "out-of-service")) ? CommandLine.NotWell : CommandLine.Well;
    });

    /// <summary>Does something to an alarm.</summary>
    public int Do(string alarm, string act, int? minutes, string? reason)
    {
        using var body = new MemoryStream();
        using (var writer = new Utf8JsonWriter(body))
        {
            writer.WriteStartObject();
            if (minutes is { } known)
            {
                writer.WriteNumber("minutes", known);
            }

            if (reason is not null)
            {
                writer.WriteString("reason", reason);
            }

            writer.WriteEndObject();
        }

        return Ask(HttpMethod.Post, $"api/v1/alarms/{Uri.EscapeDataString(alarm)}/{act}", body.ToArray(), answer =>
        {
            Print(answer.GetProperty("alarm"));
            return CommandLine.Well;
        });
    }

    private void Print(JsonElement alarm)
    {
        string Text(string key) => alarm.GetProperty(key).GetString() ?? "";
        var until = Text("until_utc") is { Length: > 0 } end ? $" until {end}" : "";
        surroundings.Output.WriteLine($"{Text("id")}  {Text("state")}{until}  since {Text("since_utc")} by {Text("by")}: {Text("words")}");
    }

    private int Ask(HttpMethod method, string path, byte[]? body, Func<JsonElement, int> take)
    {
        if (!Uri.TryCreate(Url.TrimEnd('/') + "/", UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https"))
        {
            return Say($"--url is '{Url}'; the page's address was expected, such as http://127.0.0.1:8787");
        }

        string? token = null;
        if (TokenFile is not null && (token = SecretFile.Read(TokenFile, "token", out var trouble)) is null)
        {
            return Say(trouble!);
        }

        try
        {
            using var handler = new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false, UseCookies = false };
            Trust(handler);
            using var client = new HttpClient(handler) { Timeout = Patience, BaseAddress = address };
            using var request = new HttpRequestMessage(method, path);
            if (token is not null)
            {
                request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token);
            }

            if (body is not null)
            {
                request.Content = new ByteArrayContent(body);
                request.Content.Headers.ContentType = new("application/json");
            }

            using var answer = client.Send(request, surroundings.Stop);
            using var content = answer.Content.ReadAsStream(surroundings.Stop);
            using var document = JsonDocument.Parse(content);
            return answer.StatusCode == HttpStatusCode.OK ? take(document.RootElement) : Say($"{address}: {document.RootElement.GetProperty("error").GetString()}");
        }
        catch (Exception wrong) when (wrong is HttpRequestException or TaskCanceledException or JsonException or KeyNotFoundException or InvalidOperationException)
        {
            return Say($"{address}: {(wrong is HttpRequestException ? $"no answer ({Innermost(wrong).TrimEnd('.')})" : wrong is TaskCanceledException ? "no answer in time" : "what answers there is no StrokeWatch")}; is the daemon running, and is its page there?");
        }
        catch (CryptographicException)
        {
            return Say($"--ca-file is '{CaFile}'; a certificate in PEM was expected");
        }
    }

    private void Trust(SocketsHttpHandler handler)
    {
        if (CaFile is null)
        {
            return;
        }

        var roots = new X509Certificate2Collection();
        roots.ImportFromPemFile(CaFile);
        handler.SslOptions.CertificateChainPolicy = new() { TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck };
        handler.SslOptions.CertificateChainPolicy.CustomTrustStore.AddRange(roots);
    }

    private static string Innermost(Exception wrong) => (wrong.InnerException is { } inner ? Innermost(inner) : wrong.Message).ReplaceLineEndings(" ");

    private int Say(string trouble)
    {
        surroundings.Error.WriteLine($"strokewatch alarms: {trouble}");
        return CommandLine.Bad;
    }
}
