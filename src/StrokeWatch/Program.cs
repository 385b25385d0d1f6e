using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using StrokeWatch.Commands;

CultureInfo.DefaultThreadCurrentCulture = CultureInfo.InvariantCulture;
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
using var stop = new CancellationTokenSource();
void Stop(PosixSignalContext signal)
{
    signal.Cancel = true;
    stop.Cancel();
}

using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
using var terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
using var raw = Console.OpenStandardOutput();
var utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
using var output = new StreamWriter(raw, utf8) { AutoFlush = true };
using var error = new StreamWriter(Console.OpenStandardError(), utf8) { AutoFlush = true };
return CommandLine.Run(args, new()
{
    Output = output,
    Error = error,
    RawOutput = raw,
    Input = new StreamReader(Console.OpenStandardInput(), utf8),
    ReadKey = Console.IsInputRedirected ? null : () => Console.ReadKey(intercept: true).KeyChar,
    Terminal = !Console.IsOutputRedirected,
#pragma warning disable RS0030 // The composition root: the one place that names the real clock.
    Time = TimeProvider.System,
#pragma warning restore RS0030
    Stop = stop.Token,
});
