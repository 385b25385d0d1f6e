using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Mqtt;

/// <summary>A real broker of a test's own, on loopback and in a temporary folder; it can be hung, killed and started again.</summary>
internal sealed class Mosquitto : IDisposable
{
    public const string User = "sand";
    public const string Password = "dry-Sand_1";
    private const string Program = "/usr/sbin/mosquitto";

    private readonly List<string> lines = [];
    private Process? process;

    public string Folder { get; } = Directory.CreateTempSubdirectory("strokewatch-broker-").FullName;

    public int Port { get; } = FreePort();

    /// <summary>Skips the test where a program is not there.</summary>
    public static void Need()
    {
        Skip.IfNot(File.Exists(Program), "mosquitto is not installed (apt-get install mosquitto).");
        Skip.IfNot(File.Exists("/usr/bin/mosquitto_passwd"), "mosquitto_passwd is not installed.");
    }

    /// <summary>Asks for the one user and its password.</summary>
    public Mosquitto WithUser()
    {
        File.WriteAllText(At("users"), "");
        Run("/usr/bin/mosquitto_passwd", "-b", At("users"), User, Password);
        lines.AddRange(["allow_anonymous false", $"password_file {At("users")}"]);
        return this;
    }

    /// <summary>Encrypts with a certificate for 127.0.0.1 of an authority made for it, in ca.pem.</summary>
    public Mosquitto WithTls()
    {
        File.WriteAllText(At("extensions"), "subjectAltName=IP:127.0.0.1");
        Run("openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", "/CN=Glass works authority", "-keyout", At("ca.key"), "-out", At("ca.pem"));
        Run("openssl", "req", "-newkey", "rsa:2048", "-nodes", "-subj", "/CN=127.0.0.1", "-keyout", At("server.key"), "-out", At("server.csr"));
        Run("openssl", "x509", "-req", "-days", "2", "-in", At("server.csr"), "-CA", At("ca.pem"), "-CAkey", At("ca.key"), "-CAcreateserial", "-extfile", At("extensions"), "-out", At("server.pem"));
        lines.AddRange([$"certfile {At("server.pem")}", $"keyfile {At("server.key")}"]);
        return this;
    }

    /// <summary>Starts the broker and waits until it listens.</summary>
    public async Task<Mosquitto> Start()
    {
        File.WriteAllLines(At("broker.conf"), [$"user {Environment.UserName}", $"listener {Port} 127.0.0.1", .. lines.Count == 0 || !lines[0].StartsWith("allow", StringComparison.Ordinal) ? ["allow_anonymous true"] : Array.Empty<string>(), .. lines]);
        process = Process.Start(new ProcessStartInfo(Program, ["-c", At("broker.conf")]) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        process.BeginErrorReadLine();
        process.BeginOutputReadLine();
        for (var i = 0; i < 200; i++)
        {
            try
            {
                using var probe = new TcpClient();
                await probe.ConnectAsync(IPAddress.Loopback, Port);
                return this;
            }
            catch (SocketException)
            {
                await Task.Delay(50);
            }
        }

        throw new InvalidOperationException("The broker did not start.");
    }

    /// <summary>Stops the broker's process where it stands: connections stay open, nothing is answered.</summary>
    public void Hang() => Signal("STOP");

    /// <summary>Lets a hung broker go on.</summary>
    public void GoOn() => Signal("CONT");

    /// <summary>Kills the broker.</summary>
    public void Kill()
    {
        process!.Kill();
        process.WaitForExit();
        process.Dispose();
        process = null;
    }

    public string At(string name) => Path.Combine(Folder, name);

    public void Dispose()
    {
        if (process is not null)
        {
            Kill();
        }

        Directory.Delete(Folder, recursive: true);
    }

    private static void Run(string program, params string[] arguments)
    {
        using var run = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        var said = run.StandardError.ReadToEndAsync();
        _ = run.StandardOutput.ReadToEnd();
        run.WaitForExit();
        Assert.True(run.ExitCode == 0, said.Result);
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    private void Signal(string name)
    {
        using var kill = Process.Start("kill", [$"-{name}", process!.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }
}
