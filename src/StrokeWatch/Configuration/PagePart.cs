using System.Net;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Page.Access;

namespace StrokeWatch.Configuration;

/// <summary>The table [page] of the daemon's configuration; without it no page is served.</summary>
internal static class PagePart
{
    private const string Expected = "an address with its port in quotes such as \"127.0.0.1:8787\"";

    /// <summary>Reads the table; null where it is not there.</summary>
    /// <param name="root">The configuration.</param>
    /// <param name="path">Its path, from whose folder paths in it count.</param>
    public static PageSettings? Read(TableReader root, string path)
    {
        if (root.Table("page") is not { } table)
        {
            return null;
        }

        var names = table.Items("names", "a list of host names in quotes", 0, 20, names: true);
        if (names?.Any(name => name is not string) == true)
        {
            table.Refuse("names", "`names` holds a number; host names in quotes were expected");
        }

        var certificate = Certificate(table, path);
        var usual = new PageSettings(Address(table), [.. (names ?? []).OfType<string>()], Needed: true);
        var settings = usual with
        {
            Certificate = certificate,
            Users = Users(table, path),
            OperatorShelf = Span(table.Number("operators_shelve_min", 1, 720, "min") * 60) ?? usual.OperatorShelf,
            Rest = Span(table.Number("idle_min", 1, 720, "min") * 60) ?? usual.Rest,
            Age = Span(table.Number("longest_session_h", 0.1, 168, "h") * 3600) ?? usual.Age,
        };
        table.Finish();
        return settings;
    }

    private static TimeSpan? Span(double? seconds) => seconds is { } known ? TimeSpan.FromSeconds(known) : null;

    private static IPEndPoint Address(TableReader table)
    {
        var text = table.Text("listen", Expected + ",");
        var (open, plain) = (table.Flag("open_reading") ?? false, table.Flag("plain") ?? false);
        var listen = text is null ? PageSettings.Usual : PageSettings.Address(text);
        if (listen is null)
        {
            table.Refuse("listen", $"`listen` is \"{text}\"; {Expected} was expected");
        }
        else if (!IPAddress.IsLoopback(listen.Address) && !open)
        {
            table.Refuse("listen", $"`listen` is \"{text}\": whoever reaches that address could read the page; say `open_reading = true` where that is meant, or listen on 127.0.0.1");
        }
        else if (!IPAddress.IsLoopback(listen.Address) && !plain && !table.Has("certificate"))
        {
            table.Refuse("listen", $"`listen` is \"{text}\" and nothing is encrypted: whoever listens on that network reads passwords; give `certificate` and `key`, or say `plain = true` where that is meant");
        }

        return listen ?? PageSettings.Usual;
    }

    private static PageCertificate? Certificate(TableReader table, string path)
    {
        var certificate = table.Text("certificate", "the path of a certificate in PEM, in quotes,");
        var key = table.Text("key", "the path of the certificate's key in PEM, in quotes,");
        if (table.Has("certificate") != table.Has("key"))
        {
            table.Refuse(table.Has("key") ? "key" : "certificate", "`certificate` and `key` go together; one is missing");
            return null;
        }

        if (certificate is null || key is null)
        {
            return null;
        }

        var read = PageCertificate.Read(FeederFile.Beside(path, certificate), FeederFile.Beside(path, key), out var trouble);
        if (trouble is var (wrong, words))
        {
            table.Refuse(wrong, $"`{wrong}`: {words}");
        }

        return read;
    }

    private static string? Users(TableReader table, string path)
    {
        if (table.Text("users", "the path of a file of users, in quotes,") is not { } file)
        {
            return null;
        }

        var users = FeederFile.Beside(path, file);
        if (UsersFile.Read(users, out var troubles) is null)
        {
            table.Refuse("users", $"`users`: {troubles[0]}");
        }

        return users;
    }
}
