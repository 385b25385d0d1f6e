using System.Net;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Configuration;

/// <summary>The table [page] of the daemon's configuration; without it no page is served.</summary>
internal static class PagePart
{
    private const string Expected = "an address with its port in quotes such as \"127.0.0.1:8787\"";

    /// <summary>Reads the table; null where it is not there.</summary>
    public static PageSettings? Read(TableReader root)
    {
        if (root.Table("page") is not { } table)
        {
            return null;
        }

        var text = table.Text("listen", Expected + ",");
        var open = table.Flag("open_reading") ?? false;
        var names = table.Items("names", "a list of host names in quotes", 0, 20, names: true);
        var listen = text is null ? PageSettings.Usual : PageSettings.Address(text);
        if (listen is null)
        {
            table.Refuse("listen", $"`listen` is \"{text}\"; {Expected} was expected");
        }
        else if (!IPAddress.IsLoopback(listen.Address) && !open)
        {
            table.Refuse("listen", $"`listen` is \"{text}\": whoever reaches that address could read the page; say `open_reading = true` where that is meant, or listen on 127.0.0.1");
        }

        if (names?.Any(name => name is not string) == true)
        {
            table.Refuse("names", "`names` holds a number; host names in quotes were expected");
        }

        table.Finish();
        return new(listen ?? PageSettings.Usual, [.. (names ?? []).OfType<string>()], Needed: true);
    }
}
