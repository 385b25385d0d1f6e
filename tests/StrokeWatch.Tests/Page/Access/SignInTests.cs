using System.Net;
using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using System.Text.Json.Nodes;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Page.Access;
using Xunit;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>Signing in and out of a page that is really served.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class SignInTests
{
    [Fact]
    public async Task Who_signs_in_is_known_by_a_cookie_that_no_script_and_no_other_site_gets_until_signing_out()
    {
        using var page = new ServedPage();
        using var answer = await ServedPage.SignIn(page.Client, "olga");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("secure", cookie, StringComparison.OrdinalIgnoreCase);

        var (_, session) = await ServedPage.Answer(page.Client.GetAsync("api/v1/session"));
        Assert.Equal((true, "Olga", "operator"), ((bool)session["signed_in"]!, (string)session["name"]!, (string)session["role"]!));
        Assert.Equal(["acknowledge", "shelve"], session["may"]!.AsArray().Select(one => (string)one!));
        Assert.Contains(page.Log, line => line.StartsWith("Page: Olga signed in as operator from 127.0.0.1", StringComparison.Ordinal));

        Assert.Equal(HttpStatusCode.OK, (await ServedPage.Answer(ServedPage.Post(page.Client, "api/v1/sign-out"))).Status);
        (_, session) = await ServedPage.Answer(page.Client.GetAsync("api/v1/session"));
        Assert.Equal((false, null), ((bool)session["signed_in"]!, (string?)session["name"]));

        // The cookie that was good before the sign-out is none after it, whoever kept it.
        using var thief = page.Browser(new SocketsHttpHandler { UseCookies = false });
        thief.DefaultRequestHeaders.Add("Cookie", cookie.Split(';')[0]);
        Assert.Equal(HttpStatusCode.Unauthorized, (await ServedPage.Answer(ServedPage.Post(thief, "api/v1/alarms/over-stroke/acknowledge"))).Status);
    }

    [Fact]
    public async Task A_wrong_password_and_an_unknown_name_get_the_same_answer_and_neither_is_written_down()
    {
        using var page = new ServedPage();
        var wrong = await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga", "hunter2 hunter2"));
        var unknown = await ServedPage.Answer(ServedPage.SignIn(page.Client, "my secret typed here", ServedPage.Password));
        Assert.Equal(HttpStatusCode.Unauthorized, wrong.Status);
        Assert.Equal((wrong.Status, wrong.Said.ToJsonString()), (unknown.Status, unknown.Said.ToJsonString()));
        Assert.Contains(page.Log, line => line.Contains("sign-in refused for Olga from 127.0.0.1", StringComparison.Ordinal));
        Assert.DoesNotContain(page.Log, line => line.Contains("hunter2", StringComparison.Ordinal) || line.Contains("my secret", StringComparison.Ordinal) || line.Contains(ServedPage.Password, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Who_guesses_waits_longer_each_time_and_the_right_password_waits_with_them()
    {
        using var page = new ServedPage();
        for (var i = 0; i <= SignInBrake.Free; i++)
        {
            Assert.Equal(HttpStatusCode.Unauthorized, (await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga", $"guess number {i}"))).Status);
        }

        using (var held = await ServedPage.SignIn(page.Client, "Olga"))
        {
            Assert.Equal((HttpStatusCode.TooManyRequests, 1.0), (held.StatusCode, held.Headers.RetryAfter!.Delta!.Value.TotalSeconds));
        }

        page.Time.Advance(TimeSpan.FromSeconds(1.1));
        Assert.Equal(HttpStatusCode.Unauthorized, (await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga", "one more guess"))).Status);
        using (var held = await ServedPage.SignIn(page.Client, "Tom"))
        {
            Assert.Equal((HttpStatusCode.TooManyRequests, 2.0), (held.StatusCode, held.Headers.RetryAfter!.Delta!.Value.TotalSeconds));
        }

        page.Time.Advance(TimeSpan.FromSeconds(2.1));
        Assert.Equal(HttpStatusCode.OK, (await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"))).Status);
    }

    [Fact]
    public async Task Without_the_page_s_own_header_or_from_another_site_neither_signing_in_nor_acting_is_possible()
    {
        using var page = new ServedPage();
        page.Raise(AlarmKind.LowStroke);
        using var jar = new SocketsHttpHandler();
        using var client = page.Browser(jar);
        Assert.Equal(HttpStatusCode.OK, (await ServedPage.Answer(ServedPage.SignIn(client, "Olga"))).Status);

        async Task<HttpStatusCode> Try(string path, Action<HttpRequestMessage> spoil)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(page.Address, path))
            {
                Content = new StringContent(new JsonObject { ["name"] = "Olga", ["password"] = ServedPage.Password }.ToJsonString(), Encoding.UTF8, "application/json"),
            };
            if (path.EndsWith("acknowledge", StringComparison.Ordinal))
            {
                request.Content = null;
            }

            spoil(request);
            using var bare = new HttpClient(jar, disposeHandler: false);
            using var answer = await bare.SendAsync(request);
            return answer.StatusCode;
        }

        var own = page.Address.GetLeftPart(UriPartial.Authority);
        foreach (var path in (string[])["api/v1/sign-in", "api/v1/sign-out", "api/v1/alarms/low-stroke/acknowledge"])
        {
            Assert.Equal(HttpStatusCode.Forbidden, await Try(path, _ => { }));
            Assert.Equal(HttpStatusCode.Forbidden, await Try(path, request => request.Headers.Add("Origin", own)));
            Assert.Equal(HttpStatusCode.Forbidden, await Try(path, request => request.Headers.Add(PageAccess.Header, "1")));
            Assert.Equal(HttpStatusCode.Forbidden, await Try(path, request =>
            {
                request.Headers.Add(PageAccess.Header, "1");
                request.Headers.Add("Origin", "http://elsewhere.example");
            }));
            Assert.Equal(HttpStatusCode.Forbidden, await Try(path, request =>
            {
                request.Headers.Add(PageAccess.Header, "1");
                request.Headers.Add("Sec-Fetch-Site", "same-site");
            }));
        }

        Assert.Equal(AlarmState.Unacknowledged, page.Alarm(AlarmKind.LowStroke)!.State);
        Assert.Equal(HttpStatusCode.OK, await Try("api/v1/alarms/low-stroke/acknowledge", request =>
        {
            request.Headers.Add(PageAccess.Header, "1");
            request.Headers.Add("Sec-Fetch-Site", "same-origin");
        }));
        Assert.Equal((AlarmState.Acknowledged, "Olga"), (page.Alarm(AlarmKind.LowStroke)!.State, page.Alarm(AlarmKind.LowStroke)!.By));
    }

    [Fact]
    public async Task A_session_ends_by_rest_by_age_and_with_its_user()
    {
        using var page = new ServedPage();
        page.Raise(AlarmKind.LowStroke);
        Task<(HttpStatusCode Status, JsonNode Said)> Act() => ServedPage.Answer(ServedPage.Post(page.Client, "api/v1/alarms/low-stroke/unshelve"));

        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        for (var i = 0; i < 4; i++)
        {
            Assert.Equal(HttpStatusCode.Conflict, (await Act()).Status);
            page.Time.Advance(TimeSpan.FromMinutes(29));
        }

        page.Time.Advance(TimeSpan.FromMinutes(2));
        Assert.Equal(HttpStatusCode.Unauthorized, (await Act()).Status);

        // Looking at who is signed in keeps nobody signed in.
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        page.Time.Advance(TimeSpan.FromMinutes(20));
        Assert.True((bool)(await ServedPage.Answer(page.Client.GetAsync("api/v1/session"))).Said["signed_in"]!);
        page.Time.Advance(TimeSpan.FromMinutes(11));
        Assert.False((bool)(await ServedPage.Answer(page.Client.GetAsync("api/v1/session"))).Said["signed_in"]!);

        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        for (var i = 0; i < 26; i++)
        {
            Assert.Equal(HttpStatusCode.Conflict, (await Act()).Status);
            page.Time.Advance(TimeSpan.FromMinutes(28));
        }

        Assert.Equal(HttpStatusCode.Unauthorized, (await Act()).Status);

        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        var users = UsersFile.Read(page.UsersPath, out _)!;
        (users with { Users = [.. users.Users.Skip(1)] }).Write(page.UsersPath);
        page.Time.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(HttpStatusCode.Unauthorized, (await Act()).Status);
    }

    [Fact]
    public async Task A_token_acts_for_its_user_needs_no_header_of_the_page_and_is_over_when_it_is_taken_out()
    {
        using var page = new ServedPage();
        page.Raise(AlarmKind.LowStroke);
        var users = UsersFile.Read(page.UsersPath, out _)!;
        var (token, kept) = PageToken.Make("Tom", page.Time.GetUtcNow());
        (users with { Tokens = [kept] }).Write(page.UsersPath);
        Assert.DoesNotContain(token, File.ReadAllText(page.UsersPath), StringComparison.Ordinal);

        using var program = page.Program(token);
        Assert.Equal(HttpStatusCode.OK, (await ServedPage.Answer(ServedPage.Post(program, "api/v1/alarms/low-stroke/acknowledge"))).Status);
        Assert.Equal("Tom", page.Alarm(AlarmKind.LowStroke)!.By);
        using var other = page.Program(token[..^1] + (token[^1] == 'A' ? 'B' : 'A'));
        Assert.Equal(HttpStatusCode.Unauthorized, (await ServedPage.Answer(ServedPage.Post(other, "api/v1/alarms/low-stroke/acknowledge"))).Status);

        users.Write(page.UsersPath);
        page.Time.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(HttpStatusCode.Unauthorized, (await ServedPage.Answer(ServedPage.Post(program, "api/v1/alarms/low-stroke/unshelve"))).Status);
    }

    [Fact]
    public async Task A_file_of_users_that_becomes_open_to_others_lets_nobody_in()
    {
        using var page = new ServedPage();
        File.SetUnixFileMode(page.UsersPath, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherRead);
        page.Time.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(HttpStatusCode.Unauthorized, (await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"))).Status);
        Assert.Contains(page.Log, line => line.Contains("chmod 600", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Without_a_file_of_users_the_page_says_that_nobody_can_sign_in()
    {
        using var page = new ServedPage(users: false);
        var (status, said) = await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        Assert.Equal(HttpStatusCode.Forbidden, status);
        Assert.Contains("[page] users", (string)said["error"]!, StringComparison.Ordinal);
        Assert.False((bool)(await ServedPage.Answer(page.Client.GetAsync("api/v1/session"))).Said["possible"]!);
        Assert.False((bool)(await ServedPage.Answer(page.Client.GetAsync("api/v1/status"))).Said["acknowledge"]!["possible"]!);
    }

    [Theory]
    [InlineData("{\"name\":\"Olga\"}", 400)]
    [InlineData("{\"name\":\"Olga\",\"password\":7}", 400)]
    [InlineData("{\"name\":\"Olga\",\"password\":\"x\",\"more\":1}", 400)]
    [InlineData("[1]", 400)]
    [InlineData("{\"name\":", 400)]
    [InlineData("{{{{{{{{", 400)]
    [InlineData("", 400)]
    public async Task A_body_that_is_none_is_refused_in_one_sentence(string body, int status)
    {
        using var page = new ServedPage();
        using var answer = await page.Client.PostAsync("api/v1/sign-in", new StringContent(body, Encoding.UTF8, "application/json"));
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.NotEmpty((string)JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["error"]!);
    }

    [Fact]
    public async Task A_body_that_is_too_long_or_no_json_is_refused_whether_it_says_its_length_or_not()
    {
        using var page = new ServedPage();
        var whole = new StringContent($"{{\"name\":\"{new string('a', 5000)}\"}}", Encoding.UTF8, "application/json");
        using (var answer = await page.Client.PostAsync("api/v1/sign-in", whole))
        {
            Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        }

        using var request = new HttpRequestMessage(HttpMethod.Post, "api/v1/sign-in") { Content = new StreamContent(new MemoryStream(new byte[50_000])) };
        request.Headers.TransferEncodingChunked = true;
        request.Content.Headers.ContentType = new("application/json");
        using (var answer = await page.Client.SendAsync(request))
        {
            Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        }

        using var form = await page.Client.PostAsync("api/v1/sign-in", new FormUrlEncodedContent(new Dictionary<string, string> { ["name"] = "Olga", ["password"] = ServedPage.Password }));
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, form.StatusCode);
    }

    [Fact]
    public async Task With_a_certificate_all_is_encrypted_and_the_cookie_is_for_encrypted_connections_alone()
    {
        using var folder = new CertificateFolder();
        using var page = new ServedPage(settings => settings with { Certificate = PageCertificate.Read(folder.Certificate, folder.Key, out _) });
        Assert.Equal("https", page.Address.Scheme);
        using var handler = new SocketsHttpHandler
        {
            SslOptions = new SslClientAuthenticationOptions { CertificateChainPolicy = new() { TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck, CustomTrustStore = { folder.Root } } },
        };
        using var client = page.Browser(handler);
        using var answer = await ServedPage.SignIn(client, "Erika Ley");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));
        Assert.StartsWith("__Host-", cookie, StringComparison.Ordinal);
        Assert.Contains("secure", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.True((bool)(await ServedPage.Answer(client.GetAsync("api/v1/session"))).Said["signed_in"]!);

        // Who does not know the certificate is not taken in.
        var stranger = await Assert.ThrowsAsync<HttpRequestException>(() => page.Client.GetAsync("api/v1/status"));
        Assert.IsType<System.Security.Authentication.AuthenticationException>(stranger.InnerException);
    }

    /// <summary>A certificate made for the test, in files of PEM.</summary>
    internal sealed class CertificateFolder : IDisposable
    {
        private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-tls-").FullName;

        public CertificateFolder()
        {
            using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
            var request = new CertificateRequest("CN=cullet-board", key, HashAlgorithmName.SHA256);
            var names = new SubjectAlternativeNameBuilder();
            names.AddIpAddress(IPAddress.Loopback);
            names.AddDnsName("localhost");
            request.CertificateExtensions.Add(names.Build());
            request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: true, false, 0, true));
            Root = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(30));
            File.WriteAllText(Certificate, Root.ExportCertificatePem());
            File.WriteAllText(Key, key.ExportPkcs8PrivateKeyPem());
            File.SetUnixFileMode(Key, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        public X509Certificate2 Root { get; }

        public string Certificate => Path.Combine(folder, "page.pem");

        public string Key => Path.Combine(folder, "page.key");

        public void Dispose()
        {
            Root.Dispose();
            Directory.Delete(folder, recursive: true);
        }
    }
}
