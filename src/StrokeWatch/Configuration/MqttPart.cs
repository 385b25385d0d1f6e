using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Mqtt;

namespace StrokeWatch.Configuration;

/// <summary>The table [mqtt] of the daemon's configuration: the broker that is told.</summary>
internal static class MqttPart
{
    private const int Clear = 1883;
    private const int Encrypted = 8883;

    /// <summary>Reads the table; null where it is not there or not as it must be.</summary>
    /// <param name="root">The configuration.</param>
    /// <param name="path">Its path, from whose folder paths in it count.</param>
    public static MqttOptions? Read(TableReader root, string path)
    {
        if (root.Table("mqtt") is not { } table)
        {
            return null;
        }

        var host = table.Text("host", "the broker's name or address in quotes");
        var tls = table.Flag("tls") ?? table.Has("ca_file");
        var port = table.Integer("port", 1, 65_535) ?? (tls ? Encrypted : Clear);
        var ca = table.Text("ca_file", "the path of a file of certificates in PEM, in quotes,");
        var user = table.Text("user", "the user's name in quotes");
        var password = table.Text("password_file", "the path of a file that holds the password, in quotes,");
        var prefix = Part(table, "prefix");
        var topic = Part(table, "topic");
        var version = table.Choice("version", "5", "3.1.1");
        var profile = table.Choice("profile", "plain", "sparkplug");
        var group = Part(table, "group");
        var primary = table.Text("primary_host", "the id of the primary host application in quotes");
        table.Require("host", "the broker's name or address");
        table.Finish();

        var (trusted, secret) = (ca is null ? null : FeederFile.Beside(path, ca), password is null ? null : FeederFile.Beside(path, password));
        if (trusted is not null && !File.Exists(trusted))
        {
            table.Refuse("ca_file", $"`ca_file`: {trusted} is not there; a file of certificates in PEM was expected");
        }

        if (ca is not null && !tls)
        {
            table.Refuse("ca_file", "`ca_file` is of use only with `tls = true`");
        }

        if (secret is not null && SecretFile.Read(secret, "password", out var trouble) is null)
        {
            table.Refuse("password_file", $"`password_file`: {trouble}");
        }

        if (profile == "sparkplug" && (prefix is not null || (group ?? topic)?.Contains('/') == true || topic?.Contains('/') == true))
        {
            table.Refuse("profile", "with `profile = \"sparkplug\"` topics begin with spBv1.0 and `group`, and neither `group` nor `topic` holds a slash; `prefix` is of no use there");
        }

        if (group is not null && profile != "sparkplug")
        {
            table.Refuse("group", "`group` is of use only with `profile = \"sparkplug\"`");
        }

        if (primary is not null && profile != "sparkplug")
        {
            table.Refuse("primary_host", "`primary_host` is of use only with `profile = \"sparkplug\"`");
        }
        else if (primary is not null && (primary.Length == 0 || primary.Any(letter => letter is '/' or '+' or '#' || char.IsControl(letter))))
        {
            table.Refuse("primary_host", "`primary_host` is the id of a host application: no slash, plus or hash is in it");
        }

        if (secret is not null && user is null)
        {
            table.Refuse("password_file", "`password_file` needs a `user`");
        }

        return host is null ? null : new()
        {
            Host = host,
            Port = port,
            Prefix = prefix ?? "strokewatch",
            Topic = topic ?? "",
            Tls = tls,
            Profile = profile == "sparkplug" ? MqttProfile.Sparkplug : MqttProfile.Plain,
            Group = group ?? "strokewatch",
            PrimaryHost = primary,
            CaPath = trusted,
            User = user,
            PasswordPath = secret,
            Old = version == "3.1.1",
        };
    }

    /// <summary>Makes the topics those of a feeder where the table does not say.</summary>
    public static MqttOptions Named(this MqttOptions options, string feeder) => options.Topic.Length > 0 ? options : options with { Topic = MqttSlug.Of(feeder) };

    private static string? Part(TableReader table, string key)
    {
        const string Expected = "letters, digits, hyphens and slashes between them, in quotes,";
        var text = table.Text(key, Expected);
        if (text is null || text.Split('/').All(level => level.Length > 0 && level.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_' or '.')))
        {
            return text;
        }

        table.Refuse(key, $"`{key}` is \"{text}\"; {Expected} were expected");
        return null;
    }
}
