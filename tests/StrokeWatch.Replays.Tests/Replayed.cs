using System.Text.Json.Nodes;
using StrokeWatch.Commands;

namespace StrokeWatch.Replays.Tests;

/// <summary>One run of the command <c>replay</c> inside this process.</summary>
internal sealed record Replayed(int Status, byte[] Bytes, string Text, string Error)
{
    /// <summary>Runs a case as the command line would.</summary>
    /// <param name="name">The case.</param>
    /// <param name="json">True for the document on standard output, false for the text.</param>
    public static Replayed Run(string name, bool json = true)
    {
        using var raw = new MemoryStream();
        using var output = new StringWriter();
        using var error = new StringWriter();
        string[] arguments = ["replay", Cases.At(Cases.Capture(name), ""), "--feeder", Cases.At(name, ".feeder.toml")];
        var status = CommandLine.Run(
            json ? [.. arguments, "--json", "-"] : arguments,
            new() { Output = output, Error = error, RawOutput = raw, Time = TimeProvider.System });
        return new(status, raw.ToArray(), output.ToString(), error.ToString());
    }

    /// <summary>Gives the document, its file named without a folder.</summary>
    public JsonNode Document()
    {
        var document = JsonNode.Parse(Bytes)!;
        document["capture"]!["file"] = Path.GetFileName((string)document["capture"]!["file"]!);
        return document;
    }
}
