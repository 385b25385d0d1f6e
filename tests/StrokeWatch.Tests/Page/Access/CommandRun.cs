using System.Text;
using StrokeWatch.Commands;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>One run of a command in this process.</summary>
internal static class CommandRun
{
    public static (int Status, string Output, string Error) Of(params string[] arguments) => With("", null, arguments);

    public static (int Status, string Output, string Error) With(string input, Func<char>? keys, params string[] arguments)
    {
        using var raw = new MemoryStream();
        using var output = new StreamWriter(raw, new UTF8Encoding(false)) { AutoFlush = true };
        using var error = new StringWriter { NewLine = "\n" };
        var status = CommandLine.Run(arguments, new() { Output = output, Error = error, RawOutput = raw, Input = new StringReader(input), ReadKey = keys, Time = TimeProvider.System });
        return (status, Encoding.UTF8.GetString(raw.ToArray()), error.ToString());
    }
}
