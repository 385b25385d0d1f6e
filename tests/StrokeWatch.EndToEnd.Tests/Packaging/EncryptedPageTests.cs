using System.Net;
using System.Net.Http.Json;
using System.Net.Security;
using System.Runtime.Versioning;
using System.Security.Authentication;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json.Nodes;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Live;
using StrokeWatch.Page.Access;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Packaging;

/// <summary>The page with a certificate, as the packed program serves it: a native one where STROKEWATCH_NATIVE names it, which loads OpenSSL only then.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class EncryptedPageTests : IDisposable
{
    private const string Password = "four blue trays";
    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    [SkippableTheory]
    [InlineData("rsa:2048")]
    [InlineData("ec -pkeyopt ec_paramgen_curve:prime256v1")]
    public async Task It_is_read_and_signed_in_to_by_those_who_know_its_certificate_and_by_nobody_else(string key)
    {
        Certify(key);
        using var daemon = Start();
        var address = await Address(daemon);
        using var client = Client(folder.At("page.pem"), address);
        var status = (await client.GetFromJsonAsync<JsonNode>("api/v1/status"))!;
        Assert.Equal("Cullet feeder", (string)status["feeder"]!["name"]!);
        Assert.Contains("StrokeWatch is not a safety function", await client.GetStringAsync(""), StringComparison.Ordinal);

        using var signed = await client.PostAsJsonAsync("api/v1/sign-in", new JsonObject { ["name"] = "Erika", ["password"] = Password });
        Assert.Equal(HttpStatusCode.OK, signed.StatusCode);
        Assert.Contains("secure", Assert.Single(signed.Headers.GetValues("Set-Cookie")), StringComparison.OrdinalIgnoreCase);
        Assert.Equal("engineer", (string)(await client.GetFromJsonAsync<JsonNode>("api/v1/session"))!["role"]!);

        using var live = await client.GetAsync("api/v1/live", HttpCompletionOption.ResponseHeadersRead);
        using var stream = new StreamReader(await live.Content.ReadAsStreamAsync());
        Assert.StartsWith("retry: ", await stream.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(10)), StringComparison.Ordinal);

        using var stranger = new HttpClient { BaseAddress = address };
        Assert.IsType<AuthenticationException>((await Assert.ThrowsAsync<HttpRequestException>(() => stranger.GetAsync("api/v1/status"))).InnerException);
        using var plain = new HttpClient { BaseAddress = new UriBuilder(address) { Scheme = "http" }.Uri };
        await Assert.ThrowsAsync<HttpRequestException>(() => plain.GetAsync("api/v1/status"));

        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(20));
        Assert.DoesNotContain("without encryption", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Unhandled", outcome.Error, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task A_key_that_is_not_the_certificate_s_is_one_line_and_nothing_is_served()
    {
        Certify("rsa:2048");
        Tool.Say("openssl", "genrsa", "-out", folder.At("page.key"), "2048");
        using var daemon = Start();
        var outcome = await daemon.End(TimeSpan.FromSeconds(30));
        Assert.Equal(2, outcome.Status);
        Assert.Contains("page.key", Assert.Single(outcome.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task It_is_served_under_the_system_calls_that_the_unit_leaves()
    {
        Skip.If(BuiltPackage.Native is null, "STROKEWATCH_NATIVE names no native program");
        Tool.Need("systemd-analyze", "python3");
        Certify("rsa:2048");
        var tests = Path.Combine(Repository.Root, "tests", "StrokeWatch.EndToEnd.Tests", "Packaging", "confine.py");
        using var daemon = Start("python3", tests, Path.Combine(Repository.Root, "systemd", "strokewatch.service"));
        await daemon.Until(() => daemon.Ended || daemon.Out.Contains("Page: https://", StringComparison.Ordinal) ? "served" : null, "address of the page");
        Skip.If(daemon.Ended && (await daemon.End()).Status == 77, "libseccomp or the sets of calls are not here");
        var address = await Address(daemon);
        using var client = Client(folder.At("page.pem"), address);
        Assert.Equal("Cullet feeder", (string)(await client.GetFromJsonAsync<JsonNode>("api/v1/status"))!["feeder"]!["name"]!);
    }

    private static Task<Uri> Address(Running daemon) => daemon.Until(
        () => daemon.Out.Split('\n').FirstOrDefault(line => line.Contains("Page: https://", StringComparison.Ordinal) && line.EndsWith('/')) is { } line ? new Uri(line[line.IndexOf("https", StringComparison.Ordinal)..]) : null,
        "address of the page");

    private static HttpClient Client(string certificate, Uri address)
    {
        var client = new HttpClient(new SocketsHttpHandler
        {
            SslOptions = new SslClientAuthenticationOptions
            {
                CertificateChainPolicy = new()
                {
                    TrustMode = X509ChainTrustMode.CustomRootTrust,
                    RevocationMode = X509RevocationMode.NoCheck,
                    CustomTrustStore = { X509CertificateLoader.LoadCertificateFromFile(certificate) },
                },
            },
        })
        { BaseAddress = address };
        client.DefaultRequestHeaders.Add("Origin", address.GetLeftPart(UriPartial.Authority));
        client.DefaultRequestHeaders.Add(PageAccess.Header, "1");
        return client;
    }

    private void Certify(string key)
    {
        Tool.Need("openssl");
        Tool.Say(
            "openssl",
            ["req", "-x509", "-newkey", .. key.Split(' '), "-nodes", "-keyout", folder.At("page.key"), "-out", folder.At("page.pem"), "-days", "2", "-subj", "/CN=cullet-board", "-addext", "subjectAltName=IP:127.0.0.1"]);
        File.SetUnixFileMode(folder.At("page.key"), UnixFileMode.UserRead | UnixFileMode.UserWrite);
    }

    /// <summary>Starts the packed program on a sensor that is not plugged in: the page is served all the same.</summary>
    private Running Start(params string[] before)
    {
        folder.Write("cullet.feeder.toml", DemoFeeder.Toml);
        new UsersFile([new("Erika", PageRole.Engineer, PasswordHash.Make(Password, 100_000))], []).Write(folder.At("users.toml"));
        folder.Write(
            "watch.toml",
            "feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"tray-sensor\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n[page]\nlisten = \"127.0.0.1:0\"\nusers = \"users.toml\"\ncertificate = \"page.pem\"\nkey = \"page.key\"\n");
        return Running.StartOther(folder.Path, [.. before, Path.Combine(BuiltPackage.Program, "strokewatch"), "watch", "--config", "watch.toml"], ("DOTNET_ROOT", BuiltPackage.Runtime));
    }
}
