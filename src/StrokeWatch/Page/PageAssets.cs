using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace StrokeWatch.Page;

/// <summary>The page's own files, built into the program; all words that people read come from one of them.</summary>
internal sealed class PageAssets
{
    private const string WordsFile = "words.en.json";
    private const string Prefix = "page/";

    /// <summary>Gets the types of the files by their ending.</summary>
    private static readonly Dictionary<string, string> Types = new()
    {
        [".html"] = "text/html; charset=utf-8",
        [".css"] = "text/css; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".svg"] = "image/svg+xml",
        [".json"] = "application/json; charset=utf-8",
    };

    /// <summary>Reads the files and puts the words into the page.</summary>
    public PageAssets()
    {
        var words = Words();
        var page = new StringBuilder(Encoding.UTF8.GetString(Read("index.html")));
        foreach (var (key, text) in words)
        {
            page.Replace($"{{{{{key}}}}}", HtmlEncoder.Default.Encode(text));
        }

        Index = Encoding.UTF8.GetBytes(page.ToString());
    }

    /// <summary>Gets the page with its words.</summary>
    public ReadOnlyMemory<byte> Index { get; }

    /// <summary>Gives the names of all files.</summary>
    public static IReadOnlyList<string> Files { get; } =
        [.. typeof(PageAssets).Assembly.GetManifestResourceNames().Where(name => name.StartsWith(Prefix, StringComparison.Ordinal)).Select(name => name[Prefix.Length..]).Order(StringComparer.Ordinal)];

    /// <summary>Gives the words by their keys.</summary>
    public static IReadOnlyDictionary<string, string> Words()
    {
        using var document = JsonDocument.Parse(Read(WordsFile));
        return document.RootElement.EnumerateObject().ToDictionary(word => word.Name, word => word.Value.GetString()!);
    }

    /// <summary>Gives a file.</summary>
    public static byte[] Read(string name)
    {
        using var stream = typeof(PageAssets).Assembly.GetManifestResourceStream(Prefix + name)
            ?? throw new InvalidOperationException($"The page's file {name} is not in the program.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    /// <summary>Gives the type of a file.</summary>
    public static string TypeOf(string name) => Types[Path.GetExtension(name)];
}
