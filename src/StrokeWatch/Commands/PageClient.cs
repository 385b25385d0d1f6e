using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Commands;

/// <summary>Asks a running daemon's page from a command line, as the user whose token is given.</summary>
/// <param name="command">The command that asks, as what is wrong begins with it.</param>
/// <param name="surroundings">The streams, the clock, the wish to stop.</param>
internal sealed class PageClient(string command, Surroundings surroundings)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(15);

    /// <summary>Gets where the page is.</summary>
    public required string Url { get; init; }

    /// <summary>Gets the file that holds the token; null where nothing but looking is done.</summary>
    public string? TokenFile { get; init; }

    /// <summary>Gets the certificate that the page's is trusted by; null for the system's own.</summary>
    public string? CaFile { get; init; }

    /// <summary>Asks; gives the status of what is made of the answer, and says in one line what went wrong.</summary>
    public int Ask(HttpMethod method, string path, byte[]? body, Func<JsonElement, int> take)
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
        surroundings.Error.WriteLine($"strokewatch {command}: {trouble}");
        return CommandLine.Bad;
    }
}
