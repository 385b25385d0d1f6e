using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Influx;

namespace StrokeWatch.Configuration;

/// <summary>The table [influx] of the daemon's configuration: the time-series server that rows are forwarded to.</summary>
internal static class InfluxPart
{
    /// <summary>Reads the table; null where it is not there or not as it must be.</summary>
    /// <param name="root">The configuration.</param>
    /// <param name="path">Its path, from whose folder paths in it count.</param>
    public static InfluxOptions? Read(TableReader root, string path)
    {
        const string Address = "the server's address in quotes, such as \"https://server:8086\",";
        if (root.Table("influx") is not { } table)
        {
            return null;
        }

        var written = table.Text("url", Address);
        var org = table.Text("org", "the organisation's name in quotes");
        var bucket = table.Text("bucket", "the bucket's name in quotes");
        var file = table.Text("token_file", "the path of a file that holds the token, in quotes,");
        var rows = table.Integer("batch_rows", 1, 10_000);
        var patience = table.Number("timeout_s", 1, 120, "s");
        table.Require("url", "the server's address");
        table.Require("org", "the organisation's name");
        table.Require("bucket", "the bucket's name");
        table.Finish();

        var url = Uri.TryCreate(written, UriKind.Absolute, out var address) && address.Scheme is "http" or "https" ? address : null;
        if (written is not null && (url is null || url.Query.Length > 0 || url.Fragment.Length > 0))
        {
            table.Refuse("url", $"`url` is no web address without anything after its path; {Address.TrimEnd(',')} was expected");
        }
        else if (url is { UserInfo.Length: > 0 })
        {
            table.Refuse("url", "`url` holds a name or a password; a token in the file that `token_file` names was expected");
        }

        var secret = file is null ? null : FeederFile.Beside(path, file);
        if (secret is not null && SecretFile.Read(secret, "token", out var trouble) is null)
        {
            table.Refuse("token_file", $"`token_file`: {trouble}");
        }

        return url is null || org is null || bucket is null ? null : new()
        {
            Url = url,
            Org = org,
            Bucket = bucket,
            TokenPath = secret,
            BatchRows = rows ?? 1000,
            Patience = TimeSpan.FromSeconds(patience ?? 10),
        };
    }
}
