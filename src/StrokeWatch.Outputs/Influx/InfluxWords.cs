namespace StrokeWatch.Outputs.Influx;

/// <summary>What is said of the time-series server: what is wrong, what becomes of the rows, what to do.</summary>
internal static class InfluxWords
{
    /// <summary>Words an answer that stops everything.</summary>
    public static string Of(in InfluxAnswer answer, InfluxOptions options) => answer switch
    {
        { Words: ['4', '0', '1' or '3', ..] } => $"{Name(options)} does not take the token ({answer.Words}): rows are held; check token_file and what the token may write",
        { Words: ['4', '0', '4', ..] } => $"{Name(options)} knows no such bucket or path ({answer.Words}): rows are held; check url, org and bucket",
        { Kind: InfluxAnswerKind.Denied } => $"{Name(options)} cannot be written to ({answer.Words}): rows are held until that is put right",
        { Words: [>= '0' and <= '9', ..] } => $"{Name(options)} takes nothing now ({answer.Words}): rows are held and sent later",
        _ => $"{Name(options)} does not answer ({answer.Words}): rows are held and sent later; check the network and the server",
    };

    /// <summary>Words a table of which every row is refused.</summary>
    public static string RefusesAll(string words, InfluxOptions options) =>
        $"{Name(options)} refuses every row ({words}): rows are held; check that url leads to a server that takes line protocol, and the bucket's own rules";

    /// <summary>Names the server, without what a web address may hold beyond that.</summary>
    public static string Name(InfluxOptions options) => $"Time-series server {options.Url.GetLeftPart(UriPartial.Path)}";
}
