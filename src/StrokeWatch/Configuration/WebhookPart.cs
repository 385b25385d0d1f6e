using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Webhook;

namespace StrokeWatch.Configuration;

/// <summary>The table [webhook] of the daemon's configuration: whom each step of an alarm is posted to.</summary>
internal static class WebhookPart
{
    /// <summary>Reads the table; null where it is not there or not as it must be.</summary>
    /// <param name="root">The configuration.</param>
    /// <param name="path">Its path, from whose folder paths in it count.</param>
    public static WebhookOptions? Read(TableReader root, string path)
    {
        const string Address = "an address in quotes, such as \"https://server/alarms\",";
        if (root.Table("webhook") is not { } table)
        {
            return null;
        }

        var written = table.Text("url", Address);
        var file = table.Text("secret_file", "the path of a file that holds the secret, in quotes,");
        var patience = table.Number("timeout_s", 1, 120, "s");
        table.Require("url", "an address");
        table.Require("secret_file", "the path of a file that holds the secret");
        table.Finish();

        var url = Uri.TryCreate(written, UriKind.Absolute, out var address) && address.Scheme is "http" or "https" ? address : null;
        if (written is not null && (url is null || url.Fragment.Length > 0))
        {
            table.Refuse("url", $"`url` is no web address; {Address.TrimEnd(',')} was expected");
        }
        else if (url is { UserInfo.Length: > 0 })
        {
            table.Refuse("url", "`url` holds a name or a password; messages are signed with the secret in the file that `secret_file` names");
        }

        var secret = file is null ? null : FeederFile.Beside(path, file);
        if (secret is not null && SecretFile.Read(secret, "secret", out var trouble) is null)
        {
            table.Refuse("secret_file", $"`secret_file`: {trouble}");
        }

        return url is null || secret is null ? null : new() { Url = url, SecretPath = secret, Patience = TimeSpan.FromSeconds(patience ?? 10) };
    }
}
