using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace StrokeWatch.Benchmarks;

/// <summary>A real broker of a benchmark's own, on loopback.</summary>
internal sealed class Broker : IDisposable
{
    private const string Program = "/usr/sbin/mosquitto";

    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-broker").FullName;
    private readonly Process process;

    public Broker()
    {
        if (!File.Exists(Program))
        {
            throw new FileNotFoundException($"{Program} is not there: apt-get install mosquitto");
        }

        Port = FreePort();
        var file = Path.Combine(folder, "broker.conf");
        File.WriteAllText(file, $"user {Environment.UserName}\nlistener {Port.ToString(CultureInfo.InvariantCulture)} 127.0.0.1\nallow_anonymous true\n");
        process = Process.Start(new ProcessStartInfo(Program, ["-c", file]) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        process.BeginErrorReadLine();
        process.BeginOutputReadLine();
        for (var i = 0; i < 100 && !Answers(); i++)
        {
            Thread.Sleep(50);
        }
    }

    public int Port { get; }

    public static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    public void Dispose()
    {
        process.Kill();
        process.WaitForExit();
        process.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private bool Answers()
    {
        try
        {
            using var probe = new TcpClient();
            probe.Connect(IPAddress.Loopback, Port);
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }
}
